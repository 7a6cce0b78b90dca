// Needs a function that nobody has.
#include "harmless.h"

namespace elsewhere {
int never_written(int);
}

namespace {
class Needy : public Harmless {
    std::string_view schema() const override { return elsewhere::never_written(1) ? "" : " "; }
};
}  // namespace

CASEBOUND_MANIFEST("undefined_symbol", instance_of<Needy>)
