// The bench-match sheet: for every line of the jobs the parts on record, also those of other configurations that a
// counter may hand over by mistake, and what tells them apart, with room for what old and new part show. Judges nothing.
#pragma once

#include "core/sheets/sheets.h"

namespace casebound {

struct BenchPart {
    std::string items;    // "Q312-1141, same as LD-2141"; empty: no item of the group is on record
    std::string title;    // of the group
    std::string where;    // which configurations of the line it is for
    std::string verdict;  // on this vehicle
};

struct BenchMark {
    std::string attribute, title, how, told;
};  // told: "" when nobody has said

struct BenchLine {
    std::string role, title, need;
    std::vector<BenchPart> parts;
    std::vector<BenchMark> marks;     // attributes that tell the parts apart
    std::vector<std::string> doubts;  // of what was told, where another part might be right
};

struct BenchSheet {
    SheetHead head;
    std::vector<std::string> jobs;  // titles
    std::vector<BenchLine> lines;
};

// Throws Error(usage) when no job is named and none is open.
BenchSheet bench_sheet(Session& session, const Situation& situation, const std::vector<std::string>& jobs);
Sheet sheet_of(const BenchSheet& sheet);

}  // namespace casebound
