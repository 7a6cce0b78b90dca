// A domain for measurements: twelve roles, one item kind each for parts and fluids. Everything is invented.
#pragma once

#include "core/host/plugin_host.h"

namespace casebound::bench {

class SyntheticDomain final : public Domain {
public:
    std::string_view title() const override { return "bench"; }
    Vocabulary vocabulary() const override {
        Vocabulary words;
        words.item_kinds = {{"bench-part", "part", "each"}, {"bench-fluid", "fluid", "L"}};
        for (int i = 0; i < 10; ++i)
            words.roles.push_back({"bench-part-" + std::to_string(i), "part", "bench-part", StandIns::may_be_offered});
        words.roles.push_back({"bench-fluid-0", "fluid", "bench-fluid", StandIns::may_be_offered});
        words.roles.push_back({"bench-fluid-1", "fluid", "bench-fluid", StandIns::may_be_offered});
        return words;
    }
    std::string_view schema() const override { return ""; }
};

inline const Plugins& synthetic_plugins() {
    static const SyntheticDomain domain;
    static const Plugins plugins{{{"bench", "built in", domain, domain.vocabulary()}}, {}};
    return plugins;
}

}  // namespace casebound::bench
