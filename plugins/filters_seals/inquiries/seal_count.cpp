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
    const auto number = given.maybe_number(name);
    return number ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

AnswerLine count_line(std::string label, double count, SourceNote source) {
    return measure_line(std::move(label), count, "", 0, std::move(source));
}

Answer answer_count(const Given& given, const Services&) {
    SealCount count;
    count.bores = count_of(given, "bores").value_or(1);
    count.on_old_filter = count_of(given, "on_old_filter");
    count.found_in_bore = count_of(given, "found_in_bore");
    count.taken_from_bore = count_of(given, "taken_from_bore");
    count.put_in = count_of(given, "put_in");
    const SealCountAnswer result = examine_count(count);
    Answer answer = judged(result.judgement, given, {{"found_in_bore", "number found in the bore"}});
    answer.headline = sentence(result.say);
    for (const auto& [name, label] :
         {std::pair{"bores", "bores that want one each"}, std::pair{"on_old_filter", "came away on the old filter"},
          std::pair{"found_in_bore", "seen in the bore"}, std::pair{"taken_from_bore", "taken from the bore"},
          std::pair{"put_in", "new ones put in"}})
        if (given.has(name)) answer.lines.push_back(count_line(label, given.number(name), given.source(name)));
    const SourceNote source = note(result.source);
    if (result.out) answer.lines.push_back(count_line("old ones out, in all", *result.out, source));
    if (result.left_in) answer.lines.push_back(count_line("old ones still in the bore", *result.left_in, source));
    answer.lines.push_back(text_line("count", std::string(text(result.state)), source));
    if (result.stacked)
        answer.cautions.push_back(
            "Two seals were stacked: every old one comes out, one new one goes in for each bore.");
    for (auto& text : sentences(result.count_next)) answer.next.push_back(std::move(text));
    return answer;
}

Answer answer_method(const Given& given, const Services& services) {
    const auto form = neck_seal_form_from(neck_form(given.text_or("form")));
    Answer answer = Answer::computing();
    if (!form) {
        answer.lower(Verdict::check_first);
        answer.headline = "Look at the old seal: the form decides where the new one goes first.";
        answer.next.push_back("Drop the filter and look at its neck and, with a mirror, up the bore.");
        return answer;
    }
    const FitMethod method = fit_method(*form);
    const SourceNote source = note(method.source);
    if (is_doubtful(given, "form")) ask_to_check(answer, "form of the seal", given.source("form"));
    answer.headline = sentence("The new one goes " + std::string(method.goes));
    answer.lines.push_back(text_line("form", std::string(text(*form)), given.source("form")));
    answer.lines.push_back(text_line("goes", std::string(method.goes), source));
    answer.lines.push_back(text_line("may stay in the case", method.may_stay_in_case ? "yes" : "no", source));
    if (const Row* seal = named_row(given, services, "seal", "filters_seals_seals"); seal && seal->stated("lubricate"))
        answer.lines.push_back(text_line("wet it with", std::string(seal->text("lubricate")), row_source(*seal)));
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
    return whole(number_input(std::move(name), std::move(title), "", 0, 10));
}

}  // namespace

std::vector<Inquiry> seal_count_inquiries() {
    const std::vector<Input> counts{
        assumed(whole(number_input("bores", "bores that want one seal each", "", 1, 10)), "1"),
        count_input("on_old_filter", "old seals that came away on the filter's neck"),
        told(count_input("found_in_bore", "seals seen up the bore, filter off"), "seals_in_bore"),
        count_input("taken_from_bore", "seals taken out of the bore"),
        count_input("put_in", "new seals put in; leave out before fitting")};
    const Input form = told(choice_input("form", "form of the seal", neck_seal_form_words()), "neck_seal_form");
    return {{"seal-count", "Neck seals out and in: two may be stacked", counts, answer_count,
             "on-old-filter=1 found-in-bore=1"},
            {"neck-seal",
             "Where a neck seal goes first, and whether the old one stays",
             {recorded(form, "filters_seals_seals", "form"),
              key_of(text_input("seal", "seal in the catalog, group or item"), "filters_seals_seals")},
             answer_method,
             "--for bookvan"}};
}

}  // namespace casebound::filters_seals
