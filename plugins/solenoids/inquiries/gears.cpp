// What the apply table says: gears under every single fault, the gear really engaged from speeds, and the fail-safe.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/fault_grid.h"
#include "inquiries/inquiries.h"
#include "science/ratio.h"
#include "science/suspects.h"

namespace casebound::solenoids {
namespace {

// ---------------------------------------------------------------- apply table

Phase phase_of(const Given& given) {
    return given.text_or("phase") == "in_fail_safe" ? Phase::in_fail_safe : Phase::before_fail_safe;
}

std::string in_words(const ApplyTable& table, const std::vector<Fault>& faults) {
    std::vector<std::string> texts;
    for (const auto& fault : faults) texts.push_back(fault_text(table, fault));
    return listed(texts);
}

void add_look_alikes(Answer& answer, const GearboxFamily& family, const GearboxState& gearbox) {
    std::vector<std::string> gears;
    for (const auto& gear : family.table.gears) gears.push_back(gear.name);
    const auto groups = look_alikes(patterns(family.table, single_faults(family.table), gears, gearbox));
    std::size_t alike = 0;
    for (const auto& group : groups) {
        if (group.size() < 2) continue;
        ++alike;
        answer.lines.push_back(text_line("driving cannot tell apart", in_words(family.table, group), family.source));
    }
    answer.headline =
        alike == 0 ? "Every single fault gives its own gears: driving tells which element it is, not why it is held."
                   : "Some faults give the same gears: driving cannot tell those apart.";
}

void add_gears_left(Answer& answer, const GearboxFamily& family) {
    if (family.table.kind != TableKind::friction_elements) return;
    for (const auto& element : family.table.elements)
        answer.lines.push_back(text_line("left when " + element + " cannot apply",
                                         listed(gears_left(family.table, element), " "), family.source));
}

Answer answer_apply_table(const Given& given, const Services& services) {
    auto found = family_for(given, services);
    if (!found.family) return family_missing(found);
    auto& family = *found.family;
    if (family.table.gears.empty()) {
        auto answer = Answer::judging(Verdict::not_recorded);
        answer.headline = "No apply table is recorded for " + family.title + ".";
        return answer;
    }
    auto answer = Answer::computing();
    const bool feed_assumed = add_common_feed(family);
    const GearboxState gearbox{phase_of(given), given.text_or("lever"), {}};
    answer.lines.push_back(text_line("gearbox family", family.title, family.source));
    add_look_alikes(answer, family, gearbox);
    add_gears_left(answer, family);
    answer.grids = {fault_grid(family, gearbox, {})};
    answer.assumptions = {
        "one fault at a time; the table is a first model, and a maker's failure chart on record overrides it"};
    if (feed_assumed) answer.assumptions.emplace_back("no shared feed is recorded: one for all is assumed");
    return answer;
}

Inquiry apply_table() {
    auto inputs = family_inputs();
    inputs.push_back(choice_input("phase", "before the controller notices, or in its fail-safe",
                                  {"before_fail_safe", "in_fail_safe"}));
    inputs.push_back(text_input("lever", "lever position"));
    return {"apply-table", "The apply table of a family, and the gears every single fault gives", inputs,
            answer_apply_table, "apply=\"1:A 2:A+B 3:B 4:-\""};
}

// ---------------------------------------------------------------- gear ratio

// "1=2.81, 2=1.55" by hand, or the family's.
std::vector<GearRatio> ratios_of(const Given& given, const FamilyFound& found, SourceNote& source) {
    std::vector<GearRatio> ratios;
    if (given.has("ratios")) {
        source = given.source("ratios");
        for (const auto& item : given.items("ratios")) {
            const auto at = item.find('=');
            const double ratio = at == std::string::npos ? 0 : std::atof(item.c_str() + at + 1);
            if (at == 0 || ratio <= 0) refuse("ratios", item, "a list such as \"1=2.81, 2=1.55\"");
            ratios.push_back({item.substr(0, at), ratio});
        }
    } else if (found.family) {
        source = found.family->source;
        ratios = found.family->ratios;
    }
    return ratios;
}

std::optional<double> measured_ratio(const Given& given, Answer& answer) {
    if (given.has("input-speed") && given.has("output-speed")) {
        answer.assumptions.emplace_back("ratio = input speed over output speed");
        return ratio_from_speeds(given.number("input-speed"), given.number("output-speed"));
    }
    if (given.has("engine-speed") && given.has("road-speed") && given.has("tyre") && given.has("final-drive")) {
        answer.assumptions.emplace_back(
            "engine speed stands for input speed: right only with the converter locked, or without one");
        return ratio_from_road({given.number("engine-speed"), given.number("tyre"), given.number("road-speed"),
                                given.number("final-drive")});
    }
    return std::nullopt;
}

Converter converter_of(const Given& given) {
    if (given.has("input-speed")) return Converter::none_or_locked;
    if (!given.has("converter")) return Converter::not_told;
    return given.text("converter") == "locked" ? Converter::none_or_locked : Converter::unlocked;
}

void judge_match(Answer& answer, const RatioMatch& match, const std::vector<GearRatio>& ratios,
                 const SourceNote& source) {
    answer.lines.push_back(
        text_line("gear that fits", match.gears.empty() ? "none" : listed(match.gears, " or "), source));
    answer.lines.push_back(text_line(
        "nearest gear", match.nearest + ", off by " + fixed(100 * match.nearest_difference, 1) + " %", source));
    answer.lower(match.gears.size() == 1 && !match.converter_slip_possible ? Verdict::fits
                 : match.gears.empty()                                     ? Verdict::does_not_fit
                                                                           : Verdict::check_first);
    if (match.gears.size() == 1)
        answer.headline = "Gear " + match.gears.front() +
                          (match.converter_slip_possible ? ", unless the converter was slipping: repeat with it locked."
                                                         : ".");
    else if (match.gears.empty())
        answer.headline =
            "No gear fits: a clutch slips, the tyre or the final drive is another, or the speeds were not read "
            "together.";
    else answer.headline = "Cannot tell: " + listed(match.gears, " or ") + " fit.";
    Grid grid{"ratios", {"gear", "ratio"}, {}, {}};
    for (const auto& one : ratios) {
        if (std::find(match.gears.begin(), match.gears.end(), one.gear) != match.gears.end())
            grid.marked_rows.push_back(grid.rows.size());
        grid.rows.push_back({one.gear, number_text(one.ratio)});
    }
    answer.grids = {std::move(grid)};
}

Answer answer_gear_ratio(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    SourceNote source;
    const auto found = family_for(given, services);
    const auto ratio = measured_ratio(given, answer);
    if (!ratio)
        refuse("gear-ratio", "too little",
               "input-speed with output-speed, or engine-speed, road-speed, tyre and final-drive together");
    answer.lines.push_back(measure_line("measured ratio", *ratio, "", 3, {Evidence::measured, "given"}));
    const auto ratios = ratios_of(given, found, source);
    if (ratios.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "The ratio is " + fixed(*ratio, 3) + "; no ratios are recorded to compare it with.";
        answer.next = {"Give the ratios by hand: ratios=\"1=2.81, 2=1.55\"."};
        return answer;
    }
    const double window = given.has("window")                    ? given.number("window") / 100
                          : found.family && !given.has("ratios") ? found.family->ratio_window.value_or(0.04)
                                                                 : 0.04;
    answer.assumptions.push_back("a ratio fits within " + fixed(100 * window, 1) + " %");
    judge_match(answer, match_ratio(ratios, *ratio, converter_of(given), window), ratios, source);
    return answer;
}

Inquiry gear_ratio() {
    return {
        "gear-ratio",
        "Which gear is really engaged, from speeds",
        {gearbox_input(), helped(word_input(Input::Kind::text_list, "ratios", "ratios by hand"), "\"1=2.81, 2=1.55\""),
         number_input("input-speed", "input speed of the gearbox", "rpm", 1, 20000),
         number_input("output-speed", "output speed of the gearbox", "rpm", 1, 20000),
         number_input("engine-speed", "engine speed", "rpm", 100, 12000),
         number_input("road-speed", "road speed", "km/h", 1, 400),
         number_input("tyre", "rolling circumference of the tyre", "m", 0.5, 5),
         number_input("final-drive", "final drive ratio", "", 0.5, 20),
         choice_input("converter", "converter during the reading", {"locked", "unlocked"}),
         number_input("window", "how far a ratio may be off", "%", 0.1, 20)},
        answer_gear_ratio,
        "ratios=\"1=2.81, 2=1.55, 3=1.0, 4=0.857\" engine-speed=2000rpm road-speed=80km/h tyre=2.0m final-drive=3.5 "
        "converter=locked"};
}

// ---------------------------------------------------------------- fail-safe

std::string said(const std::optional<bool>& value, const char* yes, const char* no) {
    return !value ? "not recorded" : *value ? yes : no;
}

void add_record(Answer& answer, const FailSafe& record, const SourceNote& source) {
    const auto line = [&](const char* label, std::string text) {
        answer.lines.push_back(text_line(label, std::move(text), source));
    };
    line("default gear", record.default_gear.empty() ? "not recorded" : record.default_gear);
    line("why that gear", record.reason == DefaultReason::hydraulic_rest      ? "no current: where the hydraulics rest"
                          : record.reason == DefaultReason::controller_choice ? "the controller's choice"
                                                                              : "not recorded");
    line("reverse without current", said(record.reverse_available, "yes", "no"));
    line("low gear by the lever", said(record.manual_low_available, "yes", "no"));
    line("converter lock", said(record.converter_lock_off, "off", "may stay on"));
    line("pressure", said(record.pressure_at_maximum, "at its highest: harsh engagement is normal", "not raised"));
}

std::optional<bool> yes_no(const Given& given, const char* input) {
    return given.has(input) ? std::optional(given.yes(input)) : std::nullopt;
}

const char* reading_words(FailSafeReading reading) {
    switch (reading) {
        case FailSafeReading::in_fail_safe:
            return "The controller has given up: read its codes; gears noted now no longer tell the faults apart.";
        case FailSafeReading::hydraulic_or_constant: return "Held hydraulically, or noticed again at every start.";
        case FailSafeReading::no_sign_of_it: return "No sign of fail-safe: gears noted now do tell faults apart.";
        case FailSafeReading::cannot_tell: break;
    }
    return "Cannot tell yet whether this is fail-safe.";
}

Answer answer_fail_safe(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto found = family_for(given, services);
    const auto signs = read_signs(
        {yes_no(given, "high-gear-start"), yes_no(given, "low-lever-works"), yes_no(given, "gears-back")});
    if (found.family) {
        answer.lines.push_back(text_line("gearbox family", found.family->title, found.family->source));
        add_record(answer, found.family->fail_safe, found.family->source);
    } else {
        answer.assumptions.push_back(family_missing(found).headline);
    }
    answer.lower(signs.reading == FailSafeReading::cannot_tell ||
                         signs.reading == FailSafeReading::hydraulic_or_constant
                     ? Verdict::check_first
                     : Verdict::fits);
    answer.headline = reading_words(signs.reading);
    answer.lines.push_back(text_line("because", signs.reason));
    for (const auto& question : signs.ask) answer.next.push_back("Find out: " + question);
    answer.cautions = {"driveable for a short way in fail-safe is not driveable home: heat and clutches pay for it"};
    return answer;
}

Inquiry fail_safe() {
    return {"fail-safe",
            "What a family does once its controller has given up, and whether this is it",
            {gearbox_input(), yes_no_input("high-gear-start", "does it pull away in a high gear?"),
             yes_no_input("low-lever-works", "does the lever in 1 or 2 change anything?"),
             told(yes_no_input("gears-back", "do the gears come back after an ignition cycle?"), "gears_back")},
            answer_fail_safe,
            "gearbox=weir-6 gears-back=yes high-gear-start=yes"};
}

}  // namespace

std::vector<Inquiry> gear_inquiries() { return {apply_table(), gear_ratio(), fail_safe()}; }

}  // namespace casebound::solenoids
