// Declares a word of the toy domain otherwise, and one of its own before it.
#include "harmless.h"

namespace {
class Rival : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        return {{}, {{"door-strip", "door strip", "each"}, {"door-seal", "lead seal of a door", "each"}}, {}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("word_of_door_seals", instance_of<Rival>)
