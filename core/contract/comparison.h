// One part beside another, for any domain: the opinion or the answer that follows from what differs. Part of the
// contract. Being alike is never said to be an application.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/answer_words.h"
#include "core/contract/difference.h"
#include "core/contract/domain_words.h"
#include "core/contract/plugin.h"

namespace casebound {

// ---------------------------------------------------------------- may stand in

inline void lower(Opinion& opinion, Verdict at_most) { opinion.at_most = std::max(opinion.at_most, at_most); }

inline void put(Opinion& opinion, const Difference& difference) {
    switch (difference.weight) {
        case Weight::no:
            lower(opinion, Verdict::does_not_fit);
            opinion.reasons.push_back(difference.what + ": " + difference.says);
            return;
        case Weight::needs_something:
            lower(opinion, Verdict::check_first);
            opinion.reasons.push_back(difference.what + " differs as recorded");
            opinion.conditions.push_back(difference.what + ": " + difference.says);
            return;
        case Weight::not_known:
            lower(opinion, Verdict::check_first);
            opinion.reasons.push_back(difference.what + " is not recorded of both");
            opinion.conditions.push_back("compare at the bench: " + difference.what);
    }
}

// Of two parts of which one is on record and the other is not. `parts`: what is held beside each other.
inline Opinion one_not_recorded(const std::string& group, const std::string& parts) {
    Opinion opinion;
    opinion.at_most = Verdict::check_first;
    opinion.reasons = {"nothing is recorded of " + group};
    opinion.conditions = {"hold it beside the old one: " + parts};
    return opinion;
}

// What is wrong with a row that says one part stands in for another, both in `table`, although they differ in what no
// care makes good. `differences`: of the wanted row and the offered one.
template <class Differences> std::vector<std::string> faults_of_stand_in(const Facts& facts, std::string_view table,
                                                                         const Row& edge, Differences&& differences) {
    std::vector<std::string> faults;
    if (!edge.text("withdrawn").empty() || edge.text("relation") == "excludes") return faults;
    const auto* wanted = row_of_group(facts, table, edge.text("wanted"));
    const auto* offered = row_of_group(facts, table, edge.text("offered"));
    if (!wanted || !offered) return faults;
    for (const auto& one : differences(*wanted, *offered))
        if (one.weight == Weight::no)
            faults.push_back(cell(edge, "offered") + " for " + cell(edge, "wanted") + ": " + one.what + ": " +
                             one.says + ": remove the row, or write excludes");
    return faults;
}

// ---------------------------------------------------------------- a part in the hand, as an inquiry is given it

// Inputs whose names begin with `which`: "old-thread". Only what was given changes a field.
struct PartInHand {
    const Given& given;
    std::string which;
    std::optional<SourceNote> source{};

    void rests_on(const SourceNote& more) { source = source ? weaker(*source, more) : more; }

    void word(const char* part, std::string& field) {
        if (const auto name = which + part; given.has(name)) {
            field = given.text(name);
            rests_on(given.source(name));
        }
    }
    template <class Value, std::size_t N>
    void value(const char* part, const std::array<std::string_view, N>& words, Value& field) {
        std::string text;
        word(part, text);
        if (!text.empty()) field = value_of<Value>(text, words);
    }
    void number(const char* part, std::optional<double>& field) {
        if (const auto name = which + part; given.has(name)) {
            field = given.number(name);
            rests_on(given.source(name));
        }
    }
};

// As its row in `table` has it, then what was given over that. `Hand`: a PartInHand with a member `part` and a function
// take_by_hand().
template <class Hand, class PartOfRow> Hand in_hand(const Given& given, const Services& services,
                                                    const std::string& which, std::string_view table,
                                                    PartOfRow&& part_of_row) {
    Hand hand{{given, which}};
    if (const auto* row = given.has(which) ? row_of_group(services.facts, table, given.text(which)) : nullptr) {
        hand.part = part_of_row(*row);
        hand.rests_on(row_source(*row));
    }
    hand.take_by_hand();
    return hand;
}

// The verdict and its reasons out of the differences. `looked_at`: "axle, side, ends and thread".
inline Answer answer_of(const std::vector<Difference>& all, const std::string& looked_at, const SourceNote& source) {
    const auto most = heaviest(all);
    auto answer = Answer::judging(!most                 ? Verdict::fits
                                  : *most == Weight::no ? Verdict::does_not_fit
                                                        : Verdict::check_first);
    std::string heavy;
    for (const auto& one : all) {
        if (one.weight == *most) heavy.append(heavy.empty() ? "" : "; ").append(one.what);
        if (one.weight == Weight::not_known) answer.next.push_back("Find out of both: " + one.what + ".");
        answer.lines.push_back(text_line(one.what, one.says, source));
    }
    if (!most) {
        answer.headline = "Alike in " + looked_at + ".";
        answer.lines.push_back(text_line("differences", "none", source));
    } else if (*most == Weight::no) answer.headline = "Not this one: it differs in " + heavy + ".";
    else if (*most == Weight::needs_something) answer.headline = "It goes only with care: " + heavy + ".";
    else answer.headline = "Cannot tell yet: not known of both: " + heavy + ".";
    answer.cautions = {"alike in the hand is no application: a parts list decides what the vehicle takes"};
    return answer;
}

// What neither record nor hand says of `part`, as it was seen: the rest stays as it is.
template <class Part> void fill_gaps(Part& part, const Part& seen,
                                     std::initializer_list<std::optional<double> Part::*> numbers,
                                     std::initializer_list<std::string Part::*> words = {}) {
    for (const auto field : numbers)
        if (!(part.*field)) part.*field = seen.*field;
    for (const auto field : words)
        if ((part.*field).empty()) part.*field = seen.*field;
}

// The old one beside the new one, each by its row and by hand; what neither says of the old one is filled, by
// `fill(part, seen.part)`, out of what was told of its place: `seen_at(vehicle, place)`, a part and its source. `alike`:
// up to where two figures count as the same, and who says so.
template <class Hand, class PartOfRow, class SeenAt, class Fill>
Answer beside_the_old(const Given& given, const Services& services, std::string_view table, PartOfRow&& part_of_row,
                      SeenAt&& seen_at, Fill&& fill, const std::string& looked_at, const char* alike) {
    auto old = in_hand<Hand>(given, services, "old", table, part_of_row);
    const auto offered = in_hand<Hand>(given, services, "new", table, part_of_row);
    if (const auto seen = seen_at(services.vehicle, old.part.place); seen.source) {
        fill(old.part, seen.part);
        old.rests_on(*seen.source);
    }
    auto answer = answer_of(differences(old.part, offered.part), looked_at,
                            weaker(old.source.value_or(practice()), offered.source.value_or(practice())));
    answer.assumptions = {alike};
    return answer;
}

// `inputs_of("old", "the old link")` and the same of the new one. `thing`: "link".
template <class InputsOf> std::vector<Input> inputs_of_both(InputsOf&& inputs_of, const std::string& thing) {
    return together({inputs_of("old", "the old " + thing), inputs_of("new", "the new " + thing)});
}

}  // namespace casebound
