// The tables of schema/core.sql, which any pack may fill and any domain may read and refer to.
#pragma once

#include <algorithm>
#include <array>
#include <string_view>

namespace casebound {

inline constexpr std::array<std::string_view, 17> pack_tables{
    "sources",       "attributes",   "lines",     "configurations", "items",    "groups",
    "group_members", "applications", "stand_ins", "kit_contents",   "jobs",     "job_roles",
    "stays_behind",  "cautions",     "causes",    "cause_signs",    "imitators"};

inline bool is_pack_table(std::string_view name) {
    return std::find(pack_tables.begin(), pack_tables.end(), name) != pack_tables.end();
}

}  // namespace casebound
