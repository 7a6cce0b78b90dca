// `findings`: which of the findings told speak of trouble, and what the evidence still lacks. Names no cause.
#include "core/contract/told_trouble.h"
#include "inquiries.h"

namespace casebound::filters_seals {
namespace {

void stacked(const Told& told, std::vector<AnswerLine>& lines) {
    if (told.attribute == "seals_in_bore" && told.number.value_or(0) > 1)
        lines.push_back({"seals found up the bore", told.text + ", stacked: an old one was left in", told_note(told)});
}

Answer answer_findings(const Given&, const Services& services) {
    return told_trouble(
        services,
        {
            {"pan_debris",
             "|grey_paste_thick|brass_flakes|steel_pieces|black_flakes|aluminium_glitter|varnish_film|plastic_bits|"
             "sealant_strings|",
             "what lies in the pan"},
            {"leak_at", "|pan_rail|drain_plug|selector_shaft|case_connector|cooler_line|dipstick_tube|output_shaft|",
             "wet at"},
            {"old_gasket_state", "|damaged|", "old gasket"},
        },
        "pan, filter and seals", stacked);
}

}  // namespace

std::vector<Inquiry> finding_inquiries() {
    return {{"findings", "Which findings about pan, filter and seals speak of trouble", {}, answer_findings}};
}

}  // namespace casebound::filters_seals
