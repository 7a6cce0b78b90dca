// One damaged pack after another: each is refused with the right words at the right place, and the catalog stays byte
// for byte as it was.
#pragma once

#include <catch2/catch.hpp>

#include "tests/pack/pack_fixture.h"

namespace casebound::tests {

struct Damage {
    std::string claim, file, from, to;
    std::vector<std::string> faults;  // each expected fault begins so, in order
};

inline bool begins(const std::string& text, const std::string& start) { return text.substr(0, start.size()) == start; }

// The sound pack is loaded first, so that a damaged one would replace it.
inline void check_damage(const Damage& damage) {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    REQUIRE(joined(texts(load_pack(pack.path(), catalog.path(), plugins()).faults)).empty());
    const auto before = catalog.bytes();
    pack.replace(damage.file, damage.from, damage.to);
    const auto report = load_pack(pack.path(), catalog.path(), plugins());
    const auto found = texts(report.faults);
    INFO(damage.claim << "\n" << joined(found));
    CHECK(found.size() == damage.faults.size());
    for (std::size_t i = 0; i < std::min(found.size(), damage.faults.size()); ++i) {
        INFO("wanted " << damage.faults[i]);
        CHECK(begins(found[i], damage.faults[i]));
    }
    CHECK(catalog.bytes() == before);
}

inline void check_all(const std::vector<Damage>& damages) {
    for (const auto& damage : damages) check_damage(damage);
}

}  // namespace casebound::tests
