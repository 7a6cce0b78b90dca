// What stored codes say by number: the circuit or behaviour they name, and what several at once have in common.
#include <algorithm>

#include "rows/findings.h"
#include "science/codes.h"
#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/seen.h"

namespace casebound::solenoids {
namespace {

std::string causes_text(CodeClass kind) {
    std::vector<std::string> texts;
    for (const auto cause : where_to_look(kind)) texts.emplace_back(word(cause));
    return listed(texts, ", then ");
}

void add_code(Answer& answer, const SeenCode& code) {
    const bool own = is_makers_own(code.code) && !code.kind;
    answer.lines.push_back(text_line(code_text(code.code),
                                     own ? "the maker's own: its meaning differs from maker to maker" : code.words,
                                     code.source));
    if (code.kind)
        if (const auto causes = causes_text(*code.kind); !causes.empty())
            answer.lines.push_back(text_line("  where to look", causes));
}

// Nodes by how many of the failed elements run through them, and how many that reported nothing do.
void add_nodes(Answer& answer, const GearboxFamily& family, const std::vector<std::string>& failed) {
    for (const auto& node : family.nodes) {
        const auto on = std::count_if(failed.begin(), failed.end(), [&](const std::string& one) {
            return std::find(node.elements.begin(), node.elements.end(), one) != node.elements.end();
        });
        if (on < 2) continue;
        const auto silent = static_cast<long>(node.elements.size()) - on;
        answer.lines.push_back(
            text_line("they share",
                      (node.title.empty() ? node.name : node.title) + ": " + std::to_string(on) + " of " +
                          std::to_string(failed.size()) + " run through it" +
                          (silent > 0 ? ", " + std::to_string(silent) + " on it reported nothing" : "") +
                          (node.check_by.empty() ? "" : "; " + node.check_by),
                      row_source(node.origin)));
    }
}

void conclude(Answer& answer, const std::vector<SeenCode>& codes, const std::vector<std::string>& failed) {
    const bool supply = std::any_of(codes.begin(), codes.end(),
                                    [](const SeenCode& code) { return code.kind == CodeClass::supply_open; });
    const bool known = std::any_of(codes.begin(), codes.end(),
                                   [](const SeenCode& code) { return code.kind.has_value(); });
    answer.verdict = known ? Verdict::check_first : Verdict::not_recorded;
    if (supply) answer.headline = "Do not order solenoids: the supply of them all is reported open.";
    else if (failed.size() > 1)
        answer.headline = "Do not order solenoids: " + std::to_string(failed.size()) + " circuits at once (" +
                          listed(failed) + ") point to what they share: feed, fuse, ground, connector.";
    else if (!known)
        answer.headline =
            "Not recorded: nothing is known of these codes here; that does not mean that they do not exist.";
    else answer.headline = "A code names a circuit or a behaviour, not a part: look where it points before ordering.";
}

Answer answer_codes(const Given& given, const Services& services) {
    Answer answer;
    const auto found = family_for(given, services);
    const auto* family = found.family ? &*found.family : nullptr;
    std::vector<SeenCode> codes;
    for (const auto code : codes_from(given.text("codes"))) codes.push_back(about(code, family, services.facts));
    for (const auto& code : codes) add_code(answer, code);
    Seen seen;
    seen.codes = codes;
    const auto failed = seen.failed_circuits();
    if (family != nullptr) add_nodes(answer, *family, failed);
    conclude(answer, codes, failed);
    if (family == nullptr) answer.assumptions.push_back(family_missing(found).headline);
    answer.next = {"Load the feed and look into the case connector before any electrical order."};
    if (services.vehicle != nullptr) answer.cautions = code_cautions(*services.vehicle);
    answer.cautions.emplace_back(
        "codes are matched by number; texts in lists differ and one widely copied list is shifted by a row");
    return answer;
}

Inquiry codes() {
    Input list = told(required(word_input(Input::Kind::text, "codes", "codes stored")), "codes");
    return {"codes",
            "What stored codes say, by number, and what several at once share",
            {helped(list, "\"P0753+P0758\""), gearbox_input()},
            answer_codes};
}

}  // namespace

std::vector<Inquiry> code_inquiries() { return {codes()}; }

}  // namespace casebound::solenoids
