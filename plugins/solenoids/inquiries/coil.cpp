// A coil's resistance met with its temperature, the current it leaves, and the gearbox's own temperature sensor.
#include <algorithm>
#include <cmath>
#include <limits>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/seen.h"
#include "science/resistance.h"
#include "science/temp_sensor.h"

namespace casebound::solenoids {
namespace {

SourceNote copper() { return {Evidence::standard, "IEC 60028 (1925), 0.00393 per K at 20 °C"}; }

// ---------------------------------------------------------------- coil

struct CoilLimits {
    std::optional<OhmLimits> ohm_20;
    std::optional<int> wires;
    std::optional<double> max_current_a;
    SourceNote source;
};

std::string range_text(OhmLimits limits) { return fixed(limits.low, 1) + " to " + fixed(limits.high, 1) + " ohm"; }

// By hand, or of the element that is named in the family.
CoilLimits limits_of(const Given& given, const Services& services, Answer& answer) {
    CoilLimits limits;
    if (given.has("element")) {
        const auto found = family_for(given, services);
        const auto* element = found.family ? found.family->element(given.text("element")) : nullptr;
        if (element != nullptr)
            limits = {element->ohm_20, element->wires, element->max_current_a, row_source(element->origin)};
        else
            answer.assumptions.push_back(
                "element " + given.text("element") + " is not recorded" +
                (found.family ? " for " + found.family->title : "; the gearbox family is not known"));
    }
    if (given.has("low") != given.has("high")) refuse("low and high", "one of them", "both together");
    if (given.has("low")) {
        limits.ohm_20 = OhmLimits{given.number("low"), given.number("high")};
        limits.source = given.source("low");
    }
    if (given.has("wires")) limits.wires = static_cast<int>(std::lround(given.number("wires")));
    if (given.has("current-limit")) limits.max_current_a = given.number("current-limit");
    return limits;
}

struct Measured {
    double ohm;
    SourceNote source;
};

// By hand, or what was told of the element that is named; infinity for an open circuit.
Measured measured_ohm(const Given& given, const Services& services) {
    if (given.yes("open")) return {std::numeric_limits<double>::infinity(), given.source("open")};
    if (given.has("ohm")) return {given.number("ohm"), given.source("ohm")};
    const auto found = given.has("element") ? family_for(given, services) : FamilyFound{};
    if (found.family) {
        const auto* element = found.family->element(given.text("element"));
        const std::string attribute = element ? element->coil_attribute : "";
        if (const auto ohm = told_ohm(services.vehicle, attribute))
            return {*ohm, told_of(services.vehicle, attribute)->source()};
    }
    refuse("coil", "too little", "ohm, or open=yes, or an element whose coil is told of the vehicle");
}

const char* verdict_words(CoilVerdict verdict) {
    switch (verdict) {
        case CoilVerdict::pass: return "In limits";
        case CoilVerdict::borderline: return "Borderline: measure again";
        case CoilVerdict::low: return "Too low";
        case CoilVerdict::high: return "Too high";
        case CoilVerdict::shorted: return "Shorted";
        case CoilVerdict::open: break;
    }
    return "Open";
}

Series limit_series(OhmLimits at_20, const CoilReading& reading, double net_ohm) {
    auto series = series_of("what this coil may read, by its temperature", {"temperature", "degC"},
                            {"resistance", "ohm"}, {"least", "most"});
    constexpr double step_c = 10;
    const double from_c = std::min(-20.0, std::floor(reading.temp_c / step_c) * step_c);
    for (double temp_c = from_c; temp_c <= std::max(140.0, reading.temp_c); temp_c += step_c) {
        const auto now = limits_at(at_20, temp_c);
        series.curves[0].points.emplace_back(temp_c, now.low);
        series.curves[1].points.emplace_back(temp_c, now.high);
    }
    series.curves.push_back({"measured", {{reading.temp_c, net_ohm}}});
    return series;
}

void judge(Answer& answer, const CoilReading& reading, const CoilLimits& limits) {
    const auto judged = judge_coil(reading, *limits.ohm_20);
    if (judged.ohm_20 < 1e9) answer.lines.push_back(measure_line("at 20 °C", judged.ohm_20, "ohm", 1, copper()));
    answer.lines.push_back(text_line("limits at 20 °C", range_text(*limits.ohm_20), limits.source));
    answer.lines.push_back(text_line("may read now", range_text(judged.limits_now), copper()));
    const bool bad = judged.verdict != CoilVerdict::pass && judged.verdict != CoilVerdict::borderline;
    answer.headline = std::string(verdict_words(judged.verdict)) +
                      (!judged.indicative ? "."
                       : bad              ? "; indicative: repeat at 20 °C before condemning."
                                          : "; indicative, for it was not measured at 20 °C.");
    answer.lower(judged.verdict == CoilVerdict::borderline || (bad && judged.indicative) ? Verdict::check_first
                 : bad                                                                   ? Verdict::does_not_fit
                                                                                         : Verdict::fits);
    answer.assumptions.emplace_back("a reading within 5 % of a limit is borderline, from memory");
    if (judged.ohm_20 < 1e9)
        answer.series.push_back(limit_series(*limits.ohm_20, reading, reading.measured_ohm - reading.lead_ohm));
}

void add_currents(Answer& answer, const Given& given, double ohm_20, double temp_c) {
    const double supply = given.number("supply");
    if (ohm_20 <= 0.01 || ohm_20 > 1e6) return;
    const SourceNote law{Evidence::common_practice, "current = voltage / resistance"};
    answer.lines.push_back(measure_line("current at 20 °C", current_a(supply, ohm_20), "A", 2, law));
    if (number_text(temp_c) != "20")
        answer.lines.push_back(measure_line("current at " + number_text(temp_c) + " °C",
                                            current_a(supply, ohm_at(ohm_20, temp_c)), "A", 2, law));
    if (!given.has("joint")) return;
    const auto joint = bad_joint(supply, ohm_20, given.number("joint"));
    answer.lines.push_back(measure_line("lost across the bad joint", joint.drop_v, "V", 1, law));
    answer.lines.push_back(measure_line("current left with the bad joint", joint.current_a, "A", 2, law));
    answer.lines.push_back(measure_line("an ohmmeter would read", joint.read_ohm, "ohm", 1, law));
    answer.cautions.emplace_back("an ohmmeter hardly shows a bad joint: measure the voltage lost under load");
    answer.lower(Verdict::check_first);
    answer.headline += " The bad joint takes " + fixed(joint.drop_v, 1) + " V and leaves " + fixed(joint.current_a, 2) +
                       " A: mend it first.";
}

// "it draws 0.93 A, its limit is 0.75 A"
std::string draw_words(BenchFeed verdict, double current, const CoilLimits& limits) {
    const std::string draws = "it draws " + fixed(current, 2) + " A";
    switch (verdict) {
        case BenchFeed::allowed: return draws + ", its limit is " + number_text(*limits.max_current_a) + " A";
        case BenchFeed::refused: return draws + ", more than its limit of " + number_text(*limits.max_current_a) + " A";
        case BenchFeed::not_recorded: break;
    }
    return draws + ", no limit recorded: that is no permission";
}

void add_bench_feed(Answer& answer, const Given& given, const CoilLimits& limits, double ohm_now) {
    if (!given.yes("bench-feed") || ohm_now < 0.01 || ohm_now > 1e9) return;
    const double supply = given.number("supply");
    const auto verdict = bench_feed(supply, ohm_now, limits.max_current_a);
    const auto draws = draw_words(verdict, current_a(supply, ohm_now), limits);
    const char* may = verdict == BenchFeed::allowed ? "allowed" : verdict == BenchFeed::refused ? "no" : "not recorded";
    answer.lines.push_back(text_line("feed it at the bench", std::string(may) + ": " + draws,
                                     verdict == BenchFeed::not_recorded ? practice() : limits.source));
    answer.headline += (verdict == BenchFeed::allowed ? " It may be fed at the bench: "
                                                      : " Do not feed it at the bench: ") +
                       draws + ".";
    if (verdict != BenchFeed::allowed) answer.lower(Verdict::check_first);
}

void add_case_leak(Answer& answer, const Given& given, const CoilLimits& limits) {
    if (!given.has("pin-to-case")) return;
    if (!limits.wires) {
        answer.next.emplace_back("Say how many wires the coil has: with one it is grounded by design.");
        return;
    }
    const auto leak = case_leak(given.number("pin-to-case"), std::min(2, *limits.wires));
    answer.lines.push_back(text_line("pin to case",
                                     leak == CaseLeak::grounded_by_design ? "one wire: grounded by design"
                                     : leak == CaseLeak::suspect          ? "suspect: below 100 kohm"
                                                                          : "sound",
                                     from_memory()));
    if (leak == CaseLeak::suspect) answer.lower(Verdict::check_first);
}

void add_at_part(Answer& answer, const Given& given, double at_connector_ohm) {
    if (!given.has("at-part")) return;
    const auto where = where_between(at_connector_ohm, given.number("at-part"));
    answer.lines.push_back(text_line("case connector against the part",
                                     where == WhereBetween::internal_plate ? "differs: internal harness or plate"
                                     : where == WhereBetween::coil         ? "same: what is wrong is the coil's"
                                                                           : "borderline: measure again",
                                     from_memory()));
    if (where != WhereBetween::coil) answer.lower(Verdict::check_first);
}

Answer answer_coil(const Given& given, const Services& services) {
    auto answer = Answer::judging(Verdict::fits);
    const auto limits = limits_of(given, services, answer);
    const auto measured = measured_ohm(given, services);
    const bool open = std::isinf(measured.ohm);
    if (!open && !given.has("temp"))
        refuse("temp", "nothing", "-60 to 250 °C: the temperature of the coil, not of the air");
    const CoilReading reading{measured.ohm, given.maybe_number("temp").value_or(20),
                              given.maybe_number("leads").value_or(0)};
    if (!open && reading.lead_ohm > reading.measured_ohm)
        refuse("leads", number_text(reading.lead_ohm) + " ohm",
               "0 to what was measured, " + number_text(reading.measured_ohm) + " ohm");
    answer.lines.push_back(
        text_line("measured",
                  open ? "open" : number_text(reading.measured_ohm) + " ohm at " + number_text(reading.temp_c) + " °C",
                  measured.source));
    const double net = reading.measured_ohm - reading.lead_ohm;
    if (!open && !given.has("leads"))
        answer.assumptions.emplace_back(
            "the leads add nothing; short the probes and give leads to take their resistance off");
    const double ohm_20 = open ? reading.measured_ohm : ohm_at_20(net, reading.temp_c);
    if (open) {
        answer.lower(Verdict::does_not_fit);
        answer.headline = "Open circuit: outside every limit, at any temperature.";
        if (limits.ohm_20)
            answer.lines.push_back(text_line("limits at 20 °C", range_text(*limits.ohm_20), limits.source));
        answer.cautions.emplace_back(open_circuit_caution);
    } else if (limits.ohm_20) judge(answer, reading, limits);
    else {
        answer.lower(Verdict::not_recorded);
        answer.headline = "It is " + fixed(ohm_20, 1) + " ohm at 20 °C; no limits are recorded to judge it by.";
        answer.next.emplace_back("Give low and high from the maker's text, at 20 °C.");
    }
    if (open && !given.has("at-part"))
        answer.next.emplace_back("Measure again at the part's own pins: an open wire or pin reads the same.");
    if (!open) add_currents(answer, given, ohm_20, reading.temp_c);
    add_bench_feed(answer, given, limits, net);
    add_case_leak(answer, given, limits);
    add_at_part(answer, given, net);
    answer.cautions.emplace_back("good resistance never clears a circuit: only a test under load does");
    return answer;
}

Inquiry coil() {
    return {
        "coil",
        "A coil's resistance corrected to 20 °C, its current, and what a bad joint does",
        {number_input("ohm", "resistance measured", "ohm", 0, 1e9), yes_no_input("open", "does the meter show open?"),
         told(number_input("temp", "temperature of the coil, not of the air; an open circuit needs none", "degC", -60,
                           250),
              "coil_temp"),
         number_input("leads", "resistance of the leads, probes shorted", "ohm", 0, 100), gearbox_input(),
         text_input("element", "element of the family, for its limits"),
         number_input("low", "least at 20 °C", "ohm", 0.1, 1e6), number_input("high", "most at 20 °C", "ohm", 0.1, 1e6),
         assumed(number_input("supply", "supply voltage", "V", 0, 60), "12.6"),
         number_input("joint", "a bad joint in series", "ohm", 0, 1e6),
         number_input("pin-to-case", "resistance from the pin to the case", "ohm", 0, 1e9),
         whole(number_input("wires", "wires of the coil", "", 1, 4)),
         number_input("at-part", "the same coil at its own pins", "ohm", 0, 1e9),
         yes_no_input("bench-feed", "is it to be fed at the bench?"),
         number_input("current-limit", "its current limit", "A", 0.01, 100)},
        answer_coil,
        "ohm=13.5 temp=20degC low=11ohm high=16ohm"};
}

// ---------------------------------------------------------------- temperature sensor

Series sensor_series(const std::vector<SensorPoint>& points) {
    auto series = series_of("the sensor's resistance, by temperature", {"temperature", "degC"}, {"resistance", "ohm"},
                            {"least", "most"}, true);
    for (const auto& point : points) {
        series.curves[0].points.emplace_back(point.temp_c, point.low_ohm);
        series.curves[1].points.emplace_back(point.temp_c, point.high_ohm);
    }
    return series;
}

Answer answer_sensor(const Given& given, const Services& services) {
    const auto found = family_for(given, services);
    if (!found.family) return family_missing(found);
    auto answer = Answer::computing();
    const auto& points = found.family->sensor;
    if (points.size() < 2) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "No temperature sensor is recorded for " + found.family->title + ".";
        return answer;
    }
    answer.series = {sensor_series(points)};
    answer.lines.push_back(measure_line("sensor", given.number("ohm"), "ohm", 0, given.source("ohm")));
    const auto span = sensor_temp_c(points, given.number("ohm"));
    if (!span) {
        answer.lower(Verdict::check_first);
        answer.headline = "Cannot tell: the reading lies outside the recorded points, and nothing is extrapolated.";
        return answer;
    }
    const double read_at_c = given.maybe_number("claimed").value_or((span->low + span->high) / 2);
    answer.series.front().curves.push_back(
        {given.has("claimed") ? "read, at the claimed temperature" : "read", {{read_at_c, given.number("ohm")}}});
    answer.lines.push_back(
        text_line("temperature", fixed(span->low, 0) + " to " + fixed(span->high, 0) + " °C", found.family->source));
    answer.headline = "The sensor stands for " + fixed(span->low, 0) + " to " + fixed(span->high, 0) + " °C.";
    if (!given.has("claimed")) return answer;
    const auto check = check_temperature(points, given.number("ohm"), given.number("claimed"), given.number("allowed"));
    answer.lines.push_back(measure_line("claimed", given.number("claimed"), "degC", 0, given.source("claimed")));
    answer.lower(check == SensorCheck::agrees ? Verdict::fits : Verdict::check_first);
    answer.headline += check == SensorCheck::agrees
                           ? " It agrees with the claimed temperature."
                           : " It disagrees with the claimed temperature: sensor, wire or thermometer.";
    return answer;
}

Inquiry sensor() {
    return {"temperature-sensor",
            "Which temperature the gearbox's own sensor stands for, and whether a claimed one agrees",
            {gearbox_input(), required(number_input("ohm", "resistance of the sensor", "ohm", 1, 1e7)),
             number_input("claimed", "temperature claimed or measured otherwise", "degC", -60, 250),
             assumed(number_input("allowed", "how far they may differ, in K", "", 0, 50), "5")},
            answer_sensor,
            "gearbox=tarn-4 ohm=1900 claimed=80degC"};
}

}  // namespace

std::vector<Inquiry> coil_inquiries() { return {coil(), sensor()}; }

}  // namespace casebound::solenoids
