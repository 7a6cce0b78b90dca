// Lowers a verdict and does not say why.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Examination examine(const Candidate&, const Services&) const override {
        return {{{"wiper_arm=hook", Verdict::check_first, "", {}}}, {}, {}, {}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
