#include "rows/findings.h"

#include <algorithm>

#include "core/contract/answer_lines.h"
#include "core/contract/false_leads.h"
#include "core/contract/told_trouble.h"
#include "rows/records.h"
#include "rows/vocabulary.h"

namespace casebound::stabilisers {
namespace {

const std::vector<TroubleWords>& trouble_words() {
    static const std::vector<std::string_view> at{"front_left", "front_right", "rear_left", "rear_right"};
    static const std::vector<TroubleWords> words{
        {"clunk_at", at, "clunk over bumps at"},
        {"clunk_when", {"one_wheel", "both_wheels", "steering", "braking"}, "it clunks"},
        {"link_play", at, "play of a link at"},
        {"link_boot_torn", at, "torn boot of a link at"},
        {"bar_bush_play", {"front", "rear", "both"}, "bar moves in its bush"},
        {"ball_joint_play", {"yes"}, "play of a ball joint"},
        {"strut_top_play", {"yes"}, "play at the top of a strut"},
    };
    return words;
}

// Wheels may be told as alternatives ("a|b"): then it is not known where, and neither counts.
std::vector<Place> places_told(const Told& told) {
    std::vector<Place> places;
    if (told.alternatives().size() > 1) return places;
    for (const auto& seen : told.seen()) {
        const auto parts = split_at(seen, '_');
        if (parts.size() == 2)
            places.push_back({value_of<Axle>(parts[0], axle_words), value_of<Side>(parts[1], side_words)});
    }
    return places;
}

When when_from(std::string_view text) {
    if (text == "one_wheel") return When::one_wheel;
    if (text == "both_wheels") return When::both_wheels;
    if (text == "steering") return When::steering;
    return text == "braking" ? When::braking : When::not_said;
}

struct Reader {
    const VehicleView* vehicle;
    ToldClunk told{};
    bool any{};

    std::optional<Told> take(const char* attribute) {
        auto found = told_of(vehicle, attribute);
        if (!found) return found;
        told.source = any ? weaker(told.source, found->source()) : found->source();
        any = true;
        return found;
    }
    std::optional<Told> take_but_none(const char* attribute) {
        const auto found = told_of(vehicle, attribute);
        return found && found->text != "none" ? take(attribute) : std::nullopt;
    }
    void flag(const char* attribute, std::optional<bool>& field) {
        if (const auto found = take(attribute); found && (found->text == "yes" || found->text == "no"))
            field = found->text == "yes";
    }
    void wheels_at(const char* attribute, std::vector<Place>& places, std::optional<bool>& field) {
        const auto found = take(attribute);
        if (!found) return;
        places = places_told(*found);
        if (found->text == "none" || !places.empty()) field = !places.empty();
    }
};

struct Wait {
    const char *reason, *until;
    std::vector<std::string> attributes;
};

constexpr const char* feel_each = "feel each link for play by hand";
constexpr const char* push_the_bar = "push the bar up and down beside each clamp, and watch the rubber";

// What stands before a link of an axle where none was found bad.
Wait wait_of_link(const Clunk& clunk) {
    switch (suspect_of(clunk)) {
        case Suspect::ball_joint_first:
            return {"a ball joint that holds a wheel has play: it comes before link and bush",
                    "mend the ball joint, and do not drive before",
                    {"ball_joint_play"}};
        case Suspect::not_the_bar:
            return {
                "what was told speaks against the bar: it loads no link over a bump that lifts both wheels, at "
                "braking, or with the links off",
                "feel each link for play by hand, and look elsewhere first",
                {"clunk_when", "link_play", "link_boot_torn"}};
        case Suspect::strut_top:
            return {"the top of a strut has play and no link is said to have any",
                    "mend the top of the strut, or feel each link for play by hand",
                    {"strut_top_play", "link_play"}};
        case Suspect::link:
        case Suspect::link_worn_soon:
            return {"what was found bad is a link of the other axle, none of this one", feel_each, {"link_play"}};
        case Suspect::bush:
            return {"the bar moves in its bush, and no link is said to have play", feel_each, {"link_play"}};
        case Suspect::link_or_bush:
            return {"it is quiet without the links, and neither a link nor a bush is said to have play",
                    "shake the links in the hand while they are off, and push the bar up and down in its bushes",
                    {"link_play", "bar_bush_play"}};
        case Suspect::steering_or_strut:
            return {"it clunks when the wheels are turned: the top of the strut and the steering come first",
                    "look at both, and feel each link for play by hand",
                    {"strut_top_play", "link_play"}};
        case Suspect::past_the_links:
            return {"each link was felt, and none has play",
                    "look at the bushes of the bar and at the top of the strut, then take the links off and listen",
                    {"bar_bush_play", "strut_top_play", "quiet_with_links_off"}};
        case Suspect::feel_for_play_first: break;
    }
    return {"nobody has felt a link for play", feel_each, {"link_play"}};
}

// Of a bush of an axle where the bar was not found to move; nothing where a link was found bad and no bush looked at.
std::optional<Wait> wait_of_bush(const ToldClunk& told) {
    if (told.clunk.bush_play && !told.loose_bars.empty())
        return Wait{"the bar moves in its bush at the other axle, not here", push_the_bar, {"bar_bush_play"}};
    if (told.clunk.bush_play) return Wait{"the bar was pushed, and moves in no bush", push_the_bar, {"bar_bush_play"}};
    const auto suspect = suspect_of(told.clunk);
    if (suspect == Suspect::not_the_bar || suspect == Suspect::ball_joint_first) return wait_of_link(told.clunk);
    if (!told.looked_for || suspect == Suspect::link || suspect == Suspect::link_worn_soon) return std::nullopt;
    return Wait{"nobody has seen the bar move in its bush", push_the_bar, {"bar_bush_play"}};
}

// Asked of what is told already only where nothing else is left: it is then told anew.
std::vector<std::string> not_told(const Services& services, const std::vector<std::string>& attributes) {
    std::vector<std::string> left;
    for (const auto& one : attributes)
        if (const auto told = told_of(services.vehicle, one); !told || is_hearsay(told->evidence)) left.push_back(one);
    return left.empty() ? attributes : left;
}

// On jobs that are about those places: others look at them, and are not what waits.
void add_hold(std::vector<Hold>& holds, const Services& services, std::vector<std::string> roles, const Wait& wait,
              const SourceNote& source) {
    if (roles.empty()) return;
    Hold hold;
    for (const auto& role : roles)
        for (auto& job : jobs_about(services.facts, role))
            if (std::find(hold.jobs.begin(), hold.jobs.end(), job) == hold.jobs.end())
                hold.jobs.push_back(std::move(job));
    hold.roles = std::move(roles);
    hold.reason = wait.reason;
    hold.source = weaker(source, practice());
    hold.until = wait.until;
    hold.attributes = not_told(services, wait.attributes);
    holds.push_back(std::move(hold));
}

bool at(const std::vector<Place>& places, Axle axle) {
    return std::any_of(places.begin(), places.end(), [&](const Place& place) { return place.axle == axle; });
}

// Released where a link of the axle was found bad: both sides are renewed together.
std::vector<std::string> links_that_wait(const ToldClunk& told) {
    const auto suspect = suspect_of(told.clunk);
    const bool found_bad = suspect == Suspect::link || suspect == Suspect::link_worn_soon;
    std::vector<std::string> roles;
    for (const auto axle : {Axle::front, Axle::rear}) {
        if (found_bad && (at(told.play, axle) || at(told.torn, axle))) continue;
        for (const auto side : {Side::left, Side::right}) roles.push_back(role_of_link(axle, side));
    }
    return roles;
}

std::vector<std::string> bushes_that_wait(const ToldClunk& told) {
    std::vector<std::string> roles;
    for (const auto axle : {Axle::front, Axle::rear})
        if (std::find(told.loose_bars.begin(), told.loose_bars.end(), axle) == told.loose_bars.end())
            roles.push_back("bar-bushes-" + axle_said(axle));
    return roles;
}

}  // namespace

ToldClunk clunk_told(const VehicleView* vehicle) {
    Reader reader{vehicle};
    auto& clunk = reader.told.clunk;
    const auto at = reader.take_but_none("clunk_at");
    const auto when = reader.take("clunk_when");
    if (when) clunk.when = when_from(when->text);
    reader.wheels_at("link_play", reader.told.play, clunk.link_play);
    reader.wheels_at("link_boot_torn", reader.told.torn, clunk.boot_torn);
    if (const auto bush = reader.take("bar_bush_play"); bush && bush->alternatives().size() == 1) {
        clunk.bush_play = bush->text != "none";
        for (const auto axle : {Axle::front, Axle::rear})
            if (bush->text == "both" || bush->text == axle_said(axle)) reader.told.loose_bars.push_back(axle);
    }
    reader.flag("ball_joint_play", clunk.ball_joint_play);
    reader.flag("strut_top_play", clunk.strut_top_play);
    reader.flag("quiet_with_links_off", clunk.quiet_with_links_off);
    reader.told.looked_for = at || when || told_of(vehicle, "link_play") || told_of(vehicle, "link_boot_torn");
    return std::move(reader.told);
}

Findings findings(const Services& services) { return {told_trouble(services, trouble_words()), {}}; }

std::vector<Hold> holds(const Services& services) {
    const auto told = clunk_told(services.vehicle);
    std::vector<Hold> holds;
    if (told.looked_for || suspect_of(told.clunk) != Suspect::feel_for_play_first)
        add_hold(holds, services, links_that_wait(told), wait_of_link(told.clunk), told.source);
    if (const auto wait = wait_of_bush(told)) add_hold(holds, services, bushes_that_wait(told), *wait, told.source);
    return holds;
}

}  // namespace casebound::stabilisers
