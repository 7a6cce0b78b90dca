// Throws when it is asked for the torques of a role.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Tightening tightening(std::string_view, const Services&) const override { throw std::runtime_error("no wrench"); }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
