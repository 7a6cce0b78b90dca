// Throws something that is no exception type.
#include "harmless.h"

namespace {
class Thrower : public Harmless {
    std::vector<casebound::Inquiry> inquiries() const override { throw 42; }
};
}  // namespace

CASEBOUND_MANIFEST("throw_number", instance_of<Thrower>)
