#include "core/sheets/bid_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

constexpr double least_shown = 0.5;  // below this an amount is shown as none

std::string first_words(const Bid& bid, const FirstStep& first) {
    if (first.path == Path::fix_first && first.way) return fmt::format("mend first: {}", bid.ways.at(*first.way));
    return std::string(path_words(first.path));
}

// What to do at the price, with this ceiling.
std::string do_words(const Bid& bid, double ceiling) {
    if (!bid.price) return "";
    return ceiling >= *bid.price ? ", buy" : ", walk away";
}

bool both_ways(const Bid& bid) {
    return !bid.weighed && bid.seen && bid.said && std::abs(bid.seen->amount - bid.said->amount) >= least_shown;
}

}  // namespace

std::vector<std::string> ceiling_sentences(const Bid& bid, const std::string& currency) {
    const auto* by = bid.to_go_by();
    if (!by) return {};
    std::vector<std::string> all;
    const auto amount = [&](double value) { return bid_amount(value, currency); };
    if (bid.bought)
        all.push_back(
            fmt::format("It is bought, or money is spent on it: what to do now is casebound decide {} "
                        "--bought. Before that:",
                        bid.vehicle));
    if (bid.weighed)
        all.push_back(fmt::format("Bid ceiling: {} with transport, the seller right {} of the time.",
                                  amount(by->amount), share_words(*bid.seller_right)));
    else if (!both_ways(bid)) all.push_back(fmt::format("Bid ceiling: {} with transport.", amount(by->amount)));
    else
        all.push_back(
            fmt::format("Bid ceiling: {} with transport. By what was seen it is {}, if what was said is true {}: {}.",
                        amount(by->amount), amount(bid.seen->amount), amount(bid.said->amount),
                        bid.said->amount > bid.seen->amount ? "a word lifts no bid until it is seen again"
                                                            : "a word lowers a bid at once"));
    if (bid.price)
        all.push_back(
            by->amount >= *bid.price
                ? fmt::format("Asked: {}. Buy at that, unless an answer below lowers the ceiling.", amount(*bid.price))
                : fmt::format("Asked: {}. Walk away at that, unless an answer below lifts the ceiling.",
                              amount(*bid.price)));
    all.push_back(fmt::format("With mending at its dearest the ceiling is {}, at its cheapest {}. Once it is here: {}.",
                              amount(bid.low), amount(bid.high), first_words(bid, by->first)));
    all.push_back(fmt::format("To know the cause for certain would be worth {}{}: no question is worth more.",
                              bid.price ? "" : "up to ", amount(*bid.knowing)));
    return all;
}

std::vector<Lacking> missing_of(const Bid& bid) {
    std::vector<Lacking> all;
    if (!bid.trouble) {
        if (bid.without_causes.empty())
            all.push_back({"nothing is told that a cause is on record for", "told",
                           bid.describable.empty() ? "" : fmt::format(" (of {})", fmt::join(bid.describable, "; "))});
        for (const auto& trouble : bid.without_causes)
            all.push_back(
                {fmt::format("no cause is on record for {}: casebound note {} causes finding=... cure=repair "
                             "title=... --says WHO",
                             trouble, bid.vehicle)});
    }
    all.insert(all.end(), bid.missing.begin(), bid.missing.end());
    return all;
}

std::string typed_words(const Bid& bid, const Lacking& one) {
    if (one.figure.empty()) return one.what + one.note;
    const auto typed = one.figure == "told"
                           ? fmt::format("casebound vehicle tell {} FINDING=VALUE seller-said", bid.vehicle)
                       : one.figure == "share"           ? std::string("--share CAUSE=30%")
                       : one.figure == "seller_right"    ? std::string("seller-right=70%")
                       : one.figure.starts_with("cost.") ? fmt::format("--cost {}=AMOUNT", one.figure.substr(5))
                                                         : dashed(one.figure) + "=AMOUNT";
    return fmt::format("{}: {}{}", one.what, typed, one.note);
}

std::vector<std::string> typed_words(const Bid& bid, const std::vector<Lacking>& all) {
    std::vector<std::string> texts;
    for (const auto& one : all) texts.push_back(typed_words(bid, one));
    return texts;
}

std::string told_words_of(const Bid& bid) {
    const auto& told = bid.trouble->told;
    return fmt::format("{}: {} ({} {})", bid.trouble->title, spaced(told.text), tell_evidence_words(told.evidence),
                       told.date);
}

std::string against_words(const WordAgainst& one) {
    return fmt::format("{}: {}, but {}: what was seen counts", one.title, one.said, one.seen);
}

std::string share_words(double share) { return plain_number(share * 100, 1) + " %"; }

std::string cause_cost_words(const Bid&, const BidCause& cause) {
    if (cause.on_record.by_unit) return "a unit";
    if (!cause.cost) return "not known";
    const auto& cost = *cause.cost;
    if (cost.low == cost.high) return plain_number(cost.likely, 2);
    return fmt::format("{} / {} / {}", plain_number(cost.low, 2), plain_number(cost.likely, 2),
                       plain_number(cost.high, 2));
}

std::string cause_from_words(const BidCause& cause, bool full) {
    const std::string evidence(evidence_words(cause.on_record.source.evidence));
    const auto row = full ? fmt::format("{} ({})", cause.on_record.source.title, evidence) : evidence;
    const bool elsewhere = cause.cost && !cause.cost->origin.starts_with(cause.on_record.source.title);
    return elsewhere ? fmt::format("{}; cost {}", row, cause.cost->origin) : row;
}

std::string answers_words(const Bid& bid, const BidQuestion& question) {
    if (!question.worth) {
        std::vector<std::string> words;
        for (const auto& answer : question.sign.answers) words.push_back(answer.words);
        return fmt::format("{}", fmt::join(words, ", "));
    }
    // Only answers that may come are in `worth`, in the order of the question's.
    std::vector<std::string> words;
    std::size_t at = 0;
    for (const auto& answer : question.sign.answers) {
        if (at == question.worth->answers.size()) break;
        const auto& given = question.worth->answers[at];
        if (given.answer != static_cast<std::size_t>(&answer - question.sign.answers.data())) continue;
        ++at;
        words.push_back(fmt::format("{} ({}): {}{}", answer.words, share_words(given.chance),
                                    plain_number(std::round(given.ceiling.amount), 0),
                                    do_words(bid, given.ceiling.amount)));
    }
    return fmt::format("{}", fmt::join(words, "; "));
}

std::string question_words(const BidQuestion& question) {
    if (question.by_phone) return question.sign.ask;
    return fmt::format("{}: {}", question.sign.attribute.title, question.sign.attribute.how);
}

bool worth_nothing(const BidQuestion& question) { return question.worth && question.worth->value < least_shown; }

std::string worth_words(const Bid& bid, const BidQuestion& question) {
    if (!question.worth) return "?";
    if (worth_nothing(question)) return "0";
    const bool at_most = !bid.price || (question.by_phone && !bid.seller_right);
    return (at_most ? "up to " : "") + plain_number(std::round(question.worth->value), 0);
}

std::string minutes_words(const BidQuestion& question) {
    return fmt::format("{} min{}", plain_number(question.minutes, 0),
                       !question.by_phone && question.sign.attribute.raised ? ", raised" : "");
}

std::vector<Lacking> rests_on(const Bid& bid) {
    std::vector<Lacking> all;
    std::vector<std::string> figures;
    for (const auto& [key, value] : bid.figures) figures.push_back(fmt::format("{} {}", key, value));
    if (!figures.empty()) all.push_back({fmt::format("Figures: {}", fmt::join(figures, "; "))});
    if (bid.shares_even)
        all.push_back({"Nobody has counted how often it is which cause: each is taken alike", "share"});
    if (bid.trouble) {
        all.push_back({"One cause at a time; answers are weighed as if each came by itself"});
        all.push_back({"What is tried in vain is paid for; what a sign does not speak of is taken alike"});
    }
    if (!bid.seller_right && (!bid.phone.empty() || !bid.see_again.empty()))
        all.push_back(
            {"How often the seller is right is not told: what he says is worth at most what is shown", "seller_right"});
    all.insert(all.end(), bid.left_out.begin(), bid.left_out.end());
    for (const auto& note : bid.notes) all.push_back({note});
    for (const auto& other : bid.others) all.push_back({"Also told: " + other});
    if (bid.trouble)
        for (const auto& trouble : bid.without_causes)
            all.push_back({"Also told, with no cause on record and nothing set aside: " + trouble});
    return all;
}

// Common practice, no source.
std::vector<std::string> yard_cautions(const Bid& bid) {
    std::vector<std::string> all{
        "Engine running: in the open air, brake held, lever in park or neutral, nobody in front of or behind it; "
        "hands, sleeves and hair away from belts and fan.",
        "Hot fluid and coolant burn: open no cap of a warm cooling circuit.",
        "Drive it only insured and after the brakes were tried."};
    if (std::any_of(bid.yard.begin(), bid.yard.end(), [](const BidQuestion& one) { return one.sign.attribute.raised; }))
        all.emplace_back(
            "Raised: on ramps or stands, level and hard ground, wheels chocked; never under a vehicle "
            "held by a jack alone. Where that cannot be, leave it.");
    all.emplace_back("Follow the maker's instructions and local rules.");
    return all;
}

}  // namespace casebound
