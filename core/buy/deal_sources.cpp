#include "core/buy/deal_sources.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/buy/buying.h"
#include "core/buy/deal_figures.h"
#include "core/buy/order_text.h"
#include "core/ground/units.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

constexpr std::string_view demo_origin = "demo default";

// Invented with the rest of the demo; the answer says which figures are these.
Estimate demo(double low, double likely, double high) { return {low, likely, high, std::string(demo_origin)}; }

// What closed jobs of one kind say.
struct JobRate : OwnRate {
    std::string job;
    std::map<std::string, int> causes;
};

bool speaks_of(std::string text, std::string words) {
    for (auto* one : {&text, &words})
        std::transform(one->begin(), one->end(), one->begin(),
                       [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text.find(words) != std::string::npos;
}

JobRate rate_of(Session& session, const std::string& job, const std::string& symptom) {
    JobRate rate;
    rate.job = job;
    const ShopRecords records(session.shop());
    for (const auto& vehicle : ShopVehicles(session.shop()).all()) {
        const auto started = ShopRecords(session.shop()).jobs(vehicle.name);
        for (const auto& closing : records.closings(vehicle.name)) {
            const auto from = std::find_if(started.begin(), started.end(),
                                           [&](const StartedJob& one) { return one.id == closing.job; });
            if (closing.job_key != job ||
                (!symptom.empty() && (from == started.end() || !speaks_of(from->note, symptom))))
                continue;
            ++rate.closed;
            rate.worked += closing.worked == "yes";
            rate.failed += closing.worked == "no";
            rate.hours.push_back(closing.hours);
            rate.cost_cents.push_back(closing.cost_cents);
            ++rate.causes[closing.cause];
        }
    }
    return rate;
}

template <typename Numbers> Estimate range_of(const Numbers& numbers, double scale, std::string origin) {
    const auto [low, high] = std::minmax_element(numbers.begin(), numbers.end());
    double sum = 0;
    for (const auto number : numbers) sum += static_cast<double>(number);
    return {static_cast<double>(*low) * scale, sum / static_cast<double>(numbers.size()) * scale,
            static_cast<double>(*high) * scale, std::move(origin)};
}

double setting_number(Session& session, std::string_view key) {
    return quantity_in(ShopSettings(session.shop()).get(key).value_or("0"), "");
}

class Sources {
public:
    Sources(Session& session, std::string vehicle, const KeyValueArgs& words, const DealWish& wish)
        : session_(session), vehicle_(std::move(vehicle)), words_(words), wish_(wish), fix_(rate(wish.fix_jobs)),
          unit_(rate(wish.unit_jobs)) {}

    DealAsked asked() {
        auto& deal = asked_.deal;
        deal.bought = wish_.bought || wish_.fix_failed;
        deal.fix_failed = wish_.fix_failed;
        const auto paid = exactly(0, "paid already");
        deal.purchase = amount("purchase", deal.bought ? paid : demo(1200, 1400, 1600));
        deal.diagnosis = amount("diagnosis", deal.bought ? paid : demo(80, 120, 160));
        // What a failed fix cost is in the money spent: nothing of it is to come.
        deal.cheap_fix = cost("fix", fix_, wish_.fix_jobs, deal.fix_failed ? paid : demo(330, 420, 620));
        deal.unit = unit_cost();
        deal.sale_running = amount("sale", demo(3700, 4300, 4800));
        deal.sale_as_is = amount("as_is", demo(500, 700, 900));
        if (words_.has("as_is_opened")) deal.sale_opened = amount("as_is_opened", {});
        deal.works = chance();
        add_single_figures();
        if (deal.bought) count_as_spent();
        if (words_.has("look")) add_look();
        add_held();
        asked_.causes = fix_.causes;
        return std::move(asked_);
    }

private:
    // What was typed and is paid already lies behind: it is shown as spent, and decides nothing. Where money spent is
    // typed or on record, a failed fix is in it; its cost still says what of it a unit can use.
    void count_as_spent() {
        auto& deal = asked_.deal;
        if (deal.fix_failed && deal.spent == 0) deal.spent = deal.cheap_fix.likely;
        for (auto* estimate : {&deal.purchase, &deal.diagnosis}) {
            deal.spent += estimate->likely;
            *estimate = exactly(0, "paid already");
        }
    }

    // What a domain holds of the fix: no chance of it is known until that is settled.
    void add_held() {
        const auto add = [&](const HeldOrder& one) {
            auto text = fmt::format("{}: {}", one.hold.reason, one.hold.until);
            if (!among(asked_.held, text)) asked_.held.push_back(std::move(text));
        };
        try {
            const auto situation = session_.situation(vehicle_);
            if (wish_.fix_jobs.empty())
                for (const auto& one : situation->judge().holds()) {
                    if (one.hold.every_cure) add(one);  // which part the fix is, nobody has said
                }
            else
                for (const auto& line : make_parts_list(situation->places(), wish_.fix_jobs).lines)
                    if (line.blocks())
                        for (const auto& one : line.held) add(one);
        } catch (const Error& error) {
            if (error.exit() == Exit::usage) throw;  // a job that is not there; a line in no loaded pack holds nothing
        }
    }

    JobRate rate(const std::vector<std::string>& jobs) {
        if (jobs.empty()) return {};
        auto found = rate_of(session_, jobs.front(), wish_.symptom);
        if (found.closed > 0 || wish_.symptom.empty()) return found;
        found = rate_of(session_, jobs.front(), "");
        if (found.closed > 0)
            asked_.notes.push_back(fmt::format("No closed {} was started for \"{}\": all {} count.", jobs.front(),
                                               wish_.symptom, found.closed));
        return found;
    }

    Estimate keep(std::string_view key, const Estimate& estimate, int closed_jobs = 0, bool of_one = false) {
        if (estimate.origin == demo_origin) asked_.defaults.emplace_back(key);
        asked_.figures.push_back({std::string(key), estimate, closed_jobs, of_one});
        return estimate;
    }

    Estimate amount(std::string_view key, const Estimate& fallback) {
        return keep(key, words_.has(key) ? typed_amount(key, words_.text(key)) : fallback);
    }

    static std::string jobs_origin(const JobRate& own) {
        return fmt::format("own closed jobs ({} of {})", own.closed, own.job);
    }

    // Money: typed, then own closed jobs, then the cheapest order of the jobs from the offers on file.
    Estimate cost(std::string_view key, const JobRate& own, const std::vector<std::string>& jobs,
                  const Estimate& fallback) {
        if (words_.has(key)) return amount(key, {});
        if (own.closed > 0 && jobs.size() == 1)
            return keep(key, range_of(own.cost_cents, 0.01, jobs_origin(own)), own.closed);
        if (!jobs.empty() && fallback.origin == demo_origin)
            if (const auto order = order_cost(key, jobs)) return keep(key, *order);
        return keep(key, fallback);
    }

    double with_tax(const Order& order) const {
        return static_cast<double>(order.total_cents + tax_cents(order, setting_number(session_, "sales_tax"))) / 100;
    }

    std::optional<Estimate> order_cost(std::string_view key, const std::vector<std::string>& jobs) {
        const auto buying = plan_buying(session_, *session_.situation(vehicle_), {jobs, {}, wish_.without, {}});
        const auto names = fmt::format("{}", fmt::join(jobs, " and "));
        const auto no = [&](const std::string& why) {
            asked_.notes.push_back(fmt::format("{}: nothing from the offers on file for {}: {}.", key, names, why));
            return std::nullopt;
        };
        if (!buying.blocked.empty())
            return no(fmt::format("{} blocks: {}", buying.blocked.front().title, buying.blocked.front().why));
        if (!buying.possible.empty())
            return unsure_cost(order_while_unsure(buying.possible, buying.market, {}), names, no);
        if (buying.needs.empty()) return no("it needs nothing");
        const auto found = cheapest_order(buying.needs, buying.market);
        if (!found.order) return no(found.reason);
        return exactly(with_tax(*found.order), "offers on file: cheapest order for " + names);
    }

    template <typename No>
    std::optional<Estimate> unsure_cost(const UnsureAdvice& advice, const std::string& names, const No& no) const {
        const auto& plan = advice.find_out_first;
        if (!plan.possible()) return no(plan.reason);
        const double tax = 1 + setting_number(session_, "sales_tax") / 100;
        std::vector<std::int64_t> totals;
        for (const auto& outcome : plan.outcomes) totals.push_back(outcome.total_cents);
        auto range = range_of(totals, tax / 100,
                              fmt::format("offers on file: cheapest order for {}, configuration still open", names));
        range.likely = static_cast<double>(plan.expected_cents) * tax / 100;
        return range;
    }

    // An item on offer as the unit, lowest, middle and highest price with its carriage; the core comes back.
    Estimate unit_cost() {
        if (!words_.has("unit_item") || words_.has("unit"))
            return cost("unit", unit_, wish_.unit_jobs, demo(2200, 2600, 3400));
        const auto item = words_.text("unit_item");
        const ShopOffers on_file(session_.shop());
        std::vector<double> prices;
        for (const auto& offer : on_file.offers(item))
            for (const auto& seller : on_file.sellers())
                if (seller.name == offer.seller)
                    prices.push_back(
                        static_cast<double>(offer.price_cents +
                                            (seller.free_from_cents && offer.price_cents >= *seller.free_from_cents
                                                 ? 0
                                                 : seller.carriage_cents)) /
                        100);
        if (prices.empty())
            throw Error(
                Exit::no_input,
                fmt::format(
                    "unit_item: no offer of {} is on file: casebound offer add seller=NAME item={} price=AMOUNT", item,
                    item));
        std::sort(prices.begin(), prices.end());
        const double tax = 1 + setting_number(session_, "sales_tax") / 100;
        const double extra = words_.has("unit_extra") ? from_zero("unit_extra", words_.text("unit_extra")) : 0;
        if (!words_.has("unit_extra"))
            asked_.notes.push_back(
                "unit: the offer alone; add unit-extra=AMOUNT for fluid, seals, cooler, carriage of the old unit, "
                "programming and paid hours.");
        return keep("unit", {prices.front() * tax + extra, prices[(prices.size() - 1) / 2] * tax + extra,
                             prices.back() * tax + extra,
                             fmt::format("offer on file ({} of {}{})", prices.size(), item,
                                         words_.has("unit_extra") ? ", and unit_extra" : "")});
    }

    // What was found that stops every cure: the odds are halved or doubled as often as its domain says. A chance that
    // was typed is the person's own, and stays.
    Chance weighed(Chance chance, bool typed_in) {
        double steps = 0;
        std::vector<std::string> found;
        const auto situation = session_.situation(vehicle_);
        for (const auto& held : situation->judge().holds()) {
            if (held.hold.odds_steps == 0) continue;
            steps += held.hold.odds_steps;
            found.push_back(fmt::format("{} [{}]", held.hold.reason, evidence_words(held.hold.source.evidence)));
        }
        if (steps == 0 || deal_fix_failed()) return chance;
        const auto what = fmt::format("{}", fmt::join(found, "; "));
        if (typed_in) {
            asked_.notes.push_back(fmt::format("works is as typed; see that it weighs what was found: {}.", what));
            return chance;
        }
        asked_.notes.push_back(
            fmt::format("works is moved from {} % by what was found: {}.", plain_number(chance.mean() * 100, 1), what));
        const double factor = std::exp2(steps);  // of the odds p : 1 - p
        const auto moved = [&](double p) { return p * factor / (p * factor + 1 - p); };
        chance.share = {moved(chance.share.low), moved(chance.share.likely), moved(chance.share.high),
                        chance.share.origin};
        chance.alpha = chance.beta = 0;
        return chance;
    }

    Chance chance() {
        const auto kept = [&](Chance chance, int closed) {
            const bool own = words_.has("works") || words_.has("worked") || words_.has("failed");
            chance = weighed(std::move(chance), own);
            keep("works", chance.share, closed, true);
            return chance;
        };
        if (words_.has("worked") || words_.has("failed"))
            return kept(chance_from_jobs(static_cast<double>(words_.whole("worked").value_or(0)),
                                         static_cast<double>(words_.whole("failed").value_or(0)), "typed in"),
                        0);
        if (words_.has("works")) return kept({typed_share("works", words_.text("works")), 0, 0}, 0);
        if (const int told = fix_.worked + fix_.failed; told > 0) {
            asked_.rate_note = fmt::format("Own rate of {}: worked {} of {} closed jobs that say so.", fix_.job,
                                           fix_.worked, told);
            return kept(
                chance_from_jobs(fix_.worked, fix_.failed, fmt::format("own closed jobs ({} of {})", told, fix_.job)),
                told);
        }
        return kept({deal_fix_failed() ? exactly(0, "tried, did not help") : demo(0.3, 0.6, 0.8), 0, 0}, 0);
    }

    bool deal_fix_failed() const { return asked_.deal.fix_failed; }

    double one(std::string_view key, double fallback, std::string_view origin, int closed = 0, bool of_one = false) {
        if (words_.has(key))
            return keep(key,
                        exactly(of_one ? share_from(key, words_.text(key)) : from_zero(key, words_.text(key)),
                                "typed in"),
                        0, of_one)
                .likely;
        if (fallback != 0) keep(key, exactly(fallback, std::string(origin)), closed, of_one);
        return fallback;
    }

    double hours(std::string_view key, const JobRate& own) {
        if (own.closed == 0) return one(key, 0, "");
        return one(key, range_of(own.hours, 1, "").likely, jobs_origin(own), own.closed);
    }

    void add_single_figures() {
        auto& deal = asked_.deal;
        deal.reusable_share = one("reusable", 0, "", 0, true);
        deal.spent = one("spent", static_cast<double>(ShopRecords(session_.shop()).spent_cents(vehicle_)) / 100,
                         "recorded for this vehicle");
        deal.margin = one("margin", setting_number(session_, "margin"), "shop's setting");
        deal.fixed_sale_cost = one("sale_cost", 0, "");
        deal.sale_fee_rate = one("sale_fee", 0, "", 0, true);
        deal.fix_hours = hours("fix_hours", fix_);
        deal.unit_hours = hours("unit_hours", unit_);
        deal.hour_value = one("hour", setting_number(session_, "hour_value"), "shop's setting");
    }

    // How often a look tells the truth is the person's to say: without figures it rests on the demo.
    void add_look() {
        const auto sign = [&](std::string_view key, double invented) {
            return keep(key,
                        words_.has(key) ? exactly(share_from(key, words_.text(key)), "typed in")
                                        : demo(invented, invented, invented),
                        0, true)
                .likely;
        };
        const double good = sign("look_good_if_works", 0.9), bad = sign("look_good_if_not", 0.4);
        const auto price = keep("look_cost", words_.has("look_cost")
                                                 ? typed_amount("look_cost", words_.text("look_cost"))
                                                 : exactly(0, "not given"));
        asked_.deal.look = Look{words_.text("look"), good, bad, price, words_.has("as_is_opened")};
    }

    Session& session_;
    std::string vehicle_;
    const KeyValueArgs& words_;
    const DealWish& wish_;
    DealAsked asked_;
    JobRate fix_, unit_;
};

}  // namespace

bool DealFigure::demo() const { return estimate.origin == demo_origin; }

const std::vector<std::string>& deal_keys() {
    static const std::vector<std::string> keys{"purchase",
                                               "diagnosis",
                                               "fix",
                                               "unit",
                                               "unit_item",
                                               "unit_extra",
                                               "sale",
                                               "as_is",
                                               "as_is_opened",
                                               "works",
                                               "worked",
                                               "failed",
                                               "reusable",
                                               "margin",
                                               "sale_cost",
                                               "sale_fee",
                                               "fix_hours",
                                               "unit_hours",
                                               "hour",
                                               "spent",
                                               "look",
                                               "look_cost",
                                               "look_good_if_works",
                                               "look_good_if_not"};
    return keys;
}

DealAsked deal_from(Session& session, const std::string& vehicle, const KeyValueArgs& words, const DealWish& wish) {
    return Sources(session, vehicle, words, wish).asked();
}

}  // namespace casebound
