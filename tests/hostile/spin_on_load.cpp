// Never comes back from a global constructor, and keeps the processor busy.
#include "harmless.h"

namespace {
struct Spin {
    Spin() {
        volatile bool on = true;
        while (on) {}
    }
} spin;
}  // namespace

CASEBOUND_MANIFEST("spin_on_load", instance_of<Harmless>)
