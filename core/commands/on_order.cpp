#include "core/commands/on_order.h"

#include <set>

#include "core/buy/pieces.h"

namespace casebound {

std::string item_on_order(Session& session, const std::string& vehicle, const std::string& role,
                          std::optional<std::int64_t> corrects) {
    std::set<std::string> ordered, waiting;
    for (const auto& one : ShopRecords(session.shop()).events(vehicle)) {
        if (!one.stands || one.role != role || one.item.empty() || corrects == one.id) continue;
        if (one.event == "ordered") ordered.insert(one.item), waiting.insert(one.item);
        else waiting.erase(one.item);
    }
    const auto& all = ordered.size() == 1 ? ordered : waiting;
    return all.size() == 1 ? *all.begin() : "";
}

std::string seller_of_order(Session& session, const std::string& vehicle, const LineEvent& event) {
    std::string seller;
    for (const auto& one : ShopRecords(session.shop()).events(vehicle))
        if (one.stands && one.event == "ordered" && one.role == event.role && one.seller != own_shelf_name &&
            (event.item.empty() || one.item == event.item))
            seller = one.seller;
    return seller;
}

}  // namespace casebound
