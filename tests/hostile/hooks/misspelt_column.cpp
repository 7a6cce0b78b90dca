// Misspells a column, and takes what it does not find for nothing.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Examination examine(const Candidate& candidate, const Services& services) const override {
        Examination examination;
        for (const auto& row : services.facts.rows("wipers_blades", "group_key", candidate.group))
            if (row.number("lenght_mm").value_or(0) < 300)
                examination.objections.push_back({"", Verdict::does_not_fit, "too short", row_source(row)});
        return examination;
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
