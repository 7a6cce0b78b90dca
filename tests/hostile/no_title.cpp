// Does not say in words what it is about.
#include "harmless.h"

namespace {
class Untitled : public Harmless {
    std::string_view title() const override { return ""; }
};
}  // namespace

CASEBOUND_MANIFEST("no_title", instance_of<Untitled>)
