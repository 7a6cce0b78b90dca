// Not hostile: declares a word that the refused word_of_door_seals declares otherwise.
#include "harmless.h"

namespace {
class Strips : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        return {{}, {{"door-strip", "strip along a door", "each"}}, {}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("own_strip", instance_of<Strips>)
