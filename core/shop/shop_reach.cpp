#include "core/shop/shop_reach.h"

#include "core/ground/dates.h"

namespace casebound {

std::vector<OutOfReach> out_of_reach(const Database& shop, std::string_view vehicle) {
    std::vector<OutOfReach> all;
    Statement rows(
        shop,
        "SELECT o.attribute, o.note, o.entered FROM out_of_reach o JOIN vehicles v ON v.id = o.vehicle WHERE "
        "v.name = ? AND NOT o.reached AND o.id = (SELECT max(id) FROM out_of_reach n WHERE n.vehicle = "
        "o.vehicle AND n.attribute = o.attribute) AND NOT EXISTS (SELECT 1 FROM tellings t WHERE t.vehicle = "
        "o.vehicle AND t.attribute = o.attribute AND t.id > o.after_telling AND t.text IS NOT NULL) "
        "ORDER BY o.attribute");
    rows.bind(1, vehicle);
    while (rows.step()) all.push_back({rows.str(0), rows.str(1), rows.str(2)});
    return all;
}

void tell_reach(Database& shop, std::string_view vehicle, std::string_view attribute, bool reached,
                std::string_view note) {
    Statement row(shop,
                  "INSERT INTO out_of_reach (vehicle, attribute, after_telling, reached, note, entered) SELECT id, ?2, "
                  "(SELECT coalesce(max(t.id), 0) FROM tellings t WHERE t.vehicle = v.id), ?3, ?4, ?5 FROM vehicles v "
                  "WHERE name = ?1");
    row.bind(1, vehicle).bind(2, attribute).bind(3, std::int64_t{reached}).bind_or_null(4, note).bind(5, today());
    row.run();
}

}  // namespace casebound
