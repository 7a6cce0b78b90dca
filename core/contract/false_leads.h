// What imitates a part that fails, as rows of core's table `imitators`: what is seen, what it may be besides the part, and
// the test that tells the two apart. A row is of the domain whose places it names. Met with what was told, and turned into
// what core asks of a domain: cautions of its findings, and holds on the jobs that are about the part. Part of the
// contract, and nothing but shorthand for Domain::findings and Domain::holds. Comes up only where a trouble was told, and
// raises nothing.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/domain_words.h"
#include "core/contract/plugin.h"
#include "core/contract/text.h"
#include "core/contract/valid_range.h"

namespace casebound {

enum class LeadStanding : std::uint8_t { open, shown, ruled_out };

struct FalseLead {
    const Row* row;
    LeadStanding standing = LeadStanding::open;
    SourceNote source;                    // of the row, and of what was told
    std::vector<std::string> attributes;  // that tell
};

// What a domain works out of what was told, where no condition can say it; nothing: as the conditions say.
using OwnStanding = std::optional<LeadStanding> (*)(const Services&, const Row&);

// The names alone: "not codes=none; fluid_level=low" is codes, fluid_level.
inline std::vector<std::string> attributes_named(std::string_view condition) {
    std::vector<std::string> names;
    for (const auto& term : split_at(condition, ';')) {
        auto name = trimmed(std::string_view(term).substr(0, term.find_first_of("=<>")));
        if (name.starts_with("not ")) name = trimmed(name.substr(4));
        if (!name.empty()) names.emplace_back(name);
    }
    return names;
}

// A vehicle's findings, met with the conditions of a row.
class LeadMeeting {
public:
    LeadMeeting(const Services& services, const Row& row) : services_(services), row_(row) {}

    // Nothing where the rival is ruled out, or where no trouble was told.
    std::optional<FalseLead> lead(OwnStanding own) const {
        const auto own_word = own ? own(services_, row_) : std::nullopt;
        const auto standing = own_word ? *own_word : by_conditions();
        if (standing == LeadStanding::ruled_out || (standing == LeadStanding::open && !blamed())) return std::nullopt;
        const auto* tells = standing == LeadStanding::shown ? "rival_condition" : "cleared_condition";
        auto source = row_source(row_);
        for (const auto* column : {"blames_condition", "rival_condition"})
            for (const auto& told : told_in(column)) source = weaker(std::move(source), told.source());
        return FalseLead{&row_, standing, std::move(source), attributes_named(row_.text(tells))};
    }

private:
    std::vector<Told> told_in(const char* column) const {
        std::vector<Told> all;
        for (const auto& name : attributes_named(row_.text(column)))
            if (auto told = told_of(services_.vehicle, name)) all.push_back(std::move(*told));
        return all;
    }
    bool holds(const char* column) const { return services_.vehicle->holds(row_.text(column)) == Holds::yes; }

    // Told of several values, one of which blames the part: that does.
    bool blamed() const {
        return !told_in("blames_condition").empty() &&
               services_.vehicle->holds(row_.text("blames_condition")) != Holds::no;
    }

    // Looked at by the person at the vehicle, not before the trouble was told: what a seller says rules nothing out.
    bool looked_at_since() const {
        const auto blames = told_in("blames_condition"), looks = told_in("cleared_condition");
        return std::all_of(looks.begin(), looks.end(), [&](const Told& look) {
            return !is_hearsay(look.evidence) &&
                   std::all_of(blames.begin(), blames.end(), [&](const Told& one) { return look.date >= one.date; });
        });
    }

    LeadStanding by_conditions() const {
        if (holds("cleared_condition") && looked_at_since()) return LeadStanding::ruled_out;
        return holds("rival_condition") ? LeadStanding::shown : LeadStanding::open;
    }

    const Services& services_;
    const Row& row_;
};

// Those about the places of `words` that stand, the quickest test first. None without a vehicle.
inline std::vector<FalseLead> false_leads(const Services& services, const Vocabulary& words,
                                          OwnStanding own = nullptr) {
    std::vector<FalseLead> leads;
    if (!services.vehicle || services.vehicle->told().empty()) return leads;
    for (const auto& row : services.facts.rows("imitators")) {
        const auto parts = row.text("parts");
        if (!role_in(words, parts.substr(0, parts.find('|')))) continue;  // all are of one domain
        if (auto lead = LeadMeeting(services, row).lead(own)) leads.push_back(std::move(*lead));
    }
    std::stable_sort(leads.begin(), leads.end(), [](const FalseLead& a, const FalseLead& b) {
        return a.row->number("minutes").value_or(0) < b.row->number("minutes").value_or(0);
    });
    return leads;
}

// Rivals that one test tells from one part, said together; those that are shown, without their test.
struct LeadsTogether {
    std::string seen, parts, test;
    LeadStanding standing;
    double minutes{};
    SourceNote source;
    std::vector<std::string> rivals{}, attributes{};

    std::string reason() const {
        std::string all;
        for (std::size_t i = 0; i < rivals.size(); ++i)
            all.append(i == 0 ? "" : i + 1 == rivals.size() ? " or " : ", ").append(rivals[i]);
        return standing == LeadStanding::open
                   ? seen + " may be " + all + " instead"
                   : "what was told speaks for " + all + "; " + seen + " may be no more than that";
    }
    std::string until() const {
        return standing == LeadStanding::open ? test + " (" + number_text(minutes) + " min)"
                                              : "put that right, and look again whether it is still there";
    }
};

// A rival that is shown comes before those that are not told of the same trouble.
inline std::vector<LeadsTogether> leads_together(const std::vector<FalseLead>& leads) {
    std::vector<LeadsTogether> all;
    const auto beside_a_shown_one = [&](const FalseLead& lead) {
        return lead.standing == LeadStanding::open &&
               std::any_of(leads.begin(), leads.end(), [&](const FalseLead& one) {
                   return one.standing == LeadStanding::shown && one.row->text("seen") == lead.row->text("seen");
               });
    };
    for (const auto& lead : leads) {
        if (beside_a_shown_one(lead)) continue;
        const auto& row = *lead.row;
        LeadsTogether fresh{std::string(row.text("seen")),
                            std::string(row.text("parts")),
                            "",
                            lead.standing,
                            row.number("minutes").value_or(0),
                            lead.source};
        if (lead.standing == LeadStanding::open) fresh.test = row.text("test");
        auto at = std::find_if(all.begin(), all.end(), [&](const LeadsTogether& one) {
            return one.seen == fresh.seen && one.parts == fresh.parts && one.test == fresh.test &&
                   one.standing == fresh.standing;
        });
        if (at == all.end()) at = all.insert(at, std::move(fresh));
        at->rivals.emplace_back(row.text("rival"));
        at->source = weaker(at->source, lead.source);
        for (const auto& attribute : lead.attributes)
            if (std::find(at->attributes.begin(), at->attributes.end(), attribute) == at->attributes.end())
                at->attributes.push_back(attribute);
    }
    return all;
}

// For the cautions of Domain::findings.
inline std::vector<Caution> lead_cautions(const std::vector<FalseLead>& leads) {
    std::vector<Caution> cautions;
    for (const auto& one : leads_together(leads)) cautions.push_back({one.reason() + ": " + one.until(), one.source});
    return cautions;
}

// Jobs that are about the place, not those that merely use one up or look at it: a service is no cure.
inline std::vector<std::string> jobs_about(const Facts& facts, std::string_view role) {
    std::vector<std::string> jobs;
    for (const auto& row : facts.rows("job_roles", "role", role))
        if (row.text("reach") == "needs") jobs.emplace_back(row.text("job"));
    return jobs;
}

// No order of a part for a job that is about it while a rival stands. `spared`: places that something seen condemns by
// itself, or that are held already.
inline std::vector<Hold> lead_holds(const Services& services, const std::vector<FalseLead>& leads,
                                    const std::vector<std::string>& spared = {}) {
    std::vector<Hold> holds;
    for (const auto& one : leads_together(leads)) {
        const auto first = holds.size();
        for (const auto& role : split_at(one.parts, '|')) {
            if (std::find(spared.begin(), spared.end(), role) != spared.end()) continue;
            auto jobs = jobs_about(services.facts, role);
            if (jobs.empty()) continue;  // nothing that would be ordered for it
            const auto same = std::find_if(holds.begin() + static_cast<std::ptrdiff_t>(first), holds.end(),
                                           [&](const Hold& hold) { return hold.jobs == jobs; });
            if (same != holds.end()) same->roles.push_back(role);
            else holds.push_back({{role}, std::move(jobs), one.reason(), one.source, one.until(), one.attributes});
        }
    }
    return holds;
}

}  // namespace casebound
