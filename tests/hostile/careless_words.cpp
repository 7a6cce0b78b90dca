// Its words and inquiries are badly formed, in several ways at once.
#include "harmless.h"

namespace {
class Careless : public Harmless {
    casebound::Vocabulary vocabulary() const override {
        return {{{"PanDepth", "pan depth", casebound::ValueKind::number, "mm", 0, "Measure it.", 5}},
                {},
                {{"seal_left", "seal, left", "seal", casebound::StandIns::may_be_offered}}};
    }
    std::vector<casebound::Inquiry> inquiries() const override {
        return {{"nothing", "computes nothing", {}, nullptr}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("careless_words", instance_of<Careless>)
