// A shake or clunk: what to look at before any mount, what the mount itself shows, and what to fit.
#include <optional>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "inquiries/pair_rules.h"
#include "rows/mount_record.h"
#include "rows/vehicle_mounts.h"
#include "science/pair_advice.h"
#include "science/vibration.h"

namespace casebound::mounts {
namespace {

SourceNote manual() { return {Evidence::maker, "a maker's workshop manual"}; }

// Collects the lines of one answer in the order in which they are looked at.
struct Shake {
    const Given& given;
    const Services& services;
    Answer answer = Answer::judging(Verdict::fits);
    std::vector<std::string> first{};  // imitators that are told, or not looked at yet
    bool imitator_told{};
    bool pair_required{};

    void line(std::string label, std::string text, SourceNote source) {
        answer.lines.push_back(text_line(std::move(label), std::move(text), std::move(source)));
    }
    // No better than the weakest of the inputs named that were given.
    SourceNote fed_by(SourceNote rule, std::initializer_list<const char*> inputs) const {
        for (const char* input : inputs)
            if (given.has(input)) rule = fed_with(std::move(rule), given.source(input));
        return rule;
    }

    void idle_speed() {
        if (!given.has("idle-speed")) first.emplace_back("idle speed against the maker's figure");
        else if (!given.has("idle")) first.emplace_back("the maker's idle speed, to compare the measured one with");
        else {
            const bool low = idle_is_low(given.number("idle-speed"), given.number("idle"));
            imitator_told |= low;
            line("idle speed",
                 fixed(given.number("idle-speed"), 0) + " rpm, the maker's " + fixed(given.number("idle"), 0) + " rpm" +
                     (low ? ": low, correct it first" : ": right"),
                 weaker(given.source("idle-speed"), given.source("idle")));
        }
    }

    void misfire() {
        if (!given.has("misfire")) first.emplace_back("misfire");
        else if (given.yes("misfire")) {
            imitator_told = true;
            line("misfire", "yes: it shakes like a bad mount, correct it first", given.source("misfire"));
        }
    }

    void exhaust() {
        if (!given.has("exhaust")) first.emplace_back("an exhaust that touches the body");
        else if (given.yes("exhaust")) {
            imitator_told = true;
            line("exhaust", "touches the body: it shakes and booms like a bad mount, free it first",
                 given.source("exhaust"));
        }
    }

    std::string broken_side() const {
        return given.has("leak") && given.text("leak") != "dry" ? given.text("leak") : "";
    }

    void leak() {
        if (!given.has("leak")) {
            answer.next.emplace_back("Look for black wet streaks under each mount.");
            return;
        }
        if (broken_side().empty())
            line("fluid at a mount", "none seen; a solid mount has none to lose", given.source("leak"));
        else
            line("fluid at a mount", broken_side() + ": a hydraulic mount that leaks is done, replace it",
                 fed_by(manual(), {"leak"}));
    }

    bool rubber_bad() const { return given.has("rubber") && given.text("rubber") != "sound"; }

    void rubber() {
        if (!given.has("rubber")) return;
        line("mount rubber", given.text("rubber") + (rubber_bad() ? ": replace it" : ""),
             rubber_bad() ? fed_by(manual(), {"rubber"}) : given.source("rubber"));
    }

    void symptoms() {
        const auto when = given.text_or("shake");
        if (when == "in_gear")
            line("shake", "in gear only: load on the mounts; a mount is possible", given.source("shake"));
        if (when == "in_neutral")
            line("shake", "in neutral only: rather the engine than a mount", given.source("shake"));
        if (when == "always") line("shake", "in gear and in neutral: engine first, then mounts", given.source("shake"));
        if (given.yes("clunk"))
            line("clunk from drive to reverse", "the engine moves: a mount or a loose fastener; tighten first",
                 given.source("clunk"));
    }

    Kind kind_on_vehicle() const {
        if (given.has("kind")) return kind_from(given.text("kind"));
        if (!broken_side().empty()) return Kind::hydraulic;  // only a hydraulic mount has fluid to lose
        return Kind::unknown;
    }

    // Fluid at the mount leaves the kinds that hold some; the line's configurations may leave one of those.
    std::optional<Kind> only_kind_with_fluid() const {
        if (services.vehicle == nullptr || broken_side().empty()) return std::nullopt;
        std::optional<Kind> only;
        for (const auto& value : services.vehicle->possible("mount_kind")) {
            const auto kind = kind_from(value.text);
            if (kind == Kind::solid || kind == Kind::tie_rod || kind == Kind::unknown) continue;
            if (only) return std::nullopt;
            only = kind;
        }
        return only;
    }

    Mount wanted() const {
        Mount mount = mount_seen(services.vehicle, position_from(broken_side()));
        if (const auto only = only_kind_with_fluid(); mount.kind == Kind::unknown && only)
            mount = mount_shown(mount.position, *only);
        if (mount.kind == Kind::unknown) mount.kind = kind_on_vehicle();
        if (given.has("hose") && given.yes("hose")) mount.connection = Connection::hose;
        else if (given.has("plug") && given.yes("plug")) mount.connection = Connection::plug;
        else if (given.has("hose") && given.has("plug")) mount.connection = Connection::none;
        return mount;
    }

    // What the kind was concluded from.
    SourceNote kind_source() const {
        std::optional<SourceNote> weakest;
        for (const char* input : {"kind", "hose", "plug", "leak"})
            if (given.has(input)) weakest = weakest ? weaker(*weakest, given.source(input)) : given.source(input);
        return weakest.value_or(practice());
    }

    void which_kind() {
        const Mount mount = wanted();
        const Kind shown = shown_kind(mount);
        const auto source = kind_source();
        if (shown != Kind::unknown) line("kind on the vehicle", std::string(word(shown)), source);
        else if (mount.kind == Kind::hydraulic)
            line("kind on the vehicle", "hydraulic; switched or not is not known", source);
        const bool plain = shown == Kind::solid || shown == Kind::tie_rod;  // told so: nothing to switch
        if (shown == Kind::unknown || (mount.connection == Connection::unknown && !plain))
            answer.next.insert(answer.next.begin(),
                               "Before ordering, look for a hose or a plug at the mount: with one it is a switched "
                               "mount, and its pins or hose size must be noted.");
        else if (is_switched(shown))
            answer.next.insert(answer.next.begin(),
                               "Note the pins of the plug or the size of the hose: the new mount must have the same.");
    }

    void offer(const std::string& item) {
        const Kind kind = kind_from(item);
        if (kind == Kind::unknown) refuse("offered", item, "kinds: " + listed(kind_choices()));
        Mount here = wanted();
        if (here.position == Position::unknown) here.position = Position::left;
        const auto replacement = may_replace(here, mount_shown(here.position, kind));
        const std::string says = replacement.verdict == Replacement::same_kind      ? "same kind"
                                 : replacement.verdict == Replacement::bolts_up_but ? "bolts up, but differs"
                                 : replacement.verdict == Replacement::no           ? "no"
                                                                                    : "cannot tell yet";
        line("offered: " + item, says + ": " + replacement.reasons.front(), fed_with(practice(), kind_source()));
        if (kind == Kind::solid && here.kind == Kind::hydraulic) solid_in_numbers();
    }

    void offers() {
        if (!given.has("offered")) return;
        for (const auto& item : given.items("offered")) offer(item);
    }

    void solid_in_numbers() {
        const auto firing = firing_hz(given);
        if (!firing) {
            answer.next.emplace_back("Give cylinders and idle to see in numbers what a solid mount changes.");
            return;
        }
        const auto one = compare(*firing, assumed_hydraulic(), assumed_solid());
        answer.lines.push_back(
            measure_line("firing frequency at idle", *firing, "Hz", 1, fed_by(firing_source(), {"cylinders", "idle"})));
        line("passed on at idle, hydraulic to solid",
             fixed(one.hydraulic_at_firing, 2) + " to " + fixed(one.solid_at_firing, 2) + ", " +
                 fixed(100 * (one.solid_over_hydraulic - 1), 0) + " % more",
             from_memory());
        line("bounce, hydraulic to solid",
             "x" + fixed(one.hydraulic_at_resonance, 1) + " to x" + fixed(one.solid_at_resonance, 1), from_memory());
        answer.assumptions.emplace_back(
            "hydraulic 10 Hz with damping 0.20, solid 60 % stiffer with damping 0.05, from memory; "
            "`solid-for-hydraulic` takes others");
    }

    OtherMount other_mount(Position broken, Position position, const RecordedRule& recorded) const {
        OtherMount other{position};
        other.pair_rule = recorded.rule;
        if (given.has("same-age") && is_opposite(broken, position)) other.same_age = given.yes("same-age");
        return other;
    }

    void others() {
        const auto broken = position_from(broken_side());
        if (broken == Position::unknown) return;
        for (const auto position :
             {broken == Position::left ? Position::right : Position::left, Position::transmission}) {
            if (!may_have(services, position)) continue;
            const auto recorded = recorded_rule(services, broken, position, answer);
            const auto one = pair_advice(broken, {other_mount(broken, position, recorded)}).front();
            pair_required |= one.action == PairAction::replace;
            const bool on_record = recorded.rule != PairRule::not_recorded;
            line(std::string(word(position)) + " mount", std::string(word(one.action)) + ": " + one.reason,
                 fed_by(on_record ? recorded.source : practice(), {"leak", "same-age"}));
        }
    }

    void conclude() {
        const bool bad = !broken_side().empty() || rubber_bad();
        const bool known = !bad ? false : shown_kind(wanted()) != Kind::unknown && !is_switched(shown_kind(wanted()));
        const std::string which = broken_side() == "both" || pair_required ? "both engine mounts"
                                  : broken_side().empty()                  ? "the mount that is torn"
                                                                           : "the " + broken_side() + " engine mount";
        if (bad)
            answer.headline = "Replace " + which +
                              (kind_on_vehicle() != Kind::hydraulic ? ""
                               : which.starts_with("both")          ? " with hydraulic ones"
                                                                    : " with a hydraulic one") +
                              (imitator_told ? ", but correct what imitates it first."
                               : known       ? "."
                                             : "; look for a hose or plug before ordering.");
        else if (imitator_told) answer.headline = "Not a mount yet: correct what imitates it first.";
        else answer.headline = "Cannot tell yet: nothing seen condemns a mount.";
        if (!bad || !known || imitator_told || !first.empty()) answer.lower(Verdict::check_first);
        for (const auto& what : first) answer.next.push_back("Check first: " + what + ".");
        answer.next.emplace_back("Check first: loose fasteners between plate and bracket.");
        answer.cautions = {
            "rock tests: brake held, nobody in the path",
            "where to lift: ask `lifting-point`; unless the maker's rule is recorded, do not assume the oil pan",
            "never under an engine that only a jack holds"};
    }
};

Answer answer_shake(const Given& given, const Services& services) {
    Shake shake{given, services};
    shake.idle_speed();
    shake.misfire();
    shake.exhaust();
    shake.symptoms();
    shake.leak();
    shake.rubber();
    shake.which_kind();
    shake.offers();
    shake.others();
    shake.conclude();
    return std::move(shake.answer);
}

}  // namespace

Inquiry shake_inquiry() {
    return {"shake",
            "A shake or clunk: what imitates a mount, what the mount shows, and what may be fitted",
            {told(choice_input("shake", "when it shakes at idle", {"smooth", "in_gear", "in_neutral", "always"}),
                  "idle_shake"),
             told(yes_no_input("clunk", "clunk from drive to reverse"), "shift_clunk"),
             told(choice_input("leak", "fluid at an engine mount", {"dry", "left", "right", "both"}), "mount_leak"),
             told(choice_input("rubber", "state of the mount rubber", {"sound", "cracked", "separated", "split"}),
                  "mount_rubber"),
             told(number_input("idle-speed", "idle speed in gear, measured", "rpm", 50, 12000), "idle_speed"),
             told(yes_no_input("misfire", "misfire"), "misfire"),
             told(yes_no_input("exhaust", "does the exhaust touch the body?"), "exhaust_touches"), cylinders_input(),
             idle_input("the maker's idle speed in gear"),
             told(choice_input("kind", "kind of the mounts on the vehicle", kind_choices()), "mount_kind"),
             told(yes_no_input("hose", "hose at the mount"), "mount_hose"),
             told(yes_no_input("plug", "plug at the mount"), "mount_plug"),
             yes_no_input("same-age", "is the opposite mount as old?"),
             helped(word_input(Input::Kind::text_list, "offered", "kinds offered"), "\"hydraulic, solid\"")},
            answer_shake,
            "\"shake=in gear\" clunk=yes"};
}

}  // namespace casebound::mounts
