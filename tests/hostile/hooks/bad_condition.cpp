// Objects on a condition that cannot be read.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Examination examine(const Candidate&, const Services&) const override {
        return {{{"wiper_arm=hook; <<", Verdict::does_not_fit, "the arm has a hook", {}}}, {}, {}, {}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
