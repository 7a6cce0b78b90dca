// Loads well, and aborts when asked.
#include <cstdlib>

#include "harmless.h"

namespace {
class Crash : public Harmless {
    casebound::Vocabulary vocabulary() const override { std::abort(); }
};
}  // namespace

CASEBOUND_MANIFEST("crash_in_vocabulary", instance_of<Crash>)
