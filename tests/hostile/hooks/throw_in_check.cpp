// Throws when a pack is checked.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    std::vector<RowFault> check(const Facts&, std::string_view) const override { throw std::out_of_range("map::at"); }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
