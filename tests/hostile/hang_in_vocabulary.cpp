// Loads well, and sleeps for ever when asked.
#include <unistd.h>

#include "harmless.h"

namespace {
class Hang : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        for (;;) ::pause();
    }
};
}  // namespace

CASEBOUND_MANIFEST("hang_in_vocabulary", instance_of<Hang>)
