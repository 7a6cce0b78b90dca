// Throws when asked for its words.
#include <stdexcept>

#include "harmless.h"

namespace {
class Thrower : public Harmless {
    casebound::Vocabulary vocabulary() const override { throw std::runtime_error("no words today"); }
};
}  // namespace

CASEBOUND_MANIFEST("throw_in_vocabulary", instance_of<Thrower>)
