// Crashes in a global constructor.
#include <csignal>

#include "harmless.h"

namespace {
struct Crash {
    Crash() { std::raise(SIGSEGV); }
} crash;
}  // namespace

CASEBOUND_MANIFEST("crash_on_load", instance_of<Harmless>)
