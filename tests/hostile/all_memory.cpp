// Takes memory until there is none, and writes to none of it: on a slow machine its time must not be over first.
#include "harmless.h"

namespace {
class Glutton : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        casebound::Vocabulary words;
        for (;;) words.attributes.emplace_back().title.reserve(std::size_t{1} << 20);
    }
};
}  // namespace

CASEBOUND_MANIFEST("all_memory", instance_of<Glutton>)
