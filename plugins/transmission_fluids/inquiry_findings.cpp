// `findings`: which of the findings told speak of trouble, and what the evidence still lacks. Names no cause.
#include "core/contract/told_trouble.h"
#include "inquiries/inquiries.h"

namespace casebound::transmission_fluids {
namespace {

Answer answer_findings(const Given&, const Services& services) {
    return told_trouble(services,
                        {
                            {"fluid_colour", "|black|milky|", "colour of the fluid"},
                            {"fluid_smell", "|varnish|burnt|", "smell of the fluid"},
                            {"fluid_clarity", "|cloudy|metallic_sheen|", "fluid against the light"},
                            {"fluid_feel", "|gritty|", "feel of the fluid"},
                            {"fluid_level", "|low|high|", "level at temperature"},
                        },
                        "the fluid");
}

}  // namespace

std::vector<Inquiry> finding_inquiries() {
    return {{"findings", "Which findings about the fluid speak of trouble", {}, answer_findings}};
}

}  // namespace casebound::transmission_fluids
