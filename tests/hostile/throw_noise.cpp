// Throws text that would colour a terminal, and bytes that are no UTF-8: overlong, and a surrogate.
#include <stdexcept>

#include "harmless.h"

namespace {
class Thrower : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        throw std::runtime_error("red \x1b[31m, \xc0\xaf, two\nlines, 38 mm\xc2\xb2, \xed\xa0\x80");
    }
};
}  // namespace

CASEBOUND_MANIFEST("throw_noise", instance_of<Thrower>)
