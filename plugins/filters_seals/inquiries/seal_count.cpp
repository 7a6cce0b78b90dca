// The neck seal as a count out and in, and how each form is fitted.
#include "science/seal_count.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/triple.h"
#include "science/left_behind.h"

namespace casebound::filters_seals {
namespace {

std::optional<int> count_of(const Given& given, std::string_view name) {
    if (!given.has(name)) return std::nullopt;
    const double number = given.number(name);
    const int whole = static_cast<int>(number);
    if (whole != number) refuse(name, number_text(number), "whole numbers");
    return whole;
}

void add_count(Answer& answer, const Asked& asked, std::string_view name, const char* label) {
    if (asked.given.has(name))
        answer.lines.push_back({label, Measure{asked.given.number(name), "", 0}, asked.source(name)});
}

Answer answer_count(const Given& given, const Services& services) {
    const Asked asked{given, services};
    SealCount count;
    count.bores = count_of(given, "bores").value_or(1);
    count.on_old_filter = count_of(given, "on_old_filter");
    count.found_in_bore = count_of(given, "found_in_bore");
    count.taken_from_bore = count_of(given, "taken_from_bore");
    count.put_in = count_of(given, "put_in");
    const SealCountAnswer result = examine_count(count);
    Answer answer;
    answer.headline = sentence(result.say);
    const auto found = asked.quantity("found_in_bore");
    settle(answer, result.judgement, {{"number found in the bore", found}});
    add_count(answer, asked, "bores", "bores that want one each");
    add_count(answer, asked, "on_old_filter", "came away on the old filter");
    add_count(answer, asked, "found_in_bore", "seen in the bore");
    add_count(answer, asked, "taken_from_bore", "taken from the bore");
    add_count(answer, asked, "put_in", "new ones put in");
    const SourceNote source = note(result.source);
    if (result.out)
        answer.lines.push_back({"old ones out, in all", Measure{static_cast<double>(*result.out), "", 0}, source});
    if (result.left_in)
        answer.lines.push_back(
            {"old ones still in the bore", Measure{static_cast<double>(*result.left_in), "", 0}, source});
    answer.lines.push_back(text_line("count", std::string(text(result.state)), source));
    if (result.stacked)
        answer.cautions.push_back(
            "Two seals were stacked: every old one comes out, one new one goes in for each bore.");
    answer.next = sentences(result.count_next);
    return answer;
}

Answer answer_method(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const auto seal = asked.row("seal", "filters_seals_seals", "seal");
    const auto form = neck_seal_form_from(neck_form(asked.word("form", seal, "form")));
    Answer answer;
    if (!form) {
        answer.verdict = Verdict::check_first;
        answer.headline = "Look at the old seal: the form decides where the new one goes first.";
        answer.next.push_back("Drop the filter and look at its neck and, with a mirror, up the bore.");
        return answer;
    }
    const FitMethod method = fit_method(*form);
    const SourceNote source = note(method.source);
    settle(answer, Judgement::fits, {{"form of the seal", {1.0, asked.source("form"), asked.doubtful("form")}}});
    answer.headline = sentence("The new one goes " + std::string(method.goes));
    answer.lines.push_back(
        text_line("form", std::string(text(*form)), given.has("form") ? asked.source("form") : row_note(*seal)));
    answer.lines.push_back(text_line("goes", std::string(method.goes), source));
    answer.lines.push_back(text_line("may stay in the case", method.may_stay_in_case ? "yes" : "no", source));
    if (seal && !seal->text("lubricate").empty())
        answer.lines.push_back(text_line("wet it with", std::string(seal->text("lubricate")), row_note(*seal)));
    if (const auto* left = left_behind("filter-neck-seal"); left && method.may_stay_in_case) {
        answer.lines.push_back(text_line("see the old one", std::string(left->see), note(left->source)));
        answer.lines.push_back(text_line("get it out", std::string(left->get_out), note(left->source)));
    }
    answer.cautions.push_back(
        "A band or ring for the neck and a hat seal for the bore are fitted in opposite ways: the wrong way leaks "
        "air.");
    answer.cautions.push_back("Never press a new one on an old one: count out, count in.");
    return answer;
}

Input count_input(std::string name, std::string title) {
    return number_input(std::move(name), std::move(title), "", 0, 10);
}

}  // namespace

std::vector<Inquiry> seal_count_inquiries() {
    const std::vector<Input> counts{
        or_else(number_input("bores", "bores that want one seal each", "", 1, 10), "1"),
        count_input("on_old_filter", "old seals that came away on the filter's neck"),
        from_vehicle(count_input("found_in_bore", "seals seen up the bore, filter off"), "seals_in_bore"),
        count_input("taken_from_bore", "seals taken out of the bore"),
        count_input("put_in", "new seals put in; leave out before fitting")};
    return {{"seal-count", "Neck seals out and in: two may be stacked", counts, answer_count},
            {"neck-seal",
             "Where a neck seal goes first, and whether the old one stays",
             {from_vehicle(choice_input("form", "form of the seal", neck_seal_form_words()), "neck_seal_form"),
              text_input("seal", "seal in the catalog, group or item")},
             answer_method}};
}

}  // namespace casebound::filters_seals
