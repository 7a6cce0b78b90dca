// Its inquiry throws.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    std::vector<Inquiry> inquiries() const override {
        return {{"length", "How long a wiper blade is", {}, [](const Given&, const Services&) -> Answer {
                     throw std::out_of_range("string::at");
                 }}};
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
