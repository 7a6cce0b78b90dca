#include "core/buy/shelf_keeping.h"

#include "core/buy/rounding.h"

#include <cmath>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/text_layout.h"

namespace casebound {

namespace {

std::string months_after(const std::string& date, int months) {
    const Database clock(":memory:", Database::Mode::create);
    Statement later(clock, "SELECT date(?1, ?2)");
    later.bind(1, date).bind(2, fmt::format("{:+d} months", months)).step();
    return later.str(0);
}

}  // namespace

std::optional<int> keeps_months(const Catalog& catalog, const std::string& item) {
    Statement tables(catalog.database(),
                     "SELECT m.name FROM sqlite_schema m WHERE m.type = 'table' AND EXISTS (SELECT 1 FROM "
                     "pragma_table_info(m.name) WHERE name = 'shelf_months') AND EXISTS (SELECT 1 FROM "
                     "pragma_table_info(m.name) WHERE name = 'item') ORDER BY m.name");
    while (tables.step())
        for (const auto& row : catalog.facts().rows(tables.str(0), "item", item))
            if (const auto months = row.number("shelf_months")) return static_cast<int>(*months);
    return std::nullopt;
}

double opened_part(const Catalog& catalog, const std::string& item, double quantity) {
    const auto known = catalog.item(item);
    const auto* kind = known ? catalog.vocabularies().item_kind(known->kind) : nullptr;
    if (!kind || kind->unit == "each" || known->pack_quantity <= 0) return 0;
    const double rest = quantity - std::floor(quantity / known->pack_quantity + rounding) * known->pack_quantity;
    return rest > rounding ? rest : 0;
}

std::string day_opened(const Catalog& catalog, const std::string& item, double quantity, const std::string& date) {
    if (opened_part(catalog, item, quantity) == 0) return "";
    return date.empty() ? today() : date;
}

std::string passed_keeping(const Catalog& catalog, const OnShelf& one) {
    if (one.opened.empty() || opened_part(catalog, one.item, one.quantity) == 0) return "";
    const auto months = keeps_months(catalog, one.item);
    if (!months) return "";
    const auto until = months_after(one.opened, *months);
    if (until >= today()) return "";
    return fmt::format("opened {}, keeps {} once opened: passed on {}", one.opened,
                       plural(static_cast<std::size_t>(*months), "month"), until);
}

}  // namespace casebound
