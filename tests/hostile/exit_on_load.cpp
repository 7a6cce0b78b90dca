// Ends the program from a global constructor.
#include <cstdlib>

#include "harmless.h"

namespace {
struct Leave {
    Leave() { std::exit(0); }
} leave;
}  // namespace

CASEBOUND_MANIFEST("exit_on_load", instance_of<Harmless>)
