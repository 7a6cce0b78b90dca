// Throws when it is asked which services it knows.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    std::vector<ServiceInquiry> services_due() const override { throw std::logic_error("no calendar"); }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
