// Turns words into the typed inputs of an inquiry and runs it: units converted, ranges kept, what the vehicle
// already tells filled in and shown as such. Every fault is reported, not the first.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/session/situation.h"

namespace casebound {

struct InquiryRun {
    Given given;
    Answer answer;
    Evidence weakest = Evidence::law;  // of the answer's lines and of what it asked for
};

// `named`: input name and text, in the order given. Throws Error(usage or bad_data) with every fault. A domain that
// fails gives an answer that is not answered.
InquiryRun run_inquiry_with(const GuardedDomain& domain, const Inquiry& inquiry,
                            const std::vector<std::pair<std::string, std::string>>& named, const Services& services);

std::string range_text(const Input& input);  // "0 to 150 °C"

}  // namespace casebound
