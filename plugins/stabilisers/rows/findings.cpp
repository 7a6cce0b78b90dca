#include "rows/findings.h"

#include "core/contract/answer_lines.h"
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

Hold hold_on(std::vector<std::string> roles, std::string reason, const SourceNote& source, std::string until,
             std::vector<std::string> attributes) {
    Hold hold;
    hold.roles = std::move(roles);
    hold.reason = std::move(reason);
    hold.source = weaker(source, practice());
    hold.until = std::move(until);
    hold.attributes = std::move(attributes);
    return hold;
}

std::vector<std::string> every_link() {
    std::vector<std::string> roles;
    for (const auto axle : {Axle::front, Axle::rear})
        for (const auto side : {Side::left, Side::right}) roles.push_back(role_of_link(axle, side));
    return roles;
}

}  // namespace

ToldClunk clunk_told(const VehicleView* vehicle) {
    Reader reader{vehicle};
    auto& clunk = reader.told.clunk;
    if (const auto when = reader.take("clunk_when")) clunk.when = when_from(when->text);
    reader.wheels_at("link_play", reader.told.play, clunk.link_play);
    reader.wheels_at("link_boot_torn", reader.told.torn, clunk.boot_torn);
    if (const auto bush = reader.take("bar_bush_play"); bush && bush->alternatives().size() == 1)
        clunk.bush_play = bush->text != "none";
    reader.flag("ball_joint_play", clunk.ball_joint_play);
    reader.flag("strut_top_play", clunk.strut_top_play);
    reader.flag("quiet_with_links_off", clunk.quiet_with_links_off);
    return std::move(reader.told);
}

Findings findings(const Services& services) { return {told_trouble(services, trouble_words()), {}}; }

std::vector<Hold> holds(const Services& services) {
    const auto told = clunk_told(services.vehicle);
    const auto suspect = suspect_of(told.clunk);
    if (suspect == Suspect::ball_joint_first)
        return {hold_on(every_link(), "a ball joint that holds a wheel has play: it comes before a link", told.source,
                        "mend the ball joint, and do not drive before", {"ball_joint_play"})};
    if (suspect == Suspect::not_the_bar)
        return {hold_on(every_link(),
                        "what was told speaks against the bar: it loads no link over a bump that lifts both wheels, at "
                        "braking, or with the links off",
                        told.source, "feel each link for play by hand, and look elsewhere first",
                        {"clunk_when", "link_play", "link_boot_torn"})};
    if (suspect == Suspect::strut_top)
        return {hold_on(every_link(), "the top of a strut has play and no link is said to have any", told.source,
                        "mend the top of the strut, or feel each link for play by hand",
                        {"strut_top_play", "link_play"})};
    return {};
}

}  // namespace casebound::stabilisers
