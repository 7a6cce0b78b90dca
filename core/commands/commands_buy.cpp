// `buy`: orders nothing by itself; it says what to order, and from whom.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <fmt/format.h>

#include "core/buy/buy_asked.h"
#include "core/buy/order_lines.h"
#include "core/buy/order_report.h"
#include "core/buy/useless_pieces.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/session/typed_names.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/work/key_value_args.h"

namespace casebound {

namespace {

// What was accepted for this order, with why it is in doubt.
std::vector<Accepted> accepted_in(Session& session, const Situation& situation) {
    std::vector<Accepted> accepted;
    const auto plain = session.situation(situation.name());
    for (const auto& attribute : situation.settled())
        for (const auto& entry : situation.entries())
            for (const auto& doubt : plain->narrowing().doubts)
                if (entry.attribute == attribute && doubt.attribute == attribute) {
                    if (accepted.empty() || accepted.back().attribute != attribute)
                        accepted.push_back({attribute, entry.text, doubt.reason});
                }
    return accepted;
}

// Each line under the job that asks for its place, the first of them where several do.
std::map<std::string, std::vector<LineEvent>> lines_by_job(const Order& order, const Buying& buying) {
    std::map<std::string, std::vector<LineEvent>> by_job;
    for (auto& event : ordered_lines(order, buying, {})) {
        const auto& lines = buying.list.lines;
        const auto line = std::find_if(lines.begin(), lines.end(),
                                       [&](const ListLine& one) { return one.answer.role == event.role; });
        const bool known = line != lines.end() && !line->jobs.empty();
        by_job[known ? line->jobs.front() : buying.list.jobs.front()].push_back(std::move(event));
    }
    return by_job;
}

// The order becomes lines of its jobs; what lies on the own shelf is taken when it is fitted.
std::string write_down(Session& session, const Situation& situation, const Order& order, const Buying& buying) {
    const auto vehicle = situation.name();
    auto accepted = accepted_in(session, situation);
    const auto& words = session.catalog().vocabularies();
    std::string out;
    auto by_job = lines_by_job(order, buying);
    for (const auto& job : buying.list.jobs) {
        if (by_job[job].empty()) continue;
        const auto count = by_job[job].size();
        const auto id = ShopRecords(session.shop())
                            .add_to_job(vehicle, job, "ordered for", {std::move(by_job[job]), {}, {}, {}, accepted});
        const auto& titles = session.catalog().facts().rows("jobs", "job", job);
        out += wrapped(fmt::format("Written down as ordered for {} (job {}): {}. See: casebound record {}",
                                   titles.empty() ? job : named(titles.front().text("title"), job), id,
                                   plural(count, "line"), vehicle),
                       0, 2);
    }
    for (const auto& one : accepted)
        out += wrapped(fmt::format("With it: right only if {}, which is not measured ({}). Said on every list and "
                                   "sheet until it is: casebound vehicle tell {} {} VALUE measured",
                                   condition_words(fmt::format("{}={}", one.attribute, one.text), words), one.doubt,
                                   vehicle, spaced(one.attribute)),
                       0, 2);
    if (std::any_of(order.sellers.begin(), order.sellers.end(),
                    [](const SellerOrder& one) { return one.seller == own_shelf_name; }))
        out += wrapped(fmt::format("The own shelf is drawn on when it is fitted: casebound record {} fitted role=PLACE "
                                   "item=KEY made=own-stock",
                                   vehicle),
                       0, 2);
    return out;
}

Result answer_buy(Session& session, const Args& args) {
    const auto asked = buy_asked(session, args);
    const auto& [situation, wish, buying, answer] = asked;
    std::string written;
    for (const auto& useless : useless_words(buying, session.catalog())) written += wrapped(useless, 0, 2);
    if (args.has("ordered")) {
        const bool fitted = buying.needs.empty() && !buying.fitted.empty() && buying.open.empty();
        if (fitted || (answer.ready() && bought_from(*answer.best.order).empty()))
            throw Error(Exit::usage,
                        "--ordered: nothing is left to order: all of it is fitted, on order already or here");
        if (!answer.ready())
            throw Error(Exit::usage,
                        fmt::format("--ordered: there is no order yet that could be written down: see casebound buy {}",
                                    fmt::join(args.words, " ")));
        written += write_down(session, *situation, *answer.best.order, buying);
    }
    const auto exit = asked.settled() ? Exit::yes : Exit::cannot_tell;
    if (!session.json()) return {exit, buy_text(buying, answer, *situation) + written};
    auto json = document("buy");
    json["vehicle"] = json_of(*situation);
    json["buy"] = json_of(buying, answer);
    return {exit, json_text(json)};
}

Result run_buy(Session& session, const Args& args) {
    return args.has("ordered") ? one_write<answer_buy>(session, args) : answer_buy(session, args);
}

}  // namespace

std::vector<Command> buy_commands() {
    return {
        {"buy",
         "VEHICLE JOB...",
         "the cheapest order of what the jobs need, from the offers on file",
         2,
         any_number,
         {{"with", "PLACE", "order for this place too, although it is looked at first", true},
          {"without", "PLACE", "order nothing for this place, by hand", true},
          {"sellers", "NUMBER", "at most so many sellers"},
          {"within", "DAYS", "everything here within so many days"},
          {"no-core", "", "there is no old part to hand in"},
          {"accept", "DOUBT=VALUE", "order as if this doubt were settled, this one alone; it is recorded so", true},
          {"ordered", "", "this is what was ordered: write it down as lines of the job"},
          dry_run,
          {"reserve", "LITRES", "fluid beyond the need (default: 3 % and 0.3 L)"},
          {"second-order", "AMOUNT", "what a second order costs you: the wait, the second delivery"}},
         run_buy,
         "casebound buy van pan-service --sellers 1"},
    };
}

}  // namespace casebound
