#include "core/cover/spec_ways.h"

#include <algorithm>
#include <set>

namespace casebound {

namespace {

using Ways = std::vector<std::vector<Serves>>;  // by spec

Ways specs_of(const Need& need) {
    Ways specs;
    for (const Serves& one : need.served_by) {
        const auto known = std::find_if(specs.begin(), specs.end(),
                                        [&](const auto& spec) { return spec.front().spec == one.spec; });
        if (known == specs.end()) specs.push_back({one});
        else known->push_back(one);
    }
    return specs;
}

// None when the need knows but one spec, or one that is offered.
Ways offered_specs(const Need& need, const std::set<std::string>& offered) {
    Ways specs = specs_of(need);
    if (specs.size() < 2) return {};
    const auto is_offered = [&](const std::vector<Serves>& spec) {
        return std::any_of(spec.begin(), spec.end(), [&](const Serves& one) { return offered.count(one.item) > 0; });
    };
    if (std::any_of(specs.begin(), specs.end(), is_offered))
        std::erase_if(specs, [&](const auto& spec) { return !is_offered(spec); });
    return specs;
}

}  // namespace

SpecWays spec_ways(const std::vector<Need>& needs, const Market& market, std::size_t most) {
    std::set<std::string> offered;
    for (const Offer& offer : market.offers) offered.insert(offer.item);
    SpecWays found{{needs}, true};
    for (std::size_t i = 0; i < needs.size(); ++i) {
        const Ways specs = offered_specs(needs[i], offered);
        if (specs.empty()) continue;
        std::vector<std::vector<Need>> longer;
        for (const auto& way : found.ways)
            for (const auto& spec : specs) {
                longer.push_back(way);
                longer.back()[i].served_by = spec;
            }
        found.all = found.all && longer.size() <= most;
        if (longer.size() > most) longer.resize(most);
        found.ways = std::move(longer);
    }
    return found;
}

}  // namespace casebound
