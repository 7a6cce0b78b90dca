#include "core/verdict/fits.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/verdict/laid_out.h"
#include "core/verdict/statements.h"

namespace casebound {

Judge::Judge(const Catalog& catalog, const Plugins& plugins, const LineModel& line, const Narrowing& narrowing,
             const VehicleView& view, const Reasoner& reasoner)
    : catalog_(catalog), plugins_(plugins), line_(line), narrowing_(narrowing), view_(view), reasoner_(reasoner) {
    for (const auto& fact : narrowing_.facts)
        if (fact.applies && !fact.holding.contains(line_.set.all())) telling_.push_back(&fact);
    std::int64_t last = 0;
    narrowing_.left.for_each([&](std::size_t i) {
        if (line_.origins[i] == last) return;
        last = line_.origins[i];
        weakest_configuration_ = weaker(weakest_configuration_, catalog_.evidence(line_.sources[i]));
        invented_configuration_ |= catalog_.invented(last);
    });
}

bool HeldOrder::concerns(std::string_view role, const std::vector<std::string>& jobs, bool of_cure) const {
    if (hold.every_cure && of_cure) return true;
    if (hold.every_cure && hold.roles.empty() && hold.jobs.empty()) return false;
    const auto among = [](const std::vector<std::string>& words, std::string_view word) {
        return std::find(words.begin(), words.end(), word) != words.end();
    };
    const bool of_job = hold.jobs.empty() || std::any_of(jobs.begin(), jobs.end(),
                                                         [&](const std::string& job) { return among(hold.jobs, job); });
    return of_job && (hold.roles.empty() || among(hold.roles, role));
}

const std::vector<HeldOrder>& Judge::holds() const {
    if (holds_) return *holds_;
    holds_.emplace();
    for (const auto& loaded : plugins_.domains) {
        auto said = loaded.domain.holds({catalog_.facts_for(loaded.domain), reasoner_, &view_});
        if (said) {
            for (auto& hold : *said) holds_->push_back({loaded.name, std::move(hold)});
            continue;
        }
        Hold unanswered;
        for (const auto& role : loaded.vocabulary.roles) unanswered.roles.push_back(role.name);
        unanswered.reason = fmt::format("not answered: {}", said.failure);
        unanswered.until = fmt::format("take {} out, or mend it", loaded.name);
        if (!unanswered.roles.empty()) holds_->push_back({loaded.name, std::move(unanswered)});
    }
    return *holds_;
}

Evidence Judge::left_rests_on() const {
    Evidence weakest = weakest_configuration_;
    for (const auto* fact : telling_) weakest = weaker(weakest, evidence_of(fact->evidence));
    return weakest;
}

RoleAnswer Judge::named(std::string_view role) const {
    const auto& words = catalog_.vocabularies();
    const auto* known = words.role(role);
    if (!known) {
        std::vector<std::string> names;
        for (const auto& [name, owned] : words.roles()) names.push_back(name);
        const auto near = nearest(role, names);
        throw Error(Exit::usage, fmt::format("{}: no such role{}", role,
                                             near.empty() ? ": `casebound fits VEHICLE` lists them"
                                                          : fmt::format(": did you mean {}?", near)));
    }
    RoleAnswer answer;
    answer.role = role;
    answer.title = known->title;
    answer.exact_only = known->exact_only();
    answer.domain = words.owner_of_role(role);
    if (const auto* kind = words.item_kind(known->item_kind)) answer.unit = kind->unit;
    return answer;
}

RoleAnswer Judge::role(std::string_view role) const {
    RoleAnswer answer = named(role);
    answer.id = catalog_.id_of(role).value_or(0);
    Rows rows;
    for (const auto& row : catalog_.applications(line_))
        if (row.role == answer.id) rows.push_back(&row);
    return decide(std::move(answer), rows);
}

std::vector<std::string> Judge::roles_where(const std::function<bool(const ApplicationRow&)>& counts) const {
    std::vector<std::int64_t> ids;
    for (const auto& row : catalog_.applications(line_))
        if (counts(row) && std::find(ids.begin(), ids.end(), row.role) == ids.end()) ids.push_back(row.role);
    std::vector<std::string> names;
    for (const auto id : ids) names.push_back(catalog_.name_of(id));
    std::sort(names.begin(), names.end());
    return names;
}

std::vector<std::string> Judge::roles_on_record() const {
    return roles_where([](const ApplicationRow&) { return true; });
}

std::vector<std::string> Judge::roles_naming(std::int64_t group) const {
    return roles_where([&](const ApplicationRow& row) {
        return row.group == group && row.withdrawn.empty() && row.says != Says::none_needed;
    });
}

std::vector<RoleAnswer> Judge::roles() const {
    std::vector<std::pair<std::int64_t, Rows>> by_role;
    for (const auto& row : catalog_.applications(line_)) {
        auto found = std::find_if(by_role.begin(), by_role.end(),
                                  [&](const auto& one) { return one.first == row.role; });
        if (found == by_role.end()) found = by_role.insert(found, {row.role, {}});
        found->second.push_back(&row);
    }
    std::sort(by_role.begin(), by_role.end(),
              [&](const auto& a, const auto& b) { return catalog_.name_of(a.first) < catalog_.name_of(b.first); });
    std::vector<RoleAnswer> answers;
    answers.reserve(by_role.size());
    for (const auto& [id, rows] : by_role) {
        RoleAnswer answer = named(catalog_.name_of(id));
        answer.id = id;
        answers.push_back(decide(std::move(answer), rows));
    }
    return answers;
}

RoleAnswer Judge::decide(RoleAnswer answer, const Rows& rows) const {
    const auto claims = collect(answer, rows);
    lay_out(answer, weigh(claims, group_ids(answer), line_.set.size()));
    const auto* domain = plugins_.find(answer.domain);
    if (!domain) answer.failure = fmt::format("{} is not loaded", answer.domain);
    const auto objections = domain ? examine(answer, *domain) : std::vector<Objected>{};
    object(answer, objections);
    answer.verdict = answer.failure.empty() ? answer.verdict_on(narrowing_.left) : Verdict::not_answered;
    prove(answer, claims, objections);
    return answer;
}

// The statements on the role that count; every group they name gets its place in the answer.
std::vector<Claim> Judge::collect(RoleAnswer& answer, const Rows& rows) const {
    Claims claims;
    claims.reserve(rows.size());
    answer.conditions.reserve(rows.size());
    std::vector<std::int64_t> groups;
    for (const auto* row : rows) {
        if (!row->withdrawn.empty()) {
            if (row->on->meets(narrowing_.left)) answer.withdrawn.push_back({catalog_, *row});
            continue;
        }
        claims.push_back({row, row->evidence, *row->on});
        if (row->says != Says::none_needed) groups.push_back(row->group);
        answer.conditions.push_back(row->when);
    }
    std::sort(claims.begin(), claims.end(),
              [](const Claim& a, const Claim& b) { return a.row->origin < b.row->origin; });
    std::sort(groups.begin(), groups.end());
    groups.erase(std::unique(groups.begin(), groups.end()), groups.end());
    answer.groups.reserve(groups.size());
    for (const auto id : groups) {
        auto& group = answer.groups.emplace_back();
        group.id = id;
        if (const auto* known = catalog_.group(id)) {
            group.key = known->key;
            group.title = known->title;
        }
    }
    return claims;
}

std::vector<Claim> Judge::claims(const RoleAnswer& answer) const {
    Claims claims;
    for (const auto& row : catalog_.applications(line_))
        if (row.role == answer.id && row.withdrawn.empty()) claims.push_back({&row, row.evidence, *row.on});
    return claims;
}

GroupAnswer Judge::candidate(RoleAnswer& answer, const std::string& key) const {
    const auto known = catalog_.group(key);
    GroupAnswer group;
    group.id = known->id;
    group.key = key;
    group.title = known->title;
    const auto none = Bits(line_.set.size());
    group.on = group.on_line = group.disagreed_line = group.denied_line = group.doubted_line = group.vetoed_line = none;
    group.out_line = group.no_line = none;
    const auto* domain = plugins_.find(answer.domain);
    std::vector<Objected> objections;
    if (!domain || !examine(answer, group, *domain, objections)) return group;
    for (const auto& objection : objections)
        (objection.at_most == Verdict::does_not_fit ? group.vetoed_line : group.doubted_line) |= objection.where;
    group.out_line = group.vetoed_line;
    return group;
}

// A domain's objections take configurations away or put them in doubt; they never add one.
std::vector<Objected> Judge::examine(RoleAnswer& answer, const GuardedDomain& domain) const {
    std::vector<Objected> objections;
    for (auto& group : answer.groups) {
        if (group.on_line.any() || group.disagreed_line.any()) {
            if (!examine(answer, group, domain, objections)) return {};
            continue;
        }
        GroupAnswer asked;  // of one that nobody says to fit only where its domain rules it out is wanted
        asked.id = group.id;
        asked.key = group.key;
        asked.on_line = group.on_line;
        if (!examine(answer, asked, domain, objections)) return {};
    }
    return objections;
}

// False, with why in the answer, where the domain fails.
bool Judge::examine(RoleAnswer& answer, GroupAnswer& group, const GuardedDomain& domain,
                    std::vector<Objected>& objections) const {
    auto examination = domain.examine({answer.role, group.key, ""}, {catalog_.facts_for(domain), reasoner_, &view_});
    answer.failure = examination.failure;
    if (!examination) return false;
    for (auto& objection : examination->objections) {
        if (objection.at_most == Verdict::fits) continue;
        Met met;
        try {
            met = meet(line_, catalog_.vocabularies(), narrowing_, parse_condition(objection.condition));
        } catch (const ConditionFault& fault) {
            answer.failure = fmt::format("{} objects to {} where `{}`: {}", domain.name(), group.key,
                                         objection.condition, fault.what());
            return false;
        }
        if (met.untold) continue;
        objections.push_back({group.id, met.on, met.open ? Verdict::check_first : objection.at_most});
        if (met.on.meets(narrowing_.left) && (group.on_line.none() || (met.on & group.on_line).meets(narrowing_.left)))
            group.against.push_back(Leaf(objection.reason, objection.source));
    }
    group.cautions = std::move(examination->cautions);
    group.companions = std::move(examination->companions);
    group.questions = std::move(examination->questions);
    group.never_again = std::move(examination->never_again);
    return true;
}

}  // namespace casebound
