#include "core/verdict/interchange.h"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/verdict/add_once.h"
#include "core/verdict/open_worlds.h"
#include "core/verdict/stand_in_path.h"

namespace casebound {

namespace {

std::vector<std::string> parts(std::string_view text) {
    std::vector<std::string> out;
    while (!text.empty()) {
        const auto end = text.find('|');
        if (end != 0) out.emplace_back(text.substr(0, end));
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    }
    return out;
}

// Two sources against each other. What is said from memory does not stand against a firmer exclusion.
bool opposed(const Edge& positive, const Edge& negative) {
    const bool outranked = positive.origin.evidence == Evidence::memory && negative.origin.evidence != Evidence::memory;
    return positive.origin.source != negative.origin.source && !outranked;
}

// Asked for no role in particular, a kind is exact only when every role that takes it is.
bool exact_only(const Vocabularies& words, const std::string& role, const std::string& kind) {
    if (!role.empty()) return words.role(role) && words.role(role)->exact_only();
    bool any = false, all = true;
    for (const auto& [name, owned] : words.roles()) {
        if (owned.word.item_kind != kind) continue;
        any = true;
        all = all && owned.word.exact_only();
    }
    return any && all;
}

// What the conditions of statements come to on the vehicle that is meant; with none they stay open.
struct Meets {
    const Vocabularies& words;
    const Judge* judge;

    std::optional<Bits> where(const Edge& edge) const {  // nothing: the person must judge
        try {
            if (!judge) return std::nullopt;
            const auto met = meet(judge->line(), words, judge->narrowing(), parse_condition(edge.condition));
            return met.open || met.untold ? std::nullopt : std::optional(met.on);
        } catch (const ConditionFault&) {
            return std::nullopt;  // an attribute this line does not have
        }
    }
    bool open(const Edge& edge) const {
        const auto on = where(edge);
        return !edge.condition.empty() && (!on || !on->contains(judge->narrowing().left));
    }
    SwapVerdict gives(const Edge& edge) const {
        if (edge.relation == Relation::bolts_up_but) return SwapVerdict::differs;
        return open(edge) || !edge.requirement.empty() ? SwapVerdict::yes_if : SwapVerdict::yes;
    }
};

// `against`: the statements that the two do not replace each other, null when there are none.
std::vector<Edge> best_path(const StandInGraph& graph, const Meets& meets, const Judge* judge,
                            const std::string& wanted, const std::string& offered, const std::vector<Edge>* against) {
    const auto usable = [&](const Edge& edge) {
        if (edge.relation == Relation::excludes || !edge.withdrawn.empty()) return false;
        if (!against) return !graph.excluded(edge.offered, edge.wanted, nullptr);
        // Against an exclusion only another source's statement about just these two stands.
        return edge.offered == offered && edge.wanted == wanted &&
               std::any_of(against->begin(), against->end(),
                           [&](const Edge& exclusion) { return opposed(edge, exclusion); });
    };
    const auto barred = [&](const std::string& node) {
        return node != offered && (graph.excluded(node, wanted, nullptr) || graph.excluded(node, offered, nullptr));
    };
    const PathSearch search{wanted,
                            offered,
                            judge ? std::optional(may_be_true(judge->narrowing())) : std::nullopt,
                            [&](const std::string& at) -> const std::vector<Edge>& { return graph.edges_to(at); },
                            usable,
                            [&](const Edge& edge) { return meets.where(edge).value_or(judge->line().set.all()); },
                            [&](const Edge& edge) { return meets.gives(edge); },
                            barred};
    return search.best();
}

}  // namespace

Interchange::Interchange(const Catalog& catalog, const Plugins& plugins, const Reasoner& reasoner, const Judge* judge)
    : catalog_(catalog), plugins_(plugins), reasoner_(reasoner), judge_(judge), graph_(catalog) {}

std::vector<Interchange::End> Interchange::ends(const std::string& key) const {
    if (catalog_.group(key)) return {{key, std::nullopt}};
    if (!catalog_.item(key)) {
        auto near = catalog_.near(key, "items");
        if (near.empty()) near = catalog_.near(key, "groups");
        throw Error(Exit::usage, fmt::format("{}: neither an item nor a group in the catalog{}", key,
                                             near.empty() ? ": see `casebound pack list` for what is loaded"
                                                          : fmt::format(": did you mean {}?", near.front())));
    }
    std::vector<End> found;
    for (const auto& group : catalog_.groups_of(key))
        for (const auto& member : catalog_.members(*catalog_.id_of(group)))
            if (member.item == key) found.push_back({group, member});
    return found;
}

SwapAnswer Interchange::between(const End& wanted, const End& offered, const std::string& role) const {
    SwapAnswer answer;
    answer.wanted_group = wanted.group;
    answer.offered_group = offered.group;
    std::vector<Edge> against;
    const bool barred = wanted.group != offered.group && graph_.excluded(wanted.group, offered.group, &against);
    const Meets meets{catalog_.vocabularies(), judge_};
    if (wanted.group == offered.group) {
        answer.verdict = SwapVerdict::yes;
        answer.reasons.push_back(fmt::format("both are in interchange group {}", wanted.group));
    } else {
        answer.path = best_path(graph_, meets, judge_, wanted.group, offered.group, barred ? &against : nullptr);
    }
    for (const auto& edge : answer.path) {
        if (meets.open(edge)) add_once(answer.conditions, edge.condition);
        add_once(answer.requirements, edge.requirement);
        for (const auto& group : parts(edge.also_requires)) add_once(answer.also_requires, group);
        if (edge.relation == Relation::bolts_up_but) add_once(answer.differences, edge.difference);
        answer.leaves.push_back(leaf_of(edge));
    }
    if (!answer.path.empty()) answer.verdict = SwapVerdict::yes;
    for (const auto& edge : answer.path) answer.verdict = std::max(answer.verdict, meets.gives(edge));
    if (barred) {
        for (const auto& edge : against) answer.leaves.push_back(leaf_of(edge));
        answer.verdict = answer.path.empty() ? SwapVerdict::no : SwapVerdict::disagree;
        if (answer.path.empty())
            answer.reasons.push_back(
                fmt::format("{} and {} are published as not replacing each other", offered.group, wanted.group));
    }
    add_what_does_not_count(answer);
    examine(answer, wanted, offered, role);
    return answer;
}

// Statements that were withdrawn; and, where nothing is recorded, whether the other way is.
void Interchange::add_what_does_not_count(SwapAnswer& answer) const {
    const auto &wanted = answer.wanted_group, &offered = answer.offered_group;
    for (const auto& edge : graph_.edges_to(wanted))
        if (edge.offered == offered && !edge.withdrawn.empty()) answer.withdrawn.push_back(leaf_of(edge));
    if (answer.verdict != SwapVerdict::not_recorded) return;
    const auto& back = graph_.edges_to(offered);
    const bool reverse = std::any_of(back.begin(), back.end(), [&](const Edge& edge) {
        return edge.offered == wanted && edge.relation != Relation::excludes && edge.withdrawn.empty();
    });
    answer.reasons.push_back(
        reverse ? fmt::format("only the other way is on record: {} for {}; one way does not make the other", wanted,
                              offered)
                : fmt::format("nobody has said that {} may replace {}; that is not a yes", offered, wanted));
}

namespace {

// What a domain says of a substitution: it lowers; where nothing is recorded it may propose.
void take(SwapAnswer& answer, const Opinion& opinion) {
    const Leaf because(fmt::format("{}", fmt::join(opinion.reasons, "; ")), opinion.source);
    if (answer.verdict == SwapVerdict::not_recorded && !opinion.equal_by.empty() &&
        opinion.at_most <= Verdict::check_first) {
        answer.verdict = SwapVerdict::yes_if;
        answer.equal_by = opinion.equal_by;
        answer.reasons = {fmt::format("computed, nobody has stated it: equal in {}", listed(opinion.equal_by))};
        add_once(answer.requirements, "the part in hand matches the old one on the bench");
        answer.leaves.push_back(because);
    }
    if (opinion.at_most == Verdict::does_not_fit) lower_to(answer, SwapVerdict::no);
    else if (opinion.at_most == Verdict::sources_disagree) lower_to(answer, SwapVerdict::disagree);
    else if (opinion.at_most == Verdict::check_first) lower_to(answer, SwapVerdict::yes_if);
    else if (opinion.at_most == Verdict::not_recorded) lower_to(answer, SwapVerdict::not_recorded);
    else if (opinion.at_most == Verdict::not_answered) lower_to(answer, SwapVerdict::not_answered);
    for (const auto& text : opinion.reasons) add_once(answer.reasons, text);
    for (const auto& text : opinion.conditions) add_once(answer.requirements, text);
    answer.cautions.insert(answer.cautions.end(), opinion.cautions.begin(), opinion.cautions.end());
    if (!opinion.conditions.empty()) lower_to(answer, SwapVerdict::yes_if);
    if (opinion.at_most != Verdict::fits)
        for (const auto& text : opinion.reasons) answer.leaves.push_back(Leaf(text, opinion.source));
}

}  // namespace

void Interchange::examine(SwapAnswer& answer, const End& wanted, const End& offered, const std::string& role) const {
    const auto wanted_group = catalog_.group(wanted.group), offered_group = catalog_.group(offered.group);
    const auto& words = catalog_.vocabularies();
    if (wanted_group->kind != offered_group->kind) {
        answer.verdict = SwapVerdict::no;
        answer.path.clear();
        answer.reasons = {fmt::format("{} is a {}, {} is a {}: different kinds of thing", offered.group,
                                      offered_group->kind, wanted.group, wanted_group->kind)};
        return;
    }
    const bool itself = wanted.member && offered.member && wanted.member->item == offered.member->item;
    const bool claimed = offered.member && offered.member->basis == Basis::claimed && !itself;
    if (offered.member && badness(answer.verdict) <= badness(SwapVerdict::claimed_only)) {
        answer.leaves.push_back({fmt::format("{} is in {} ({})", offered.member->item, offered.group,
                                             claimed                                    ? "by its seller's claim only"
                                             : offered.member->basis == Basis::approved ? "approved"
                                             : offered.member->basis == Basis::meets    ? "its maker states it meets it"
                                                                                        : "same part"),
                                 offered.member->origin});
        if (!offered.member->withdrawn.empty())
            answer.cautions.push_back(
                {fmt::format("{} is withdrawn: {}", offered.member->item, offered.member->withdrawn),
                 row_source(offered.member->origin)});
    }
    if (claimed && badness(answer.verdict) < badness(SwapVerdict::claimed_only)) {
        answer.verdict = answer.path.empty() ? SwapVerdict::claimed_only : SwapVerdict::not_recorded;
        answer.reasons.push_back(
            answer.path.empty()
                ? "its seller says so and nobody else: ask for the spec owner's or the unit maker's approval"
                : "a seller's claim does not chain to another group");
        answer.path.clear();
    }
    const auto owner = words.item_kinds().find(wanted_group->kind);
    const auto* domain = owner == words.item_kinds().end() ? nullptr : plugins_.find(owner->second.owner);
    if (!domain) {
        answer.verdict = SwapVerdict::not_answered;
        answer.reasons = {fmt::format("{} is not loaded",
                                      owner == words.item_kinds().end() ? wanted_group->kind : owner->second.owner)};
        return;
    }
    if (wanted.group != offered.group && exact_only(words, role, wanted_group->kind)) {
        answer.verdict = SwapVerdict::no;
        answer.reasons.push_back(
            fmt::format("{}: exact part only", role.empty() ? wanted_group->kind : words.role(role)->title));
    }
    const Services services{catalog_.facts_for(*domain), reasoner_, judge_ ? &judge_->view() : nullptr};
    const auto asked = domain->may_stand_in({wanted.group, wanted.member ? wanted.member->item : "", offered.group,
                                             offered.member ? offered.member->item : "", role, claimed},
                                            services);
    if (!asked) {
        answer.verdict = SwapVerdict::not_answered;
        answer.path.clear();
        answer.reasons = {asked.failure};
        return;
    }
    take(answer, *asked);
    if (answer.verdict == SwapVerdict::no) answer.path.clear();
    for (const auto& one : answer.leaves) answer.weakest = std::max(answer.weakest, one.evidence());
    answer.invented = answer.weakest == Evidence::invented;
}

SwapAnswer Interchange::swap(const std::string& wanted, const std::string& offered) const {
    const auto wanted_ends = ends(wanted), offered_ends = ends(offered);
    std::optional<SwapAnswer> best;
    std::vector<Edge> exclusions;
    for (const auto& want : wanted_ends)
        for (const auto& offer : offered_ends) {
            // What is asked for must be what it is by more than a claim.
            if (want.member && want.member->basis == Basis::claimed && wanted != offered) continue;
            auto answer = between(want, offer, "");
            if (want.group != offer.group) graph_.excluded(want.group, offer.group, &exclusions);
            if (!best || badness(answer.verdict) < badness(best->verdict)) best = std::move(answer);
        }
    if (!best) {
        best.emplace();
        best->reasons.push_back(fmt::format("{} is in no interchange group", wanted_ends.empty() ? wanted : offered));
    }
    if (best->verdict == SwapVerdict::claimed_only)
        for (const auto& edge : exclusions) {
            best->leaves.push_back(leaf_of(edge));
            add_once(best->reasons, fmt::format("and {} excludes {}: no, by default", edge.offered, edge.wanted));
        }
    best->wanted = wanted;
    best->offered = offered;
    return *best;
}

SwapAnswer Interchange::stand_in(const std::string& wanted_group, const std::string& offered_group,
                                 const std::string& role) const {
    auto answer = between({wanted_group, std::nullopt}, {offered_group, std::nullopt}, role);
    answer.wanted = wanted_group;
    answer.offered = offered_group;
    return answer;
}

// Where a statement leads on towards `offered`, asking for nothing but a condition of the vehicle and other parts.
Bits Interchange::passed(const Edge& edge, const std::string& wanted, const std::string& offered, Bits on) const {
    const Bits nowhere(on.size());
    const bool asks = edge.relation == Relation::excludes || edge.relation == Relation::bolts_up_but ||
                      !edge.withdrawn.empty() || !edge.requirement.empty();
    const bool barred = edge.offered != offered && (graph_.excluded(edge.offered, wanted, nullptr) ||
                                                    graph_.excluded(edge.offered, offered, nullptr));
    if (asks || barred || graph_.excluded(edge.offered, edge.wanted, nullptr)) return nowhere;
    if (edge.condition.empty()) return on;
    try {
        const auto met = meet(judge_->line(), catalog_.vocabularies(), judge_->narrowing(),
                              parse_condition(edge.condition));
        return met.open || met.untold ? nowhere : on & met.on;  // else the person must judge
    } catch (const ConditionFault&) { return nowhere; }
}

Bits Interchange::reach(const std::string& wanted, const std::string& offered, const Bits& from,
                        const std::function<Bits(const std::string&)>& ruled_out) const {
    Bits reached(from.size());
    if (graph_.excluded(wanted, offered, nullptr)) return reached;
    struct Step {
        std::string node;
        Bits on;
    };
    std::vector<Step> steps{{wanted, from}};
    for (std::size_t at = 0; at < steps.size(); ++at)
        for (const auto& edge : graph_.edges_to(steps[at].node)) {
            if (!edge.also_requires.empty()) continue;
            const Bits on = passed(edge, wanted, offered, steps[at].on - ruled_out(edge.offered));
            if (edge.offered == offered) reached |= on;
            const bool known = on.none() || std::any_of(steps.begin(), steps.end(), [&](const Step& step) {
                                   return step.node == edge.offered && step.on.contains(on);
                               });
            if (!known) steps.push_back({edge.offered, on});
        }
    return reached;
}

Interchange::Together Interchange::reach_together(const std::string& wanted, const std::string& offered,
                                                  const Bits& from,
                                                  const std::function<Bits(const std::string&)>& ruled_out) const {
    constexpr std::size_t most_ways = 256;  // more are not looked at, and then nothing is said to stand in
    Together found{Bits(from.size()), {}, {}};
    if (graph_.excluded(wanted, offered, nullptr)) return found;
    std::vector<const Edge*> way;
    std::size_t ways = 0;
    const auto arrive = [&](const Bits& on) {
        found.on |= on;
        const bool asks = std::any_of(way.begin(), way.end(), [](const Edge* e) { return !e->also_requires.empty(); });
        for (const auto* edge : way) {
            for (const auto& group : parts(edge->also_requires))
                found.with.try_emplace(group, Bits(on.size())).first->second |= on;
            if (asks) found.leaves.push_back(leaf_of(*edge));
        }
    };
    const std::function<void(const std::string&, const Bits&)> go = [&](const std::string& node,
                                                                        const Bits& from_here) {
        for (const auto& edge : graph_.edges_to(node)) {
            const bool again = edge.offered == wanted || std::any_of(way.begin(), way.end(), [&](const Edge* one) {
                                   return one->offered == edge.offered;
                               });
            if (again || ways > most_ways) continue;
            const Bits on = passed(edge, wanted, offered, from_here - ruled_out(edge.offered));
            if (on.none()) continue;
            way.push_back(&edge);
            if (edge.offered == offered) ++ways, arrive(on);
            else go(edge.offered, on);
            way.pop_back();
        }
    };
    go(wanted, from);
    if (ways > most_ways) found.on = Bits(from.size());
    return found;
}

std::vector<SwapAnswer> Interchange::stand_ins_for(const std::string& wanted_group, const std::string& role) const {
    std::vector<SwapAnswer> answers;
    for (const auto& group : graph_.reachable(wanted_group)) {
        auto answer = stand_in(wanted_group, group, role);
        if (badness(answer.verdict) <= badness(SwapVerdict::differs)) answers.push_back(std::move(answer));
    }
    std::stable_sort(answers.begin(), answers.end(),
                     [](const SwapAnswer& a, const SwapAnswer& b) { return badness(a.verdict) < badness(b.verdict); });
    return answers;
}

}  // namespace casebound
