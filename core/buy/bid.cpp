#include "core/buy/bid.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include <fmt/format.h>

#include "core/buy/bid_money.h"
#include "core/buy/deal_figures.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"
#include "core/reason/question.h"
#include "core/session/ask_domains.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"

namespace casebound {

namespace {

bool listed(const std::vector<std::string>& all, const std::string& one) {
    return std::find(all.begin(), all.end(), one) != all.end();
}

bool can_be(const Shares& shares) { return std::accumulate(shares.begin(), shares.end(), 0.0) > 0; }

Shares evened(Shares shares) {
    const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
    for (auto& share : shares) share /= sum;
    return shares;
}

class Bidding {
public:
    Bidding(Session& session, const Situation& situation, const KeyValueArgs& words, const BidWish& wish)
        : session_(session), situation_(situation), words_(words), wish_(wish),
          money_(session, situation.name(), words, wish.costs) {}

    Bid bid() && {
        bid_.vehicle = situation_.name();
        bid_.bought = ShopRecords(session_.shop()).spent_cents(situation_.name()) > 0;
        if (words_.has("seller_right")) bid_.seller_right = share_from("seller_right", words_.text("seller_right"));
        read_troubles();
        add_words_against();
        if (bid_.trouble) {
            read_causes();
            weigh();
            add_questions();
        }
        bid_.price = money_.price;
        bid_.missing.insert(bid_.missing.begin(), money_.missing.begin(), money_.missing.end());
        bid_.figures = std::move(money_.given);
        bid_.left_out = std::move(money_.left_out);
        bid_.notes.insert(bid_.notes.end(), money_.notes.begin(), money_.notes.end());
        return std::move(bid_);
    }

private:
    const Vocabularies& vocabularies() const { return session_.catalog().vocabularies(); }

    std::string told_words(const Told& told) const {
        const auto* attribute = vocabularies().attribute(told.attribute);
        return fmt::format("{}: {} ({} {})", attribute ? attribute->title : told.attribute,
                           attribute ? value_words(*attribute, told.text) : told.text,
                           tell_evidence_words(told.evidence), told.date);
    }

    // ------------------------------------------------------------ what is told

    void read_troubles() {
        auto all = troubles_on_record(situation_, session_.catalog());
        const auto wanted = [&](const TroubleOnRecord& one) {
            return wish_.trouble.empty() || one.told.attribute == wish_.trouble;
        };
        const auto chosen = std::find_if(all.begin(), all.end(), wanted);
        if (!wish_.trouble.empty() && chosen == all.end()) {
            std::vector<std::string> known;
            for (const auto& one : all) known.push_back(one.told.attribute);
            throw Error(Exit::usage,
                        fmt::format("trouble {}: no cause of it is on record, or it is not told: {}", wish_.trouble,
                                    known.empty() ? "tell it first" : fmt::format("take {}", fmt::join(known, ", "))));
        }
        std::vector<std::string> signs;  // of what is told as trouble: a sign of a cause explains it
        for (const auto& one : all)
            for (const auto& question : one.questions) signs.push_back(question.attribute.name);
        for (const auto& trouble : troubles(session_, situation_)) {
            const bool explained = std::any_of(all.begin(), all.end(), [&](const TroubleOnRecord& one) {
                return one.told.attribute == trouble.attribute;
            });
            if (!explained && !listed(signs, trouble.attribute))
                bid_.without_causes.push_back(fmt::format("{}: {}", trouble.title, spaced(trouble.text)));
        }
        for (auto at = all.begin(); at != all.end(); ++at)
            if (at != chosen && !listed(signs, at->told.attribute)) others_.push_back(*at);
        if (chosen != all.end()) bid_.trouble = *chosen;
        else bid_.describable = findings_on_record(situation_, session_.catalog());
        for (const auto& told : situation_.told())
            if (is_hearsay(told.evidence)) bid_.see_again.push_back(told_words(told));
    }

    void add_words_against() {
        std::map<std::string, const Told*> stands;
        const auto told = situation_.told();
        for (const auto& one : told)
            if (!is_hearsay(one.evidence)) stands[one.attribute] = &one;
        for (const auto& entry : ShopTold(session_.shop()).history(situation_.name())) {
            const auto seen = stands.find(entry.attribute);
            if (entry.withdrawn || !is_hearsay(entry.evidence) || seen == stands.end() ||
                entry.text == seen->second->text)
                continue;
            const auto* attribute = vocabularies().attribute(entry.attribute);
            const auto words = [&](const std::string& text) {
                return attribute ? value_words(*attribute, text) : text;
            };
            bid_.against.push_back(
                {attribute ? attribute->title : entry.attribute,
                 fmt::format("{} ({} {})", words(entry.text), tell_evidence_words(entry.evidence), entry.date),
                 fmt::format("{} ({} {})", words(seen->second->text), tell_evidence_words(seen->second->evidence),
                             seen->second->date)});
        }
    }

    void check_typed_causes() const {
        for (const auto& one : bid_.trouble->causes)
            if (one.by_unit && !typed_of_cause(wish_.costs, one.key).empty())
                throw Error(Exit::usage, fmt::format("{}: only a unit cures it: write unit=AMOUNT", one.key));
        std::vector<std::string> known;
        for (const auto& one : bid_.trouble->causes) known.push_back(one.key);
        for (const auto& other : others_)
            for (const auto& one : other.causes) known.push_back(one.key);
        for (const auto* all : {&wish_.costs, &wish_.shares})
            for (const auto& one : *all)
                if (const auto key = key_value_arg(one).first; !listed(known, key)) {
                    const auto near = nearest(key, known);
                    throw Error(Exit::usage, fmt::format("{}: no such cause of what is told: {}", key,
                                                         near.empty() ? fmt::format("take {}", fmt::join(known, ", "))
                                                                      : fmt::format("did you mean {}?", near)));
                }
    }

    // ------------------------------------------------------------ causes

    // As counted, else each alike; a share that is typed stands, and the others divide what it leaves.
    Shares first_shares(const std::vector<CauseOnRecord>& causes, bool& even) const {
        const bool counted = std::all_of(causes.begin(), causes.end(),
                                         [](const CauseOnRecord& one) { return one.share.has_value(); });
        Shares shares, typed(causes.size(), -1);
        double typed_sum = 0, rest = 0;
        for (std::size_t i = 0; i < causes.size(); ++i) {
            shares.push_back(counted ? *causes[i].share : 1);
            const auto text = typed_of_cause(wish_.shares, causes[i].key);
            if (text.empty()) rest += shares[i];
            else typed_sum += typed[i] = share_from(causes[i].key, text);
        }
        if (typed_sum > 1 + 1e-9 || (rest == 0 && std::abs(typed_sum - 1) > 1e-9))
            throw Error(Exit::usage, fmt::format("share: those typed come to {} %: all causes together are 100 %",
                                                 plain_number(typed_sum * 100, 1)));
        even = !counted && rest > 0;
        for (std::size_t i = 0; i < causes.size(); ++i)
            shares[i] = typed[i] >= 0 ? typed[i] : shares[i] / rest * (1 - typed_sum);
        return evened(std::move(shares));
    }

    // What speaks against any small repair, and is no sign of a cause here: its domain says how far.
    void weigh_holds(Shares& shares) {
        double steps = 0;
        for (const auto& held : situation_.judge().holds()) {
            if (held.hold.odds_steps == 0) continue;
            const bool sign = std::any_of(
                bid_.trouble->questions.begin(), bid_.trouble->questions.end(),
                [&](const SignQuestion& one) { return listed(held.hold.attributes, one.attribute.name); });
            if (sign) continue;
            steps += held.hold.odds_steps;
            bid_.notes.push_back(fmt::format("The odds of every small repair are moved by what was found: {} [{}]",
                                             held.hold.reason, evidence_words(held.hold.source.evidence)));
        }
        for (std::size_t i = 0; i < shares.size(); ++i)
            if (!bid_.trouble->causes[i].by_unit) shares[i] *= std::exp2(steps);
        shares = evened(std::move(shares));
    }

    void read_causes() {
        check_typed_causes();
        const auto& causes = bid_.trouble->causes;
        auto shares = first_shares(causes, bid_.shares_even);
        weigh_holds(shares);
        first_ = shares;
        case_.figures = money_.figures;
        for (const auto& one : causes) {
            bid_.causes.push_back({one, 0, 0, one.by_unit ? std::nullopt : money_.cost_of(one)});
            bid_.invented |= one.source.evidence == Evidence::invented;
            case_.mends.push_back(way_of(bid_.causes.back()));
        }
        if (std::any_of(causes.begin(), causes.end(), [](const CauseOnRecord& one) { return one.by_unit; }) &&
            !case_.figures.unit)
            bid_.notes.emplace_back("A cause that only a unit cures ends in passing it on, for no unit is thought of");
        set_aside();
    }

    // Causes that one job mends at one cost are one way to mend.
    std::optional<std::size_t> way_of(const BidCause& cause) {
        if (!cause.cost) return std::nullopt;
        const auto& job = cause.on_record.job;
        for (std::size_t way = 0; way < case_.ways.size(); ++way)
            if (!job.empty() && jobs_[way] == job && case_.ways[way].likely == cause.cost->likely) {
                bid_.ways[way] += " or " + cause.on_record.title;
                return way;
            }
        case_.ways.push_back(*cause.cost);
        bid_.ways.push_back(cause.on_record.title);
        jobs_.push_back(job);
        return case_.ways.size() - 1;
    }

    static std::optional<double> likely_of(const std::optional<Estimate>& cost) {
        return cost ? std::optional(cost->likely) : std::nullopt;
    }

    void add_missing_cost(const CauseOnRecord& cause) {
        money_.missing.push_back({"what mending costs: " + cause.title, "cost." + cause.key});
    }

    // What the other troubles cost to mend, on average; nobody weighs them jointly.
    void set_aside() {
        for (const auto& other : others_) {
            bool even = false;
            const auto shares = first_shares(other.causes, even);
            double mean = 0;
            for (std::size_t i = 0; i < shares.size(); ++i) {
                const auto& cause = other.causes[i];
                const auto cost = cause.by_unit ? money_.figures.unit : likely_of(money_.cost_of(cause));
                if (cost) mean += shares[i] * *cost;
                else if (cause.by_unit) money_.missing.push_back({"a unit, for " + cause.title, "unit"});
                else add_missing_cost(cause);
            }
            case_.figures.before += mean;
            bid_.others.push_back(
                fmt::format("{}: {} is set aside for it, the average of its causes; --trouble {} "
                            "asks about it",
                            told_words(other.told), plain_number(std::round(mean), 0), dashed(other.told.attribute)));
        }
    }

    // ------------------------------------------------------------ ceilings

    std::optional<Told> told_of_sign(const SignQuestion& question) const {
        return casebound::told_of(&situation_, question.attribute.name);
    }

    // How the shares move by one told value, whose teller is right with chance `right`.
    static void take(Shares& shares, const SignQuestion& question, const Told& told, double right) {
        const auto chances = right < 1 ? as_said(question.chances, right) : question.chances;
        for (std::size_t cause = 0; cause < shares.size(); ++cause) {
            double chance = 0;
            for (const auto answer : question.meant(told)) chance += chances[cause][answer];
            shares[cause] *= chance;
        }
    }

    void weigh() {
        seen_ = said_ = weighed_ = first_;
        for (const auto& question : bid_.trouble->questions) {
            const auto told = told_of_sign(question);
            if (!told) continue;
            const bool hearsay = is_hearsay(told->evidence);
            if (!hearsay) take(seen_, question, *told, 1);
            take(said_, question, *told, 1);
            take(weighed_, question, *told, hearsay ? bid_.seller_right.value_or(1) : 1);
        }
        if (!can_be(seen_)) {
            bid_.missing.push_back({"no cause on record explains what was seen: look again, or suspect two faults"});
            seen_ = said_ = weighed_ = first_;
        } else if (!can_be(said_)) {
            bid_.notes.emplace_back(
                "No cause on record explains what was seen together with what was said: the word is left out");
            said_ = seen_;
        }
        if (!can_be(weighed_)) weighed_ = seen_;
        for (auto* shares : {&seen_, &said_, &weighed_}) *shares = evened(std::move(*shares));
        for (std::size_t i = 0; i < bid_.causes.size(); ++i) {
            auto& cause = bid_.causes[i];
            cause.share_seen = seen_[i], cause.share_said = said_[i];
            if (!cause.cost && !cause.on_record.by_unit && seen_[i] + said_[i] + weighed_[i] > 0)
                add_missing_cost(cause.on_record);
        }
        if (!known()) return;
        bid_.seen = ceiling_of(case_, seen_);
        bid_.said = ceiling_of(case_, said_);
        if (bid_.seller_right) bid_.weighed = ceiling_of(case_, weighed_);
        const auto& by = now();
        bid_.low = ceiling_of(case_, by, Cost::high).amount;
        bid_.high = ceiling_of(case_, by, Cost::low).amount;
        bid_.knowing = worth_of_knowing(case_, by, money_.price);
    }

    bool known() const { return bid_.missing.empty() && money_.missing.empty(); }

    const Shares& now() const {
        if (bid_.weighed) return weighed_;
        return bid_.said->amount < bid_.seen->amount ? said_ : seen_;
    }

    // ------------------------------------------------------------ questions

    // What will be seen, by cause, once somebody has said what: his word is right with chance `right`.
    static Chances given_word(const SignQuestion& question, const Told& told, double right) {
        const auto meant = question.meant(told);
        auto chances = question.chances;
        for (auto& row : chances) {
            double sum = 0;
            for (std::size_t answer = 0; answer < row.size(); ++answer) {
                double word = 0;
                for (const auto one : meant)
                    word += one == answer ? right : (1 - right) / static_cast<double>(row.size() - 1);
                sum += row[answer] *= word;
            }
            for (auto& chance : row) chance = sum > 0 ? chance / sum : 1.0 / static_cast<double>(row.size());
        }
        return chances;
    }

    std::optional<QuestionWorth> worth(const Shares& shares, const Chances& chances) const {
        if (!known()) return std::nullopt;
        return worth_of(case_, shares, chances, money_.price);
    }

    void add_questions() {
        for (const auto& sign : bid_.trouble->questions) {
            const auto told = told_of_sign(sign);
            if (told && !is_hearsay(told->evidence)) continue;
            // By phone what the bid goes by; in the yard only what was seen, so that a word is looked at again.
            if (!told && !sign.ask.empty())
                bid_.phone.push_back(
                    {sign,
                     worth(known() ? now() : seen_,
                           bid_.seller_right ? as_said(sign.chances, *bid_.seller_right) : sign.chances),
                     "", phone_minutes, true});
            if (sign.attribute.dismantling) continue;  // nothing comes off in a seller's yard
            const bool heard = told && bid_.seller_right;
            bid_.yard.push_back({sign,
                                 worth(bid_.seller_right ? weighed_ : seen_,
                                       heard ? given_word(sign, *told, *bid_.seller_right) : sign.chances),
                                 told ? told_words(*told) : "", effort_minutes(sign.attribute), false});
        }
        for (auto* all : {&bid_.phone, &bid_.yard})
            std::stable_sort(all->begin(), all->end(), [](const BidQuestion& a, const BidQuestion& b) {
                const double worth_a = a.worth ? a.worth->value : 0, worth_b = b.worth ? b.worth->value : 0;
                return std::abs(worth_a - worth_b) > 0.005 ? worth_a > worth_b : a.minutes < b.minutes;
            });
    }

    Session& session_;
    const Situation& situation_;
    const KeyValueArgs& words_;
    const BidWish& wish_;
    BidMoney money_;
    Bid bid_;
    TriageCase case_;
    std::vector<std::string> jobs_;  // of the ways
    std::vector<TroubleOnRecord> others_;
    Shares first_, seen_, said_, weighed_;
};

}  // namespace

const Ceiling* Bid::to_go_by() const {
    if (weighed) return &*weighed;
    if (!seen || !said) return nullptr;
    return said->amount < seen->amount ? &*said : &*seen;
}

const std::vector<std::string>& bid_keys() {
    static const std::vector<std::string> keys{"purchase",   "diagnosis", "unit",    "unit_item",
                                               "unit_extra", "sale",      "as_is",   "as_is_opened",
                                               "reusable",   "margin",    "reserve", "seller_right"};
    return keys;
}

Bid bid_for(Session& session, const Situation& situation, const KeyValueArgs& words, const BidWish& wish) {
    return Bidding(session, situation, words, wish).bid();
}

Bid bid_asked(Session& session, const Situation& situation, const Args& args) {
    auto trouble = args.option("trouble");
    std::replace(trouble.begin(), trouble.end(), '-', '_');
    std::replace(trouble.begin(), trouble.end(), ' ', '_');
    return bid_for(session, situation, KeyValueArgs(args.words, 1, bid_keys()),
                   {args.all("cost"), args.all("share"), trouble});
}

}  // namespace casebound
