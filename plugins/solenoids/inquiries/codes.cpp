// What stored codes say by number: the circuit or behaviour they name, and what several at once have in common.
#include <algorithm>
#include <stdexcept>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/findings.h"
#include "rows/seen.h"
#include "science/codes.h"
#include "science/conclusion.h"

namespace casebound::solenoids {
namespace {

std::string causes_text(const SeenCode& code) {
    std::vector<std::string> texts;
    for (const auto cause : where_to_look(code)) texts.emplace_back(word(cause));
    return listed(texts, ", then ");
}

void add_code(Answer& answer, const SeenCode& code) {
    const bool own = is_makers_own(code.code) && !code.kind;
    answer.lines.push_back(text_line(code_text(code.code),
                                     own ? "the maker's own: its meaning differs from maker to maker" : code.words,
                                     code.source));
    if (const auto causes = causes_text(code); !causes.empty())
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

// With what was told beside the codes, as `fault` reads it; the codes alone where that cannot be read.
Seen seen_beside(const Services& services, const GearboxFamily* family) {
    if (family == nullptr || services.vehicle == nullptr) return {};
    try {
        return read_seen({}, services, *family);
    } catch (const std::domain_error&) { return {}; }
}

// A part that was measured at its own pins, or moved the fault with it, speaks whatever the circuit is.
bool proven_anyway(const Seen& seen) {
    return seen.swap_moved() || std::any_of(seen.coils.begin(), seen.coils.end(),
                                            [&](const SeenCoil& coil) { return seen.fails_at_part(coil.element); });
}

std::string headline_of(const Seen& seen, bool known) {
    if (auto stop = stop_headline(seen); !stop.empty()) return stop;
    if (seen.feed_fails() && !proven_anyway(seen)) return feed_headline(seen);
    if (seen.connector_bad() && !proven_anyway(seen)) return connector_headline(seen);
    if (seen.supply_reported()) return "Do not order solenoids: the supply of them all is reported open.";
    if (seen.shared_suspected())
        return "Do not order solenoids: " + shared_words(seen) +
               ". Look first at what they share: feed, fuse, ground, connector.";
    if (!known) return "Not recorded: nothing is known of these codes here; that does not mean that they do not exist.";
    return "A code names a circuit or a behaviour, not a part: look where it points before ordering.";
}

Answer answer_codes(const Given& given, const Services& services) {
    const auto found = family_for(given, services);
    const auto* family = found.family ? &*found.family : nullptr;
    Seen seen = seen_beside(services, family);
    seen.codes.clear();
    for (const auto code : codes_from(given.text("codes"))) seen.codes.push_back(about(code, family, services.facts));
    const bool known = std::any_of(seen.codes.begin(), seen.codes.end(),
                                   [](const SeenCode& code) { return code.kind.has_value(); });
    auto answer = Answer::judging(known ? Verdict::check_first : Verdict::not_recorded);
    for (const auto& code : seen.codes) add_code(answer, code);
    if (family != nullptr) add_nodes(answer, *family, seen.failed_circuits());
    answer.headline = headline_of(seen, known);
    if (family == nullptr) answer.assumptions.push_back(family_missing(found).headline);
    answer.next = {"Load the feed and look into the case connector before any electrical order."};
    for (const auto& caution : findings(services).cautions) answer.cautions.push_back(caution.text);
    answer.cautions.emplace_back(
        "codes are matched by number; texts in lists differ and one widely copied list is shifted by a row");
    return answer;
}

Inquiry codes() {
    Input list = told(required(text_input("codes", "codes stored")), "codes");
    return {"codes",
            "What stored codes say, by number, and what several at once share",
            {helped(list, "\"P0753+P0758\""), gearbox_input()},
            answer_codes,
            "codes=P0753"};
}

}  // namespace

std::vector<Inquiry> code_inquiries() { return {codes()}; }

}  // namespace casebound::solenoids
