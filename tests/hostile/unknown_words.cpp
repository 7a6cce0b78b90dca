// A role of a kind that nobody declares, a unit that nobody knows, and an input that is recorded nowhere.
#include "core/contract/inquiry_inputs.h"
#include "harmless.h"

namespace {
using namespace casebound;
class Unknown : public Harmless {
    Vocabulary vocabulary() const override {
        Attribute length;
        length.name = "arm_length";
        length.title = "length of the arm";
        length.kind = ValueKind::number;
        length.unit = "furlongs";
        length.how = "Measure it.";
        return {{length}, {}, {{"arm", "wiper arm", "wiper-arm", StandIns::may_be_offered}}};
    }
    std::vector<Inquiry> inquiries() const override {
        return {{"length",
                 "How long the arm is",
                 {recorded(text_input("arm", "the arm"), "unknown_words_arms", "length_mm")},
                 [](const Given&, const Services&) { return Answer::computing(); }}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("unknown_words", instance_of<Unknown>)
