// Throws when a value is told.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Telling telling(std::string_view, std::string_view, const Services&) const override {
        throw std::length_error("too long");
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
