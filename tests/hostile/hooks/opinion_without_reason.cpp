// Refuses a stand-in and does not say why.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Opinion may_stand_in(const Substitution&, const Services&) const override {
        Opinion opinion;
        opinion.at_most = Verdict::does_not_fit;
        return opinion;
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
