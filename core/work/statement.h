// One statement of somebody's as rows of the person's own pack: what goes where on a vehicle's line, or a row of any
// table that a pack has, core's and every domain's, by the columns that the table declares. What is known is filled in:
// the vehicle's line, the group of a part, a new part's own rows, a number in the column's unit. Writes nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/session/session.h"
#include "core/work/measured_pack.h"

namespace casebound {

// What is said beside the cells themselves.
struct Saying {
    std::string who;              // the title of the source
    std::string kind = "memory";  // of the source
    std::string where, note;      // where: the condition, "" everywhere
    std::string title, pack;      // of a part that no pack has: what is on its label, how much one pack holds
};

struct PlaceSaid {
    std::string role, part;  // part: "none" where there is no such place
    bool fits = true;
    std::string quantity{};  // how much the place takes; "" not said
};

// Throws Error(usage) that names every fault by its column or option.
OwnFact place_statement(Session& session, const Situation& vehicle, const PlaceSaid& said, const Saying& saying);
OwnFact table_statement(Session& session, const Situation& vehicle, const std::string& table, const OwnCells& cells,
                        const Saying& saying);

// A statement as it stands with some of its cells said anew; `saying` where it says anything.
OwnFact corrected_statement(Session& session, const Situation& vehicle, const OwnStatement& old, const OwnCells& cells,
                            const Saying& saying);

// The table that is meant by "fasteners" or "stays-behind"; null when it is no table whose rows have a source. Throws
// Error(usage) when it may be several.
const TableShape* table_meant(const PackShape& shape, std::string_view typed);
std::vector<const TableShape*> tables_with_source(const PackShape& shape);

// "mm" of "height_mm"; "" when the column's name ends in no unit.
std::string unit_of_column(std::string_view column);
std::string column_words(std::string_view column);  // "Neck od" of "neck_od_mm"

// The place that is meant: "Pan filter" and "pan_filter" are pan-filter. Throws Error(usage) with a near miss.
std::string role_meant(Session& session, std::string_view typed);

// "maker", "common_practice": as typed, with a dash or a blank. Throws Error(usage).
std::string source_kind_meant(std::string typed);

}  // namespace casebound
