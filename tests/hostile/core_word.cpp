// Declares one of core's own words otherwise.
#include "harmless.h"

namespace {
class Redefiner : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        return {{{"year", "year of the last repaint", casebound::ValueKind::number, "", 0, "Ask.", 1}}, {}, {}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("core_word", instance_of<Redefiner>)
