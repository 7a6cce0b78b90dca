#include "core/verdict/stand_in_path.h"

#include <algorithm>

namespace casebound {

namespace {

struct Step {
    std::string node;
    Bits on;
    Edge edge;
    std::size_t from{};
};

std::vector<Edge> trace(const std::vector<Step>& steps, std::size_t at) {
    std::vector<Edge> path;
    for (; at != 0; at = steps[at].from) path.push_back(steps[at].edge);
    return path;
}

}  // namespace

std::vector<Edge> PathSearch::within(SwapVerdict worst, bool alone, Evidence weakest) const {
    std::vector<Step> steps{{wanted, left.value_or(Bits{}), {}, 0}};
    for (std::size_t at = 0; at < steps.size(); ++at) {
        if (steps[at].node == offered) return trace(steps, at);
        for (const auto& edge : edges_to(steps[at].node)) {
            if (alone && !edge.also_requires.empty()) continue;
            if (edge.origin.evidence > weakest || !usable(edge) || gives(edge) > worst || barred(edge.offered))
                continue;
            const Bits on = left ? steps[at].on & where(edge) : Bits{};
            if (left && on.none()) continue;
            const bool known = std::any_of(steps.begin(), steps.end(), [&](const Step& step) {
                return step.node == edge.offered && step.on.contains(on);
            });
            if (!known) steps.push_back({edge.offered, on, edge, at});
        }
    }
    return {};
}

std::vector<Edge> PathSearch::best() const {
    for (const auto verdict : {SwapVerdict::yes, SwapVerdict::yes_if, SwapVerdict::differs})
        for (const bool alone : {true, false})
            for (int evidence = 0; evidence <= static_cast<int>(Evidence::invented); ++evidence)
                if (auto path = within(verdict, alone, static_cast<Evidence>(evidence)); !path.empty()) return path;
    return {};
}

}  // namespace casebound
