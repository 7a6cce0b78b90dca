// A lip or hat seal in its bore: the published press fit, and what the measured parts make of it.
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "science/lip_seal.h"

namespace casebound::filters_seals {
namespace {

struct Allowance {
    Range mm;
    SourceNote source{Evidence::standard, "ISO 6194-1, press fit of the outside diameter"};
};

// A pack's row for this bore and casing, else the standard's own.
Allowance allowance_for(const Services& services, double bore_mm, LipCasing casing) {
    const std::string_view cased = casing == LipCasing::metal ? "metal" : "rubber";
    for (const auto& row : services.facts.rows("filters_seals_press_fits", "cased", cased)) {
        const auto over = row.number("bore_over_mm"), to = row.number("bore_to_mm"), low = row.number("low_mm"),
                   high = row.number("high_mm");
        if (over && to && low && high && bore_mm > *over && bore_mm <= *to) return {{*low, *high}, row_note(row)};
    }
    return {press_fit_allowance_mm(bore_mm, casing)};
}

void add_bore_lines(Answer& answer, double bore_mm, const Allowance& allowance) {
    const SourceNote iso286{Evidence::standard, "ISO 286-2, H8"};
    answer.lines.push_back(text_line("press fit over the bore", span_text(allowance.mm, "mm"), allowance.source));
    answer.lines.push_back(text_line("seal outside wanted",
                                     span_text(Range{bore_mm + allowance.mm.low, bore_mm + allowance.mm.high}, "mm"),
                                     allowance.source));
    answer.lines.push_back(
        mm_line("out of round, at most", roundness_max_mm(bore_mm), {Evidence::standard, "ISO 6194-1"}));
    if (const auto upper = bore_h8_upper_mm(bore_mm))
        answer.lines.push_back(
            text_line("bore as machined", span_text(Range{bore_mm, bore_mm + *upper}, "mm"), iso286));
}

void add_width_lines(Answer& answer, double width_mm) {
    const SourceNote iso{Evidence::standard, "ISO 6194-1 / DIN 3760"};
    answer.lines.push_back(mm_line("width, plus or minus", width_tolerance_mm(width_mm), iso));
    if (const auto depth = housing_depth(width_mm)) {
        answer.lines.push_back(mm_line("bore depth, full diameter, at least", depth->t1_min_mm, iso));
        answer.lines.push_back(mm_line("bore depth to the shoulder, at least", depth->t2_min_mm, iso));
    } else {
        answer.assumptions.push_back("No published bore depth for a width of " + shown(width_mm) +
                                     " mm; the rows held are 7, 8, 10, 12, 15 and 20 mm.");
    }
}

Judgement judge_measured(Answer& answer, const Asked& asked, double bore_mm, const Allowance& allowance) {
    if (!asked.given.has("seal_od")) {
        answer.next.push_back("Measure the seal's outside over three places: seal_od=...");
        return Judgement::check_first;
    }
    const double off_by = asked.given.number("off_by");
    const Stacked over = interference_mm(about(asked.given.number("seal_od"), off_by), about(bore_mm, off_by));
    // The allowance is over the nominal bore; a sound bore may be larger than that by its H8.
    const Window window{{allowance.mm.low - bore_h8_upper_mm(bore_mm).value_or(0.0), allowance.mm.high},
                        {allowance.source.evidence, "press fit"}};
    const Judgement judgement = over.max <= 0 ? Judgement::does_not_fit : judge(over, window);
    answer.lines.push_back(text_line("press fit as measured", span_text(over, "mm"), asked.source("seal_od")));
    return judgement;
}

Answer answer_press_fit(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const auto bore = asked.quantity("bore", bore_of_line(services, given.text("role")), "bore_mm");
    Answer answer;
    if (!bore.value) {
        answer.verdict = Verdict::check_first;
        answer.headline = "Cannot tell yet: the bore is not known.";
        answer.next.push_back("Measure the bore across three places: bore=...");
        return answer;
    }
    const LipCasing casing = given.text("cased") == "metal" ? LipCasing::metal : LipCasing::rubber_covered;
    answer.lines.push_back(mm_line("bore", *bore.value, bore.source));
    const Allowance allowance = allowance_for(services, *bore.value, casing);
    add_bore_lines(answer, *bore.value, allowance);
    if (given.has("width")) add_width_lines(answer, given.number("width"));
    if (given.has("shaft")) {
        const double shaft = given.number("shaft");
        answer.lines.push_back(text_line("shaft as machined",
                                         span_text(Range{shaft + shaft_h11_lower_mm(shaft), shaft}, "mm"),
                                         {Evidence::standard, "ISO 286-2, h11"}));
    }
    const Judgement judgement = judge_measured(answer, asked, *bore.value, allowance);
    settle(answer, judgement, {{"bore", bore}});
    answer.headline = judgement == Judgement::fits ? "The seal is tight in this bore, inside the published press fit."
                      : judgement == Judgement::does_not_fit
                          ? "Not this seal in this bore: outside the published press fit."
                      : given.has("seal_od") ? "At the edge of the published press fit: measure closer."
                                             : "A seal for this bore measures as below.";
    answer.cautions.emplace_back(kSizeIsNotAll);
    return answer;
}

Answer answer_hat(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const auto seal = asked.row("seal", "filters_seals_seals", "seal");
    const auto filter = asked.row("filter", "filters_seals_filters", "filter");
    const Quantity od = asked.quantity("seal_od", seal, "od_mm"), lip = asked.quantity("lip_id", seal, "id_mm");
    const Quantity neck = asked.quantity("neck", filter, "neck_od_mm");
    const Quantity bore = asked.quantity("bore", bore_of_line(services, "filter-neck-seal"), "bore_mm");
    const double off_by = given.number("off_by");
    const HatSealAnswer result = examine_hat_seal(
        {od.within(off_by), bore.within(off_by), neck.within(off_by), lip.within(off_by)});
    Answer answer;
    settle(answer, result.overall, {{"seal's outside", od}, {"bore", bore}, {"neck", neck}, {"lip", lip}});
    answer.headline = result.overall == Judgement::does_not_fit
                          ? "Not this seal here: it is loose in the bore or on the neck."
                      : result.measure_next.empty()
                          ? "It is tight in the bore and on the neck; how tight is right is known from memory only."
                          : "Cannot tell yet: measure the rest.";
    if (od.value) answer.lines.push_back(mm_line("seal outside", *od.value, od.source));
    if (bore.value) answer.lines.push_back(mm_line("bore", *bore.value, bore.source));
    if (neck.value) answer.lines.push_back(mm_line("neck", *neck.value, neck.source));
    if (lip.value) answer.lines.push_back(mm_line("lip inside", *lip.value, lip.source));
    answer.lines.push_back(finding_line("in the bore", result.press));
    answer.lines.push_back(finding_line("on the neck", result.lip));
    answer.next = sentences(result.measure_next);
    answer.cautions.emplace_back(kSizeIsNotAll);
    return answer;
}

}  // namespace

std::vector<Inquiry> press_fit_inquiries() {
    const Input off_by = or_else(
        number_input("off_by", "how far a measured diameter may be off, either way", "mm", 0, 5), "0.02 mm");
    return {{"press-fit",
             "Press fit of a lip seal in its bore, and what the seal should measure",
             {number_input("bore", "bore, inside diameter", "mm", 0.3, 500),
              number_input("seal_od", "the seal's outside as measured", "mm", 0.3, 500),
              or_else(choice_input("cased", "what touches the bore", {"rubber", "metal"}), "rubber"),
              number_input("width", "width of the seal", "mm", 1, 50),
              number_input("shaft", "shaft, nominal diameter", "mm", 0.3, 500),
              or_else(text_input("role", "whose bore, where the vehicle's is recorded"), "output-shaft-seal"), off_by},
             answer_press_fit},
            {"hat-seal",
             "A hat seal in its bore and on the filter's neck",
             {number_input("seal_od", "seal, outside diameter", "mm", 0.3, 500),
              number_input("bore", "bore, inside diameter", "mm", 0.3, 500),
              from_vehicle(number_input("neck", "filter neck, outside diameter", "mm", 0.3, 500), "neck_od"),
              number_input("lip_id", "seal lip, inside diameter, free", "mm", 0.3, 500),
              text_input("seal", "seal in the catalog, group or item"),
              text_input("filter", "filter in the catalog, group or item"), off_by},
             answer_hat}};
}

}  // namespace casebound::filters_seals
