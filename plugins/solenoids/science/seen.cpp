#include "science/seen.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/contract/text.h"

namespace casebound::solenoids {
namespace {

bool holds_word(const std::vector<std::string>& words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_out(const CoilAnswer& judged) {
    return judged.verdict != CoilVerdict::pass && judged.verdict != CoilVerdict::borderline;
}

// What the friction elements and bushes are made of, once it lies in the pan.
bool lining_or_metal(const std::vector<std::string>& debris) {
    constexpr std::array<std::string_view, 3> words{"brass_flakes", "aluminium_glitter", "black_flakes"};
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return holds_word(debris, word); });
}

bool coil_speaks_of_trouble(const SeenCoil& coil) {
    const auto judged = coil.answer();
    return coil.differs() || (judged && judged->verdict != CoilVerdict::pass);
}

// The only things of a seen trouble that a person may have from hearsay, one by one.
void forget(Seen& seen, SeenWhat what) {
    switch (what) {
        case SeenWhat::codes: seen.codes.clear(), seen.no_codes = false; break;
        case SeenWhat::gears: seen.commanded.clear(), seen.obtained.clear(); break;
        case SeenWhat::phase: seen.phase = Phase::not_told; break;
        case SeenWhat::lever: seen.lever.clear(); break;
        case SeenWhat::slips: seen.slipping.clear(), seen.holding.clear(); break;
        case SeenWhat::feed: seen.feed_v.reset(); break;
        case SeenWhat::fuse: seen.fuse.reset(); break;
        case SeenWhat::connector: seen.connector.reset(); break;
        case SeenWhat::fluid_level: seen.fluid_level.reset(); break;
        case SeenWhat::swap: seen.swap.reset(); break;
        case SeenWhat::ignition: seen.gears_back.reset(); break;
        case SeenWhat::debris: seen.debris.clear(); break;
        case SeenWhat::fluid_colour: seen.fluid_colour.clear(); break;
        case SeenWhat::fluid_smell: seen.fluid_smell.clear(); break;
    }
}

}  // namespace

// ---------------------------------------------------------------- a code

bool SeenCode::electrical() const {
    return kind == CodeClass::circuit || kind == CodeClass::electrical || kind == CodeClass::intermittent ||
           kind == CodeClass::low || kind == CodeClass::high;
}

bool SeenCode::of_controller_or_sensor() const {
    if (!function || kind == CodeClass::request) return false;
    switch (*function) {
        case Function::control_system:
        case Function::range_sensor:
        case Function::fluid_temperature:
        case Function::input_speed:
        case Function::output_speed:
        case Function::engine_speed:
        case Function::intermediate_speed: return true;
        default: return false;
    }
}

std::vector<Cause> where_to_look(const SeenCode& code) {
    if (code.of_controller_or_sensor()) return {Cause::controller, Cause::shared_feed, Cause::internal_plate};
    return code.kind ? where_to_look(*code.kind) : std::vector<Cause>{};
}

// ---------------------------------------------------------------- a coil

bool SeenCoil::open() const { return std::isinf(ohm); }

std::optional<CoilAnswer> SeenCoil::answer() const {
    if (open()) return CoilAnswer{CoilVerdict::open, ohm, {}, false};
    if (!temp_c || !ohm_20) return std::nullopt;
    return judge_coil({ohm, *temp_c}, *ohm_20);
}

bool SeenCoil::out() const {
    const auto judged = answer();
    return judged && is_out(*judged);
}

bool SeenCoil::differs() const {
    return at_part_ohm && where_between(ohm, *at_part_ohm) == WhereBetween::internal_plate;
}

// ---------------------------------------------------------------- all of it

SourceNote Seen::source(SeenWhat what) const {
    const auto found = how.find(what);
    return found == how.end() ? SourceNote{Evidence::measured, "given"} : found->second.source;
}

bool Seen::any_hearsay() const {
    return std::any_of(how.begin(), how.end(), [](const auto& one) { return one.second.hearsay; }) ||
           std::any_of(coils.begin(), coils.end(),
                       [](const SeenCoil& coil) { return coil.hearsay || coil.at_part_hearsay; });
}

Seen Seen::firm() const {
    Seen firm = *this;
    for (const auto& [what, known] : how)
        if (known.hearsay) forget(firm, what), firm.how.erase(what);
    std::erase_if(firm.coils, [](const SeenCoil& coil) { return coil.hearsay; });
    for (auto& coil : firm.coils)
        if (coil.at_part_hearsay) coil.at_part_ohm.reset();
    return firm;
}

bool Seen::anything() const {
    return !codes.empty() || no_codes || !obtained.empty() || !slipping.empty() || !coils.empty() || feed_v || fuse ||
           connector || fluid_level || swap || gears_back || stop_finding(*this);
}

bool Seen::trouble() const {
    return !codes.empty() || !slipping.empty() || (!obtained.empty() && !as_commanded()) || feed_fails() ||
           connector_bad() || fluid_wrong() || swap || gears_back || stop_finding(*this) ||
           std::any_of(coils.begin(), coils.end(), coil_speaks_of_trouble);
}

bool Seen::speaks_against() const {
    return as_commanded() || no_codes ||
           std::any_of(coils.begin(), coils.end(), [&](const SeenCoil& coil) { return coil_passes(coil.element); });
}

bool Seen::told(SeenWhat what) const {
    const auto found = how.find(what);
    return found != how.end() && !found->second.hearsay;
}

bool Seen::as_commanded() const {
    const auto all = observations();
    return !all.empty() &&
           std::all_of(all.begin(), all.end(), [](const Observation& one) { return one.gear == one.commanded; });
}

bool Seen::feed_falls() const { return feed_v && *feed_v < battery() - feed_drop_allowed_v; }

const SeenCoil* Seen::coil(std::string_view element) const {
    const auto found = std::find_if(coils.begin(), coils.end(),
                                    [&](const SeenCoil& one) { return one.element == element; });
    return found == coils.end() ? nullptr : &*found;
}

bool Seen::coil_out(std::string_view element) const {
    const auto* one = coil(element);
    return one && one->out();
}

bool Seen::coil_passes(std::string_view element) const {
    const auto* one = coil(element);
    const auto judged = one ? one->answer() : std::nullopt;
    return judged && judged->verdict == CoilVerdict::pass;
}

bool Seen::fails_at_part(std::string_view element) const {
    const auto* one = coil(element);
    return one && one->at_part_ohm && one->out() && where_between(one->ohm, *one->at_part_ohm) == WhereBetween::coil;
}

bool Seen::stuck_code(std::string_view element) const {
    return std::any_of(codes.begin(), codes.end(),
                       [&](const SeenCode& code) { return code.stuck() && code.element == element; });
}

std::vector<Observation> Seen::observations() const {
    std::vector<Observation> all;
    for (std::size_t i = 0; i < obtained.size(); ++i) {
        const auto& word = obtained[i];
        if (word == "?") continue;
        const auto what = word == "slips" ? Obtained::slips : word == "binds" ? Obtained::binds : Obtained::gear;
        all.push_back({commanded[i], what, what == Obtained::gear ? word : "", gearbox_state()});
    }
    const auto driven = [&](const std::string& gear) { return holds_word(commanded, gear); };
    for (const auto& gear : slipping)
        if (!driven(gear)) all.push_back({gear, Obtained::slips, "", gearbox_state()});
    for (const auto& gear : holding)
        if (!driven(gear)) all.push_back({gear, Obtained::gear, gear, gearbox_state()});
    return all;
}

GearboxState Seen::gearbox_state() const {
    GearboxState gearbox{phase, lever, {}};
    for (const auto& code : codes)
        if (code.electrical() || code.stuck() || code.kind == CodeClass::ratio || code.kind == CodeClass::supply_open) {
            gearbox.detected = code.kind;
            break;
        }
    return gearbox;
}

std::vector<std::string> Seen::failed_circuits() const {
    std::vector<std::string> failed;
    for (const auto& code : codes) {
        if (!code.electrical()) continue;
        auto name = code.element;
        if (name.empty()) {
            const auto known = solenoids::failed_circuits({code.code});
            if (known.empty()) continue;
            name = std::string(word(known.front().function)) +
                   (known.front().which.empty() ? "" : " " + known.front().which);
        }
        add_once(failed, name);
    }
    return failed;
}

bool Seen::supply_reported() const {
    return std::any_of(codes.begin(), codes.end(),
                       [](const SeenCode& code) { return code.kind == CodeClass::supply_open; });
}

// ---------------------------------------------------------------- what it comes to by itself

std::optional<StopFinding> stop_finding(const Seen& seen) {
    if (holds_word(seen.debris, "steel_pieces"))
        return StopFinding{"steel pieces lie in the pan: the gearbox itself breaks up",
                           "find out what they come from before anything is ordered for the gearbox",
                           SeenWhat::debris,
                           {"pan_debris"}};
    if (seen.fluid_colour == "milky")
        return StopFinding{"the fluid is milky: water is in it",
                           "find where the water comes in, the cooler first, and change the fluid",
                           SeenWhat::fluid_colour,
                           {"fluid_colour"}};
    if (seen.fluid_smell == "burnt" && lining_or_metal(seen.debris))
        return StopFinding{"lining or metal lies in the pan and the fluid is burnt: clutches or bushes are worn",
                           "find out what is worn before anything is ordered for the gearbox",
                           SeenWhat::debris,
                           {"pan_debris", "fluid_smell"}};
    return std::nullopt;
}

std::string shared_words(const Seen& seen) {
    const auto failed = seen.failed_circuits();
    if (seen.supply_reported()) return "the common supply is reported open";
    return failed.size() > 1 ? std::to_string(failed.size()) + " circuits report at once (" + listed(failed) + ")" : "";
}

bool may_be_fail_safe(const Seen& seen) {
    if (seen.phase == Phase::in_fail_safe) return true;
    if (seen.phase == Phase::before_fail_safe || seen.obtained.empty() || !seen.slipping.empty()) return false;
    return std::all_of(seen.obtained.begin(), seen.obtained.end(),
                       [&](const std::string& gear) { return gear == seen.obtained.front(); });
}

std::vector<std::string> forward_gears(const ApplyTable& table) {
    std::vector<std::string> gears;
    for (const auto& gear : table.gears)
        if (gear.range.empty()) gears.push_back(gear.name);
    return gears;
}

}  // namespace casebound::solenoids
