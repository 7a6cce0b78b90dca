// The oracle's line that nobody has listed: what its rows tell apart. Part of the oracle; its rules stand in oracle.h.
#include "facts.h"

namespace chain {

World listed(World world) {
    if (!world.open) return world;
    std::array<std::set<int>, line_attributes> values;
    const auto add = [&](const When& when) {
        for (const auto& term : when)
            if (term.attribute < line_attributes)
                values[static_cast<std::size_t>(term.attribute)].insert(term.values.begin(), term.values.end());
    };
    for (const auto& one : world.statements) add(one.when);
    for (const auto& one : world.job) add(one.when);
    for (const auto& one : world.stand_ins) add(one.when);
    for (const auto& one : world.objections) add(one.when);
    for (const auto& one : world.told)
        if (one.attribute < line_attributes && !values[static_cast<std::size_t>(one.attribute)].empty())
            values[static_cast<std::size_t>(one.attribute)].insert(one.values.begin(), one.values.end());
    world.configurations.clear();
    for (auto& some : values) some.insert(some.empty() ? no_matter : something_else);
    for (const int a : values[frame])
        for (const int b : values[made])
            for (const int c : values[depth]) world.configurations.push_back({{a, b, c}, 1, 1});
    return world;
}

}  // namespace chain
