#include "core/buy/bid_money.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/buy/deal_figures.h"
#include "core/buy/order_text.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

void check_range(std::string_view key, const Estimate& estimate) {
    if (estimate.low >= 0 && estimate.low <= estimate.likely && estimate.likely <= estimate.high) return;
    throw Error(Exit::usage, fmt::format("{}: {}/{}/{}: write LOW/LIKELY/HIGH from 0 up, in this order", dashed(key),
                                         plain_number(estimate.low, 2), plain_number(estimate.likely, 2),
                                         plain_number(estimate.high, 2)));
}

}  // namespace

std::string typed_of_cause(const std::vector<std::string>& all, const std::string& cause) {
    for (const auto& one : all)
        if (const auto [key, value] = key_value_arg(one); key == cause) return value;
    return "";
}

BidMoney::BidMoney(Session& session, const std::string& vehicle, const KeyValueArgs& words,
                   const std::vector<std::string>& costs)
    : session_(session), vehicle_(vehicle), words_(words), costs_(costs) {
    const auto asked = deal_from(session, vehicle, words, {});
    const auto& deal = asked.deal;
    price = figure(asked, "purchase", deal.purchase);
    if (const auto sale = figure(asked, "sale", deal.sale_running)) figures.sale = *sale;
    else missing.push_back({"what it brings once it runs", "sale"});
    if (const auto as_is = figure(asked, "as_is", deal.sale_as_is)) figures.as_is = figures.opened = *as_is;
    else missing.push_back({"what it brings as it stands", "as_is"});
    if (deal.sale_opened) figures.opened = *figure(asked, "as_is_opened", *deal.sale_opened);
    figures.unit = figure(asked, "unit", deal.unit);
    if (!figures.unit) left_out.push_back({"No unit is thought of", "unit", ", fitted"});
    figures.reusable_share = deal.reusable_share;
    if (const auto diagnosis = figure(asked, "diagnosis", deal.diagnosis)) figures.before += *diagnosis;
    else left_out.push_back({"Nothing is counted for diagnosis", "diagnosis"});
    if (deal.margin > 0) {
        figures.before += deal.margin;
        given.emplace_back("margin", plain_number(deal.margin, 2));
    }
    if (words.has("reserve")) {
        const double reserve = amount_from("reserve", words.text("reserve"));
        check_range("reserve", exactly(reserve, "typed in"));
        figures.before += reserve;
        given.emplace_back("reserve", fmt::format("{} (typed in)", plain_number(reserve, 2)));
    } else {
        left_out.push_back({"Nothing is set aside for a second fault (tyres, brakes, exhaust)", "reserve"});
    }
    if (!price)
        left_out.push_back(
            {"No price is told: a question is shown with the most that it can be worth, which is at a price like the "
             "ceiling",
             "purchase", ", with transport"});
}

// A demo default is nobody's figure.
std::optional<double> BidMoney::figure(const DealAsked& asked, const std::string& key, const Estimate& estimate) {
    if (std::find(asked.defaults.begin(), asked.defaults.end(), key) != asked.defaults.end()) return std::nullopt;
    check_range(key, estimate);
    given.emplace_back(dashed(key), fmt::format("{} ({})", plain_number(estimate.likely, 2), estimate.origin));
    return estimate.likely;
}

std::optional<Estimate> BidMoney::cost_of_job(const std::string& job) {
    if (const auto found = job_costs_.find(job); found != job_costs_.end()) return found->second;
    auto& cost = job_costs_[job];
    try {
        const auto asked = deal_from(session_, vehicle_, words_, {{job}, {}, {}, {}, false, false});
        for (const auto& one : asked.figures)
            if (one.key == "fix" && !one.demo()) cost = one.estimate;
    } catch (const Error& error) { notes.push_back(fmt::format("{}: {}", job, error.what())); }
    return cost;
}

std::optional<Estimate> BidMoney::cost_of(const CauseOnRecord& cause) {
    if (const auto typed = typed_of_cause(costs_, cause.key); !typed.empty()) {
        const auto cost = typed_amount(cause.key, typed);
        check_range(cause.key, cost);
        return cost;
    }
    if (!cause.job.empty())
        if (const auto cost = cost_of_job(cause.job)) return cost;
    if (!cause.cost) return std::nullopt;
    const auto currency = currency_of(session_);
    if (currency.empty() || currency == cause.currency) return cause.cost;
    notes.push_back(fmt::format("{}: its cost is on record in {}, and the shop's currency is {}: it is not used",
                                cause.title, cause.currency, currency));
    return std::nullopt;
}

}  // namespace casebound
