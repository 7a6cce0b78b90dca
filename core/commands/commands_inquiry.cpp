// `casebound DOMAIN INQUIRY`: every inquiry of every loaded domain, made from its declared inputs.
#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/say/list_words.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/session/inquiry_session.h"

namespace casebound {

namespace {

std::string inputs_text(const std::string& domain, const Inquiry& inquiry) {
    std::string out = wrapped(inquiry.title) +
                      wrapped(
                          fmt::format("casebound {} {} NAME=VALUE... [--for VEHICLE]", dashed(domain), inquiry.name), 2,
                          4) +
                      "\n";
    Table table({"input", "value", "what it is"});
    for (const auto& input : inquiry.inputs) {
        const bool number = input.kind == Input::Kind::number || input.kind == Input::Kind::number_list;
        std::string what = input.title;
        if (!input.choices.empty()) what += ": " + spaced(fmt::format("{}", fmt::join(input.choices, ", ")));
        if (input.required) what += " (required)";
        if (!input.fallback.empty()) what += fmt::format(" (else {} is assumed)", input.fallback);
        if (!input.help.empty()) what += fmt::format("; {}", input.help);
        const bool yes_no = input.kind == Input::Kind::yes_no;
        table.row({dashed(input.name), number ? range_text(input) : yes_no ? "yes or no" : "words", what});
    }
    out += table.text();
    if (inquiry.example.empty()) return out;
    return out + "\n" +
           wrapped(fmt::format("Example: casebound {} {} {}", dashed(domain), inquiry.name, inquiry.example), 0, 4);
}

Result list_inquiries(Session& session, const std::string& domain, const std::vector<Inquiry>& inquiries) {
    if (session.json()) {
        auto json = document("inquiries");
        json["domain"] = domain;
        json["inquiries"] = Json::array();
        for (const auto& one : inquiries) {
            Json inputs = Json::array();
            for (const auto& input : one.inputs)
                inputs.push_back(
                    {{"name", input.name}, {"title", input.title}, {"unit", input.unit}, {"required", input.required}});
            json["inquiries"].push_back(
                {{"name", one.name}, {"title", one.title}, {"inputs", inputs}, {"example", one.example}});
        }
        return {Exit::yes, json_text(json)};
    }
    Table table({"inquiry", "what it answers"});
    for (const auto& one : inquiries) table.row({one.name, one.title});
    return {Exit::yes, table.text() + fmt::format("\nInputs of one: casebound {} INQUIRY --help\n", dashed(domain))};
}

std::vector<std::pair<std::string, std::string>> named_inputs(const Args& args, const Inquiry& inquiry) {
    std::vector<std::pair<std::string, std::string>> named;
    std::vector<std::string> faults;
    for (std::size_t i = 1; i < args.words.size(); ++i) {
        const auto& word = args.words[i];
        const auto at = word.find('=');
        if (at == std::string::npos || at == 0)
            faults.push_back(fmt::format("{}: write NAME=VALUE, such as {}={}", word,
                                         inquiry.inputs.empty() ? "name" : dashed(inquiry.inputs.front().name), word));
        else named.emplace_back(word.substr(0, at), word.substr(at + 1));
    }
    if (!faults.empty()) throw Error(Exit::usage, faults);
    return named;
}

// "12.6 V": a number with the unit of its input.
std::string taken_words(const Inquiry& inquiry, const std::string& name, const GivenValue& value) {
    const auto input = std::find_if(inquiry.inputs.begin(), inquiry.inputs.end(),
                                    [&](const Input& one) { return one.name == name; });
    if (value.numbers.size() != 1 || input == inquiry.inputs.end()) return spaced(value.text);
    return shown_quantity(value.numbers.front(), input->unit, 6);
}

Exit exit_of(const std::optional<Verdict>& verdict) {
    if (!verdict || verdict == Verdict::fits || verdict == Verdict::none_needed) return Exit::yes;
    return verdict == Verdict::does_not_fit ? Exit::no : Exit::cannot_tell;
}

}  // namespace

Result run_inquiry(Session& session, const std::string& domain_name, const Args& args) {
    const auto* domain = session.plugins().find(domain_name);
    if (std::filesystem::exists(session.options().shop)) (void)session.shop();  // the units that are set there
    if (args.words.empty()) return list_inquiries(session, domain_name, inquiries_of(*domain));
    const auto found = inquiry_named(*domain, args.words[0]);
    if (args.has("help")) return {Exit::yes, inputs_text(domain_name, found)};
    const auto named = named_inputs(args, found);
    const auto situation = args.has("for") ? session.situation(args.option("for")) : nullptr;
    const auto run = run_inquiry_in(session, *domain, found, named, situation.get());
    if (session.json()) {
        auto json = document("inquiry");
        json["domain"] = domain_name;
        json["inquiry"] = found.name;
        json["inputs"] = Json::array();
        for (const auto& [name, value] : run.given.values)
            json["inputs"].push_back({{"name", name},
                                      {"value", value.text},
                                      {"numbers", value.numbers},
                                      {"origin", value.source.title},
                                      {"evidence", evidence_name(value.source.evidence)}});
        json["answer"] = json_of(run.answer);
        json["weakest_evidence"] = evidence_name(run.weakest);
        return {exit_of(run.answer.verdict), json_text(json)};
    }
    std::string out = answer_text(in_words(run.answer, session), found.title, session.full());
    for (const auto& [name, value] : run.given.values)
        if (value.from != From::by_hand)
            out += wrapped(
                fmt::format("Taken: {}: {} ({})", dashed(name), taken_words(found, name, value), value.source.title), 0,
                2);
    if (run.weakest > Evidence::measured)
        out += wrapped(fmt::format("Weakest evidence: {}.", evidence_words(run.weakest)), 0, 2);
    return {exit_of(run.answer.verdict), out};
}

}  // namespace casebound
