#include "core/commands/record_shelf.h"

#include <fmt/format.h>

#include "core/buy/pieces.h"
#include "core/buy/shelf_keeping.h"

namespace casebound {

namespace {

// What a record takes from the own shelf beside others of its job: of a kit nothing more, where one of it is in use.
double taken_from_shelf(const Catalog& catalog, const WorkRecord& record, const std::vector<WorkRecord>& others) {
    const auto quantity_of = [](const WorkRecord& one) { return one.quantity ? one.quantity : one.in_l; };
    if (!is_kit(catalog, record.item)) return quantity_of(record).value_or(1);
    KitCount before(catalog, record.item);
    for (const auto& one : others)
        if (one.stands && one.made == "own_stock" && one.item == record.item && one.job == record.job &&
            one.id != record.id)
            before.add(one.role, quantity_of(one));
    auto after = before;
    after.add(record.role, quantity_of(record));
    return after.kits() - before.kits();
}

}  // namespace

std::vector<ShelfMove> shelf_moves(const Catalog& catalog, const std::string& vehicle, const WorkRecord& record,
                                   const WorkRecord* corrected, std::vector<WorkRecord> others) {
    std::vector<ShelfMove> moves;
    const auto move = [&](const WorkRecord& one, double sign, const char* why, const std::string& note) {
        if (const auto quantity = taken_from_shelf(catalog, one, others); quantity > 0)
            moves.push_back({one.item, sign * quantity, why, note});
    };
    if (corrected && corrected->made == "own_stock")
        move(*corrected, 1, "put back", fmt::format("{}: entry {} is corrected", vehicle, corrected->id));
    if (corrected) std::erase_if(others, [id = corrected->id](const WorkRecord& one) { return one.id == id; });
    if (record.made == "own_stock") {
        if (record.item.empty()) throw Error(Exit::usage, "item: what was taken from the own shelf: write item=KEY");
        move(record, -1, "taken", fmt::format("fitted to {}", vehicle));
    }
    return moves;
}

// A left-over part lies on the own shelf from then on; a correction takes the earlier one off it.
std::vector<ShelfMove> left_over_moves(Session& session, const std::string& vehicle, const LineEvent& event) {
    std::vector<ShelfMove> moves;
    for (const auto& other : ShopRecords(session.shop()).events(vehicle))
        if (other.stands && event.corrects == other.id && other.event == "left_over")
            moves.push_back({other.item, -other.quantity.value_or(1), "taken",
                             fmt::format("{}: entry {} is corrected", vehicle, other.id)});
    if (event.event == "left_over")
        moves.push_back({event.item, event.quantity.value_or(1), "left over", vehicle,
                         day_opened(session.catalog(), event.item, event.quantity.value_or(1), event.date)});
    return moves;
}

}  // namespace casebound
