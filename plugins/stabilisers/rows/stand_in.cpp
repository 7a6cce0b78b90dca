#include "rows/stand_in.h"

#include "core/contract/comparison.h"
#include "rows/records.h"
#include "science/bar.h"

namespace casebound::stabilisers {
namespace {

constexpr const char* held_beside = "ends, thread, pitch, length between centres, angle";

Opinion of_links(const Row& wanted, const Row& offered, const Substitution& substitution) {
    Opinion opinion;
    opinion.source = weaker(row_source(wanted), row_source(offered));
    auto here = link_of_row(wanted);
    if (const auto place = place_of_link(substitution.role); place.axle != Axle::unknown) here.place = place;
    for (const auto& difference : differences(here, link_of_row(offered))) put(opinion, difference);
    return opinion;
}

Opinion of_bushes(const Row& wanted, const Row& offered) {
    Opinion opinion;
    opinion.source = weaker(row_source(wanted), row_source(offered));
    const double bar_mm = wanted.need_number("bar_mm"), bush_mm = offered.need_number("bar_mm");
    if (bush_on_bar(bush_mm, bar_mm, std::nullopt) != BushAnswer::for_this_bar)
        put(opinion,
            {"bar", "a bush for " + with_unit(bush_mm, "mm") + ", the bar has " + with_unit(bar_mm, "mm"), Weight::no});
    if (!wanted.stated("form") || !offered.stated("form")) put(opinion, {"form", "", Weight::not_known});
    else if (wanted.text("form") != offered.text("form"))
        put(opinion, {"form", "how it goes over the bar, and whether it is glued", Weight::needs_something});
    return opinion;
}

}  // namespace

Opinion may_stand_in(const Substitution& substitution, const Services& services) {
    if (substitution.wanted_group == substitution.offered_group) return {};
    const auto& facts = services.facts;
    for (const auto* table : {"stabilisers_links", "stabilisers_bushes"}) {
        const auto* wanted = row_of_group(facts, table, substitution.wanted_group);
        const auto* offered = row_of_group(facts, table, substitution.offered_group);
        if (!wanted && !offered) continue;
        if (!wanted) return one_not_recorded(substitution.wanted_group, held_beside);
        if (!offered) return one_not_recorded(substitution.offered_group, held_beside);
        return table == std::string_view("stabilisers_links") ? of_links(*wanted, *offered, substitution)
                                                              : of_bushes(*wanted, *offered);
    }
    return {};
}

}  // namespace casebound::stabilisers
