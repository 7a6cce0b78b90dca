// What stays behind for a job or a role: the packs' word for the vehicle's line first, then common practice.
#include <algorithm>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/hooks.h"
#include "science/left_behind.h"

namespace casebound::filters_seals {
namespace {

std::string title_of(std::string_view role) {
    if (const auto* known = role_in(known_words<vocabulary>(), role)) return known->title;
    std::string words(role);
    std::replace(words.begin(), words.end(), '-', ' ');
    return words;
}

void add_once(std::vector<std::string>& list, std::string_view text) {
    if (std::find(list.begin(), list.end(), text) == list.end()) list.emplace_back(text);
}

bool may_hold(const Services& services, std::string_view condition) {
    return !services.vehicle || services.vehicle->holds(condition) != Holds::no;
}

std::vector<std::string> roles_of_job(const Services& services, std::string_view job) {
    std::vector<std::string> roles;
    for (const auto& row : services.facts.rows("job_roles", "job", job)) {
        const auto line = row.text("line");
        if (!line.empty() && (!services.vehicle || line != services.vehicle->line())) continue;
        if (may_hold(services, row.text("condition"))) add_once(roles, row.text("role"));
    }
    return roles;
}

std::vector<std::string> wanted_roles(const Given& given, const Services& services) {
    std::vector<std::string> roles;
    if (given.has("role")) roles.push_back(given.text("role"));
    if (!given.has("job")) {
        if (roles.empty())
            for (const auto& row : left_behind_table()) roles.emplace_back(row.role);
        return roles;
    }
    const auto& job = given.text("job");
    if (services.facts.rows("jobs", "job", job).empty()) {
        std::vector<std::string> known;
        for (const auto& row : services.facts.rows("jobs")) known.emplace_back(row.text("job"));
        refuse("job", job, known.empty() ? "a job of a loaded pack, and none is loaded" : listed(known));
    }
    for (const auto& role : roles_of_job(services, job)) add_once(roles, role);
    return roles;
}

std::string text_of(const HeldRow& row) {
    const std::string count(row->text("count"));
    return std::string(row->text("place")) + row.where() + ". See: " + sentence(row->text("see")) +
           " Get out: " + sentence(row->text("remove")) +
           (count.empty() ? "" : " " + count + " out and " + count + " in.");
}

std::string text_of(const LeftBehind& row) {
    return std::string(row.what) + ", " + std::string(row.where) + ". See: " + sentence(row.see) +
           " Get out: " + sentence(row.get_out) + (row.counted ? " As many in as came out, one a place." : "");
}

// True when a pack says something for this vehicle.
bool add_recorded(Answer& answer, const Services& services, std::string_view role) {
    bool any = false;
    for (const auto& row : rows_here(services, "stays_behind")) {
        if (row->text("role") != role) continue;
        answer.lines.push_back(text_line(title_of(role), text_of(row), row_source(*row)));
        any = true;
    }
    return any;
}

Answer answer_left(const Given& given, const Services& services) {
    Answer answer = Answer::judging(Verdict::check_first);
    std::vector<std::string> silent;
    for (const auto& role : wanted_roles(given, services)) {
        if (add_recorded(answer, services, role)) continue;
        const LeftBehind* usual = left_behind(role);
        if (usual) answer.lines.push_back(text_line(title_of(role), text_of(*usual), note(usual->source)));
        else silent.push_back(title_of(role));
    }
    if (answer.lines.empty()) answer.lower(Verdict::not_recorded);
    answer.headline = answer.lines.empty()
                          ? "Nobody has recorded what stays behind here; look before fitting the new part."
                          : "Look in these places before anything new goes in; out equals in.";
    if (!silent.empty())
        answer.assumptions.push_back("Nothing is recorded to stay for: " + listed(silent) + ". That is not a no.");
    answer.next.push_back("Count what comes out, then what goes in; seal-count keeps the neck seals.");
    answer.cautions.push_back("Pan off only for its gasket: leave filter and neck seal alone.");
    return answer;
}

std::vector<Input> asked() {
    return {text_input("job", "job of a loaded pack, such as pan-service"),
            text_input("role", "one role, such as filter-neck-seal")};
}

}  // namespace

std::vector<Inquiry> left_behind_inquiries() {
    return {{"stays-behind", "What stays behind when an old part comes off, where, how to see it and get it out",
             asked(), answer_left, "role=filter-neck-seal --for bookvan"}};
}

}  // namespace casebound::filters_seals
