// A lip or hat seal in its bore: the published press fit, and what the measured parts make of it.
#include "core/contract/answer_words.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "science/lip_seal.h"

namespace casebound::filters_seals {
namespace {

struct Allowance {
    Range mm;
    SourceNote source{Evidence::standard, "ISO 6194-1, press fit of the outside diameter", {}};
};

// A pack's row for this nominal bore and casing, else the standard's own.
Allowance allowance_for(const Services& services, double nominal_mm, LipCasing casing) {
    const std::string_view cased = casing == LipCasing::metal ? "metal" : "rubber";
    for (const auto& row : services.facts.rows("filters_seals_press_fits", "cased", cased)) {
        const auto over = row.number("bore_over_mm"), to = row.number("bore_to_mm"), low = row.number("low_mm"),
                   high = row.number("high_mm");
        if (over && to && low && high && nominal_mm > *over && nominal_mm <= *to)
            return {{*low, *high}, row_source(row)};
    }
    return {press_fit_allowance_mm(nominal_mm, casing)};
}

// By hand, else the whole millimetre whose H8 holds the bore; where none does, the bore as it is, and that is asked.
double nominal_of(const Given& given, double bore_mm, Answer& answer) {
    if (given.has("nominal")) return given.number("nominal");
    if (const auto whole = nominal_bore_mm(bore_mm, given.number("off_by"))) {
        answer.assumptions.push_back("The bore was machined from a nominal " + shown(*whole) +
                                     " mm, the whole millimetre whose H8 holds it.");
        return *whole;
    }
    answer.lower(Verdict::check_first);
    answer.assumptions.emplace_back(
        "No whole millimetre has an H8 that holds this bore: it is taken as its own nominal.");
    answer.next.emplace_back("Give nominal, the bore as it was machined; a bore over it is worn.");
    return bore_mm;
}

void add_bore_lines(Answer& answer, double nominal_mm, const Allowance& allowance) {
    const SourceNote iso286{Evidence::standard, "ISO 286-2, H8", {}};
    answer.lines.push_back(mm_line("nominal bore", nominal_mm, practice("the size the bore is machined from")));
    answer.lines.push_back(
        text_line("press fit over the nominal bore", span_text(allowance.mm, "mm"), allowance.source));
    answer.lines.push_back(text_line(
        "seal outside wanted", span_text(Range{nominal_mm + allowance.mm.low, nominal_mm + allowance.mm.high}, "mm"),
        allowance.source));
    answer.lines.push_back(
        mm_line("out of round, at most", roundness_max_mm(nominal_mm), {Evidence::standard, "ISO 6194-1", {}}));
    if (const auto upper = bore_h8_upper_mm(nominal_mm))
        answer.lines.push_back(
            text_line("bore as machined", span_text(Range{nominal_mm, nominal_mm + *upper}, "mm"), iso286));
}

void add_width_lines(Answer& answer, double width_mm) {
    const SourceNote iso{Evidence::standard, "ISO 6194-1 / DIN 3760", {}};
    answer.lines.push_back(mm_line("width, plus or minus", width_tolerance_mm(width_mm), iso));
    if (const auto depth = housing_depth(width_mm)) {
        answer.lines.push_back(mm_line("bore depth, full diameter, at least", depth->t1_min_mm, iso));
        answer.lines.push_back(mm_line("bore depth to the shoulder, at least", depth->t2_min_mm, iso));
    } else {
        answer.assumptions.push_back("No published bore depth for a width of " + shown(width_mm) +
                                     " mm; the rows held are 7, 8, 10, 12, 15 and 20 mm.");
    }
}

// As measured over the bore; nothing while the seal is not measured.
std::optional<Stacked> measured_over_bore(const Given& given, double bore_mm) {
    const auto od = within(given, "seal_od", given.number("off_by"));
    return od ? std::optional(interference_mm(*od, about(bore_mm, given.number("off_by")))) : std::nullopt;
}

Judgement judge_over_bore(const std::optional<Stacked>& over, double nominal_mm, const Allowance& allowance) {
    if (!over) return Judgement::check_first;
    // The allowance is over the nominal bore; a sound bore may be larger than that by its H8.
    const Window window{{allowance.mm.low - bore_h8_upper_mm(nominal_mm).value_or(0.0), allowance.mm.high},
                        {allowance.source.evidence, "press fit"}};
    return over->max <= 0 ? Judgement::does_not_fit : judge(*over, window);
}

std::string press_headline(Judgement judgement, bool measured) {
    if (judgement == Judgement::fits) return "The seal is tight in this bore, inside the published press fit.";
    if (judgement == Judgement::does_not_fit) return "Not this seal in this bore: outside the published press fit.";
    return measured ? "At the edge of the published press fit: measure closer."
                    : "A seal for this bore measures as below.";
}

Answer bore_not_known() {
    Answer answer = Answer::judging(Verdict::check_first);
    answer.headline = "Cannot tell yet: the bore is not known.";
    answer.next.push_back("Measure the bore across three places: bore=...");
    return answer;
}

void add_shaft_line(Answer& answer, double shaft_mm) {
    answer.lines.push_back(text_line("shaft as machined",
                                     span_text(Range{shaft_mm + shaft_h11_lower_mm(shaft_mm), shaft_mm}, "mm"),
                                     {Evidence::standard, "ISO 286-2, h11", {}}));
}

void add_section(Answer& answer, const SealAcross& seal) {
    if (auto picture = seal_picture(seal)) answer.pictures.push_back(std::move(*picture));
}

Answer answer_press_fit(const Given& given, const Services& services) {
    const auto bore = given.maybe_number("bore");
    if (!bore) return bore_not_known();
    Answer naming = Answer::computing();
    const double nominal = nominal_of(given, *bore, naming);
    const Allowance allowance = allowance_for(
        services, nominal, given.text("cased") == "metal" ? LipCasing::metal : LipCasing::rubber_covered);
    const auto over = measured_over_bore(given, *bore);
    const Judgement judgement = judge_over_bore(over, nominal, allowance);
    Answer answer = judged(judgement, given, {{"bore", "bore"}});
    answer.headline = press_headline(judgement, over.has_value());
    if (naming.verdict) answer.lower(*naming.verdict);
    answer.assumptions = std::move(naming.assumptions);
    for (auto& text : naming.next) answer.next.push_back(std::move(text));
    add_given_mm(answer, given, "bore", "bore");
    add_bore_lines(answer, nominal, allowance);
    if (given.has("width")) add_width_lines(answer, given.number("width"));
    if (given.has("shaft")) add_shaft_line(answer, given.number("shaft"));
    if (over)
        answer.lines.push_back(text_line("press fit as measured", span_text(*over, "mm"), given.source("seal_od")));
    else answer.next.push_back("Measure the seal's outside over three places: seal-od=...");
    add_section(answer, {bore, given.maybe_number("seal_od"), std::nullopt, std::nullopt});
    answer.cautions.emplace_back(kSizeIsNotAll);
    return answer;
}

Answer answer_hat(const Given& given, const Services&) {
    const double off_by = given.number("off_by");
    const HatSealAnswer result = examine_hat_seal({within(given, "seal_od", off_by), within(given, "bore", off_by),
                                                   within(given, "neck", off_by), within(given, "lip_id", off_by)});
    Answer answer = judged(result.overall, given,
                           {{"seal_od", "seal's outside"}, {"bore", "bore"}, {"neck", "neck"}, {"lip_id", "lip"}});
    answer.headline = result.overall == Judgement::does_not_fit
                          ? "Not this seal here: it is loose in the bore or on the neck."
                      : result.measure_next.empty()
                          ? "It is tight in the bore and on the neck; how tight is right is known from memory only."
                          : "Cannot tell yet: measure the rest.";
    add_given_mm(answer, given, "seal_od", "seal outside");
    add_given_mm(answer, given, "bore", "bore");
    add_given_mm(answer, given, "neck", "neck");
    add_given_mm(answer, given, "lip_id", "lip inside");
    answer.lines.push_back(finding_line("in the bore", result.press));
    answer.lines.push_back(finding_line("on the neck", result.lip));
    for (auto& text : sentences(result.measure_next)) answer.next.push_back(std::move(text));
    add_section(answer, {given.maybe_number("bore"), given.maybe_number("seal_od"), given.maybe_number("neck"),
                         given.maybe_number("lip_id")});
    answer.cautions.emplace_back(kSizeIsNotAll);
    return answer;
}

}  // namespace

std::vector<Inquiry> press_fit_inquiries() {
    const Input off_by = assumed(
        number_input("off_by", "how far a measured diameter may be off, either way", "mm", 0, 5), "0.02 mm");
    const Input bore = bore_input(number_input("bore", "bore, inside diameter", "mm", 0.3, 500), "bore_mm",
                                  "measure the bore across three places.");
    const Input neck = told(number_input("neck", "filter neck, outside diameter", "mm", 0.3, 500), "neck_od");
    return {
        {"press-fit",
         "Press fit of a lip seal in its bore, and what the seal should measure",
         {bore, number_input("nominal", "bore as it was machined, nominal", "mm", 0.3, 500),
          number_input("seal_od", "the seal's outside as measured", "mm", 0.3, 500),
          assumed(choice_input("cased", "what touches the bore", {"rubber", "metal"}), "rubber"),
          number_input("width", "width of the seal", "mm", 1, 50),
          number_input("shaft", "shaft, nominal diameter", "mm", 0.3, 500), bore_role_input("output-shaft-seal"),
          off_by},
         answer_press_fit,
         "bore=50.03mm"},
        {"hat-seal",
         "A hat seal in its bore and on the filter's neck",
         {recorded(number_input("seal_od", "seal, outside diameter", "mm", 0.3, 500), "filters_seals_seals", "od_mm"),
          bore, recorded(neck, "filters_seals_filters", "neck_od_mm"),
          recorded(number_input("lip_id", "seal lip, inside diameter, free", "mm", 0.3, 500), "filters_seals_seals",
                   "id_mm"),
          key_of(text_input("seal", "seal in the catalog, group or item"), "filters_seals_seals"),
          key_of(text_input("filter", "filter in the catalog, group or item"), "filters_seals_filters"),
          bore_role_input("filter-neck-seal"), off_by},
         answer_hat,
         "seal-od=30.25mm bore=30mm neck=22mm lip-id=21.2mm"}};
}

}  // namespace casebound::filters_seals
