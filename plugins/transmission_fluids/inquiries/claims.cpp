// claims: what is printed on products about a spec, word for word, and who says so. A claim answers who said what;
// it never makes a verdict firmer, and a seller's claim permits nothing.
#include <algorithm>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/spec_record.h"

namespace casebound::transmission_fluids {

namespace {

std::string wording_words(std::string_view wording) {
    if (wording == "licensed") return "licensed by the owner of the spec";
    if (wording == "approved") return "approved by the owner of the spec";
    if (wording == "meets") return "its maker says it meets it";
    if (wording == "suitable_for") return "its seller says suitable for";
    return "nothing stated";
}

bool by_the_owner(const Claim& claim) { return claim.wording == "licensed" || claim.wording == "approved"; }

void say_claims(const std::vector<Claim>& claims, Answer& answer) {
    for (const auto& claim : claims)
        answer.lines.push_back(text_line(claim.item + " on " + claim.group + ", " + wording_words(claim.wording),
                                         claim_text(claim), claim.source));
}

void say_owner(const Facts& facts, const std::string& group, Answer& answer) {
    const auto spec = spec_record(facts, group);
    if (!spec) return;
    answer.lines.push_back(text_line(group + " is made for", kind_words(spec->gearbox_kind), spec->source));
    if (!spec->owner.empty())
        answer.lines.push_back(text_line(
            "owner of the spec", spec->owner + (spec->issued.empty() ? "" : ", issued " + spec->issued), spec->source));
    if (!spec->jaso_class.empty())
        answer.lines.push_back(text_line(
            "JASO M315 class", spec->jaso_class + " (by name only: the limits are not available)", spec->source));
}

std::string headline_for(const std::string& fluid, const std::vector<Claim>& claims) {
    const auto firm = std::count_if(claims.begin(), claims.end(), by_the_owner);
    std::string text = std::to_string(claims.size()) + (claims.size() == 1 ? " statement" : " statements") +
                       " on record about " + fluid + ", ";
    return text + (firm == 0 ? "none" : std::to_string(firm)) + " of them with the owner of the spec behind it.";
}

Answer answer_claims(const Given& given, const Services& services) {
    auto answer = Answer::judging(Verdict::fits);
    const std::string& fluid = given.text("fluid");
    auto claims = claims_of_item(services.facts, fluid);
    if (claims.empty()) claims = claims_on_spec(services.facts, fluid);
    say_owner(services.facts, fluid, answer);
    if (claims.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "No claim is on record about " + fluid + ".";
        answer.next.push_back("Read the label: the words, and who says them.");
        return answer;
    }
    say_claims(claims, answer);
    answer.headline = headline_for(fluid, claims);
    if (std::none_of(claims.begin(), claims.end(), by_the_owner)) {
        answer.lower(Verdict::check_first);
        answer.next.push_back("Ask for the approval of the spec's owner or of the unit's maker, in writing.");
    }
    answer.cautions.push_back(
        "A claim says who said what. It permits nothing by itself, and one claim never leads on to another spec.");
    return answer;
}

}  // namespace

std::vector<Inquiry> claim_inquiries() {
    return {{"claims",
             "What is printed about a fluid, word for word, and who says so",
             {required(text_input("fluid", "spec or product on record"))},
             answer_claims,
             "fluid=SW-ALL-1"}};
}

}  // namespace casebound::transmission_fluids
