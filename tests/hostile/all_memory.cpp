// Takes memory until there is none.
#include "harmless.h"

namespace {
class Glutton : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        casebound::Vocabulary words;
        for (;;) words.attributes.emplace_back().title.assign(std::size_t{1} << 20, 'x');
    }
};
}  // namespace

CASEBOUND_MANIFEST("all_memory", instance_of<Glutton>)
