// Two groups that are recorded for one place, compared by the columns that its domain says decide it. Compares what packs
// state; a column that is not stated of both shows nothing.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/verdict/fits.h"

namespace casebound {

// A role as its domain declares it: the catalog keeps of it only what packs need. nullptr where its domain is not loaded.
const Role* declared_role(const Plugins& plugins, std::string_view role);

struct Compared {
    bool equal{};            // every deciding column is stated of both, and the same
    std::string difference;  // "height, mm: 33 and 51"; empty where no column that is stated of both differs
    SourceNote source{};     // the weaker of the two rows
};

class DecidingColumns {
public:
    // Requires: a place of a loaded domain. The judge must outlive this.
    DecidingColumns(const Judge& judge, const RoleAnswer& place);

    Compared compare(const std::string& one_group, const std::string& other_group) const;

private:
    const DecidedBy* decided_by_ = nullptr;
    const Facts* facts_ = nullptr;
};

}  // namespace casebound
