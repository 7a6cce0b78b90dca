// Engine oil: one class against another, and how much goes in.
#include <algorithm>

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"
#include "science/viscosity.h"

namespace casebound::service_fluids {
namespace {

constexpr const char* oil_volumes = "service_fluids_oil_volumes";

void add_limits(Answer& answer, const std::string& part, const std::string& winter, const Facts& facts) {
    const auto* row = class_row(facts, part, winter);
    if (!row) return;
    const auto line = [&](const char* column, const char* what, const char* unit, int decimals) {
        if (const auto value = row->number(column))
            answer.lines.push_back(measure_line(part + ": " + what, *value, unit, decimals, row_source(*row)));
    };
    line("cranking_c", "cranked cold at", "degC", 0);
    line("cranking_mpas", "cranked then at most", "mPa s", 0);
    line("pumping_c", "pumped cold at", "degC", 0);
    if (row->yes("winter")) return;
    line("kv100_min_mm2_s", "at 100 °C at least", "mm2/s", 1);
    line("kv100_below_mm2_s", "at 100 °C below", "mm2/s", 1);
    line("hths_mpas", "at 150 °C and high shear at least", "mPa s", 1);
}

// Less winter: it may still do where it never gets that cold.
void weigh_cold(Answer& answer, const ViscosityGrade& offered, const Given& given, const Facts& facts) {
    const auto* row = class_row(facts, offered.winter);
    const auto cranked_c = row ? row->number("cranking_c") : std::nullopt;
    if (!cranked_c || !given.has("coldest")) {
        answer.lower(Verdict::check_first);
        answer.next.push_back("Give the coldest start there is: " + (offered.winter.empty() ? "it" : offered.winter) +
                              " is made for less cold.");
        return;
    }
    const bool enough = given.number("coldest") >= *cranked_c;
    answer.lower(enough ? Verdict::check_first : Verdict::does_not_fit);
    answer.lines.push_back(text_line("the coldest start against its class",
                                     fixed(given.number("coldest"), 0) + " °C, its class is cranked at " +
                                         fixed(*cranked_c, 0) + " °C: " + (enough ? "enough" : "not enough"),
                                     weaker(row_source(*row), given.source("coldest"))));
}

void weigh_hot(Answer& answer, Against hot) {
    if (hot == Against::less) answer.lower(Verdict::does_not_fit);
    if (hot == Against::more) {
        answer.lower(Verdict::check_first);
        answer.next.push_back("Look whether the handbook names the thicker class too.");
    }
}

void weigh_category(Answer& answer, const Given& given, const Facts& facts) {
    if (!given.has("wanted-category")) {
        answer.lower(Verdict::check_first);
        answer.next.push_back("Give the service classes as printed: a viscosity class alone is no specification.");
        return;
    }
    const auto wanted = category_named(facts, given.text("wanted-category"));
    const auto offered = category_named(facts, given.text_or("offered-category"));
    const auto found = category_against(facts, offered, wanted);
    const char* said = found.offered == Category::same      ? "the same service class"
                       : found.offered == Category::later   ? "a later class of the same series"
                       : found.offered == Category::earlier ? "an earlier class: not for this engine"
                                                            : "nothing is recorded between the two";
    for (const auto& category : {wanted, offered})
        for (const auto& row : facts.rows("service_fluids_categories", "category", category))
            if (row.stated("words")) answer.lines.push_back(text_line(category, cell(row, "words"), row_source(row)));
    if (found.offered == Category::earlier) answer.lower(Verdict::does_not_fit);
    if (found.offered == Category::not_recorded) answer.lower(Verdict::check_first);
    answer.lines.push_back(text_line("service class",
                                     (offered.empty() ? "none" : offered) + " for " + wanted + ": " + said,
                                     fed_by(found.source, given, {"wanted-category", "offered-category"})));
}

std::string headline_of(const Answer& answer, const GradeDifference& difference) {
    if (difference.hot == Against::less) return "Not this oil: it is thinner when hot than what is called for.";
    if (answer.verdict == Verdict::does_not_fit) return "Not this oil: it falls short of what is called for.";
    if (answer.verdict == Verdict::fits) return "It keeps the viscosity class and the service class called for.";
    if (difference.hot == Against::more) return "Check first: it is thicker when hot than what is called for.";
    return "Check first: by its classes alone it is not settled.";
}

// As SAE J300 writes it, also where it is typed in small letters: 5w-30.
ViscosityGrade typed_grade(std::string text) {
    std::replace(text.begin(), text.end(), 'w', 'W');
    return viscosity_grade(text);
}

Answer answer_oil_class(const Given& given, const Services& services) {
    const auto wanted = typed_grade(given.text("wanted")), offered = typed_grade(given.text("offered"));
    const auto difference = against(offered, wanted);
    auto answer = Answer::judging(Verdict::fits);
    const auto source = fed_by(standard("SAE J300, classes by name"), given, {"wanted", "offered"});
    answer.lines.push_back(
        text_line("viscosity class", given.text("offered") + " for " + given.text("wanted"), source));
    for (const auto& part : {offered.winter, offered.hot}) add_limits(answer, part, offered.winter, services.facts);
    weigh_hot(answer, difference.hot);
    if (difference.cold == Against::less) weigh_cold(answer, offered, given, services.facts);
    weigh_category(answer, given, services.facts);
    answer.headline = headline_of(answer, difference);
    answer.cautions = {"what the maker of the engine names comes first; classes say nothing of its own specification"};
    return answer;
}

// ---------------------------------------------------------------- how much

// What stays in cans and at the funnel: 3 % and 0.3 L, as the parts list reckons; common practice, no source.
double have_ready_l(double fill_l) { return fill_l * 1.03 + 0.3; }

Answer answer_fill(const Given& given, const Services&) {
    auto answer = Answer::computing();
    const auto& job = given.text("job");
    const char* input = job == "dry" ? "dry" : job == "drain" ? "without-filter" : "with-filter";
    if (!given.has(input)) {
        answer.lower(given.undecided.count(input) ? Verdict::check_first : Verdict::not_recorded);
        answer.headline = "Cannot tell how much goes in: that volume is not known.";
        answer.next = {"Read it in the handbook; a dry fill is never that of a service."};
        return answer;
    }
    const auto source = given.source(input);
    const double fill_l = given.number(input);
    const double ready_l = have_ready_l(fill_l);
    answer.headline = fixed(fill_l, 1) + " L go in; have " + fixed(ready_l, 2) + " L ready.";
    answer.lines = {measure_line("have ready", ready_l, "L", 2, fed_with(practice("3 % and 0.3 L spare"), source))};
    answer.next = {"Fill half a litre less, let it run, wait five minutes, read the stick, then top up."};
    answer.cautions = {"hot oil burns; used oil harms the skin: gloves, and hand it in unmixed",
                       "too much is drawn into the engine or foams: never above the upper mark"};
    return answer;
}

Input volume(const char* name, const char* title, const char* column) {
    return recorded(number_input(name, title, "L", 0.3, 60), oil_volumes, column);
}

}  // namespace

Inquiry oil_class_inquiry() {
    return {"oil-class",
            "One engine oil in the place of another: viscosity class cold and hot, and service class",
            {key_of(text_input("spec", "the spec called for, as an interchange group"), oils),
             required(found_by(recorded(text_input("wanted", "viscosity class called for, 5W-30"), oils, "viscosity"),
                               "Read it on the filler cap or in the handbook.")),
             required(text_input("offered", "viscosity class of the oil in the hand, 5W-40")),
             recorded(text_input("wanted-category", "service class called for, API SN"), oils, "category"),
             text_input("offered-category", "service class printed on the oil in the hand"),
             number_input("coldest", "coldest start there is", "degC", -60, 40)},
            answer_oil_class,
            "wanted=10W-40 offered=5W-30"};
}

Inquiry fill_inquiry() {
    return {"fill",
            "How much engine oil goes in, with or without a new filter, and how much to have ready",
            {assumed(choice_input("job", "what is done", {"with_filter", "drain", "dry"}), "with_filter"),
             volume("with-filter", "what goes in with a new filter", "with_filter_l"),
             volume("without-filter", "what goes in with the filter left on", "without_filter_l"),
             volume("dry", "what a dry engine takes", "dry_l"),
             recorded(number_input("low-to-full", "from the lower to the upper mark", "L", 0.1, 10), oil_volumes,
                      "low_to_full_l")},
            answer_fill,
            "--for bookvan"};
}

}  // namespace casebound::service_fluids
