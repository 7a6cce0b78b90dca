// `findings`: which of the findings told speak of trouble, and what the evidence still lacks. Names no cause.
#include "core/contract/told_trouble.h"
#include "inquiries/inquiries.h"

namespace casebound::mounts {
namespace {

Answer answer_findings(const Given&, const Services& services) {
    return told_trouble(services,
                        {
                            {"mount_leak", "|left|right|both|", "fluid at an engine mount"},
                            {"idle_shake", "|in_gear|in_neutral|always|", "shake at idle"},
                            {"misfire", "|yes|", "misfire"},
                            {"shift_clunk", "|yes|", "clunk from drive to reverse"},
                            {"mount_rubber", "|cracked|separated|split|", "mount rubber"},
                        },
                        "the mounts");
}

}  // namespace

std::vector<Inquiry> finding_inquiries() {
    return {{"findings", "Which findings about the mounts speak of trouble", {}, answer_findings}};
}

}  // namespace casebound::mounts
