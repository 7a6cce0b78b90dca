#include "rows/findings.h"

#include <algorithm>

#include "core/contract/answer_lines.h"
#include "core/contract/false_leads.h"
#include "core/contract/told_trouble.h"
#include "rows/vocabulary.h"

namespace casebound::actuators {
namespace {

const std::vector<TroubleWords>& trouble_words() {
    static const std::vector<std::string> keys = [] {
        std::vector<std::string> all;
        for (const auto place : places) all.push_back(key_of_place(place));
        return all;
    }();
    static const std::vector<TroubleWords> words{
        {"air_wrong",
         {"one_side_wrong", "never_warm", "never_cold", "wrong_outlet", "never_recirculates", "always_recirculates"},
         "the air is wrong"},
        {"actuator_noise_at", {keys.begin(), keys.end()}, "clicking or humming at"},
        {"actuator_sound", {"silent", "clicks", "hums"}, "when its setting is changed it is"},
        {"door_by_hand", {"stiff", "stuck", "hangs_loose"}, "the door by hand"},
        {"actuator_on_bench", {"slips", "still"}, "off its door, supplied"},
        {"actuator_feedback_follows", {"no"}, "the feedback follows"},
        {"heater_pipes", {"outlet_cool", "both_cool"}, "pipes of the heater"},
    };
    return words;
}

struct Reader {
    const VehicleView* vehicle;
    ToldTrouble told{};

    std::optional<Told> take(const char* attribute) {
        auto found = told_of(vehicle, attribute);
        if (!found) return found;
        told.source = told.any ? weaker(told.source, found->source()) : found->source();
        told.any = true;
        return found;
    }
    void flag(const char* attribute, std::optional<bool>& field) {
        if (const auto found = take(attribute); found && (found->text == "yes" || found->text == "no"))
            field = found->text == "yes";
    }
    void place() {
        const auto found = told_of(vehicle, "actuator_suspected");
        if (!found) return;
        if (const auto there = place_of_key(found->text); there.function != Function::unknown) told.place = there;
    }
};

struct Wait {
    const char *reason, *until;
    std::vector<std::string> attributes;
};

Wait wait_for(Suspect suspect) {
    switch (suspect) {
        case Suspect::door_stuck:
            return {"its door is stiff or stuck by hand: the door comes first, or it wears out the next actuator",
                    "free the door, and turn it from stop to stop with two fingers",
                    {"door_by_hand"}};
        case Suspect::door_broken:
            return {"the door hangs loose: its lever or pin is broken, and a new actuator turns nothing",
                    "mend the lever of the door",
                    {"door_by_hand"}};
        case Suspect::teach_first:
            return {
                "it began when the battery was off or an actuator was changed: the stops may only have to be taught",
                "teach the stops, and see whether it comes back",
                {"actuator_on_bench", "actuator_after_battery"}};
        case Suspect::wiring:
            return {"too few volts arrive at the plug while it is told to move",
                    "look at fuse, plug and wires, and measure again under load",
                    {"actuator_supply"}};
        case Suspect::motor_by_meter:
            return {"no continuity and volts at the plug; how many are enough is from memory",
                    "run it off its door on 12 V, and say whether it stays still there",
                    {"actuator_on_bench"}};
        case Suspect::feedback_next:
            return {"it turns off its door, and nobody has looked whether its feedback follows",
                    "look whether the feedback changes while it turns, and teach the stops",
                    {"actuator_feedback_follows", "actuator_after_battery"}};
        case Suspect::not_the_actuator:
            return {"the actuator turns, and says so: it is not what ails",
                    "look at the lever, the control unit and the temperature sensors",
                    {"actuator_on_bench", "actuator_feedback_follows"}};
        case Suspect::bench_it:
            return {"nobody has seen the motor fail: a stuck door, a stripped gear and a dead motor sound alike",
                    "run the actuator off its door, and say whether it turns, slips or stays still",
                    {"actuator_on_bench", "actuator_supply"}};
        default: break;
    }
    return {"nobody has turned the door by hand: a stuck door, a stripped gear and a dead motor sound alike",
            "take the actuator off, and turn its door with two fingers",
            {"door_by_hand", "actuator_on_bench"}};
}

// Asked of what is told already only where nothing else is left: it is then told anew.
std::vector<std::string> not_told(const Services& services, const std::vector<std::string>& attributes) {
    std::vector<std::string> left;
    for (const auto& one : attributes)
        if (const auto told = told_of(services.vehicle, one); !told || is_hearsay(told->evidence)) left.push_back(one);
    return left.empty() ? attributes : left;
}

// What was told names other actuators only: these were neither heard nor looked at. None where the air is wrong, for
// that names none.
std::vector<std::string> heard_elsewhere(const ToldTrouble& told, const VehicleView* vehicle) {
    const auto noise = told_of(vehicle, "actuator_noise_at"), air = told_of(vehicle, "air_wrong");
    if (!noise || noise->text == "none" || noise->alternatives().size() > 1 || (air && air->text != "none")) return {};
    const auto heard = noise->seen();
    std::vector<std::string> roles;
    for (const auto place : places)
        if (std::find(heard.begin(), heard.end(), key_of_place(place)) == heard.end() && told.place != place)
            roles.push_back(role_of_place(place));
    return roles;
}

Hold hold_for(std::vector<std::string> roles, Wait wait, const ToldTrouble& told, const Services& services) {
    Hold hold;
    hold.roles = std::move(roles);
    hold.reason = wait.reason;
    hold.source = weaker(told.source, practice());
    hold.until = wait.until;
    hold.attributes = not_told(services, wait.attributes);
    return hold;
}

Hold hold_elsewhere(std::vector<std::string> roles, const ToldTrouble& told, const Services& services) {
    return hold_for(std::move(roles),
                    {"what clicks or hums, and was looked at, is another actuator",
                     "listen at this one as well, and tell the noise anew",
                     {"actuator_noise_at"}},
                    told, services);
}

}  // namespace

Door door_from(std::string_view text) {
    if (text == "moves_freely") return Door::moves_freely;
    if (text == "stiff") return Door::stiff;
    if (text == "stuck") return Door::stuck;
    return text == "hangs_loose" ? Door::hangs_loose : Door::not_tried;
}

Bench bench_from(std::string_view text) {
    if (text == "turns") return Bench::turns;
    if (text == "slips") return Bench::slips;
    return text == "still" ? Bench::still : Bench::not_tried;
}

Sound sound_from(std::string_view text) {
    if (text == "silent") return Sound::silent;
    if (text == "clicks") return Sound::clicks;
    if (text == "hums") return Sound::hums;
    return text == "moves" ? Sound::moves : Sound::not_said;
}

ToldTrouble trouble_told(const VehicleView* vehicle) {
    Reader reader{vehicle};
    auto& seen = reader.told.seen;
    for (const auto* attribute : {"air_wrong", "actuator_noise_at"})
        if (const auto found = told_of(vehicle, attribute); found && found->text != "none") reader.take(attribute);
    reader.place();
    if (const auto door = reader.take("door_by_hand")) seen.door = door_from(door->text);
    if (const auto bench = reader.take("actuator_on_bench")) seen.bench = bench_from(bench->text);
    if (const auto sound = reader.take("actuator_sound")) seen.sound = sound_from(sound->text);
    if (const auto volts = reader.take("actuator_supply"); volts && volts->number)
        seen.supplied = *volts->number >= supplied_from_v;
    if (const auto ohms = reader.take("actuator_winding")) seen.winding_open = ohms->text == "open";
    reader.flag("actuator_after_battery", seen.after_battery);
    reader.flag("actuator_feedback_follows", seen.feedback_follows);
    reader.flag("actuator_held", seen.held);
    return std::move(reader.told);
}

Findings findings(const Services& services) {
    return {told_trouble(services, trouble_words()), lead_cautions(false_leads(services, known_words<vocabulary>()))};
}

std::vector<Hold> holds(const Services& services) {
    const auto told = trouble_told(services.vehicle);
    const auto suspect = suspect_of(told.seen);
    const bool speaks = told.any && speaks_for_the_actuator(suspect);
    std::vector<Hold> holds;
    if (speaks || told.place)
        if (auto elsewhere = heard_elsewhere(told, services.vehicle); !elsewhere.empty())
            holds.push_back(hold_elsewhere(std::move(elsewhere), told, services));
    if (speaks) return holds;
    // Eight minutes, and nothing comes off.
    for (auto& hold : lead_holds(services, false_leads(services, known_words<vocabulary>())))
        holds.push_back(std::move(hold));
    if (!told.any) return holds;
    holds.push_back(hold_for(told.place ? std::vector<std::string>{role_of_place(*told.place)} : every_actuator(),
                             wait_for(suspect), told, services));
    return holds;
}

}  // namespace casebound::actuators
