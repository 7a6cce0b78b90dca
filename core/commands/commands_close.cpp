// `close`: a started job ends; what was wrong and what it took joins the shop's own figures.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/buy/order_text.h"
#include "core/buy/pieces.h"
#include "core/cover/market.h"
#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/session/typed_names.h"
#include "core/sheets/check_off.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/work/record_words.h"

namespace casebound {

namespace {

std::string key_of(Session& session, const std::string& vehicle, std::int64_t job) {
    for (const auto& started : ShopRecords(session.shop()).jobs(vehicle))
        if (started.id == job) return started.job;
    return {};
}

std::optional<Closing> closed_before(Session& session, const std::string& vehicle, std::int64_t job) {
    for (auto& closing : ShopRecords(session.shop()).closings(vehicle))
        if (closing.job == job) return std::move(closing);
    return std::nullopt;
}

// A job ends once. Written anew only when that is said; what its end said before, what was open then, stays with it.
void end_again(Closing& closing, const Closing& before, bool again, const std::string& vehicle) {
    if (!again)
        throw Error(Exit::usage,
                    fmt::format("{}: {}: closed already on {}: cause {}, worked: {}. To write its end anew: again=yes",
                                vehicle, before.job_key, before.date, before.cause, spaced(before.worked)));
    closing.note += fmt::format("{}closed before on {}: cause {}, worked: {}{}{}", closing.note.empty() ? "" : "; ",
                                before.date, before.cause, spaced(before.worked), before.note.empty() ? "" : "; ",
                                before.note);
}

// What is not finished in the job: lines, and checks that a record of it asks for.
std::vector<std::string> open_in(Session& session, const std::string& vehicle, std::int64_t job) {
    std::vector<std::string> open;
    for (const auto& line : check_off(session, vehicle))
        if (line.job == job && line.unfinished)
            open.push_back(fmt::format("{}: {}", place_title(session.catalog(), line.role), line.state_with_doubt()));
    const ShopRecords shop(session.shop());
    for (const auto& one : shop.records(vehicle))
        if (one.stands && one.job == job)
            for (const auto& check : open_checks(session, vehicle, one))
                open.push_back(fmt::format("CHECK: {}{}{}", place_title(session.catalog(), one.role),
                                           one.role.empty() ? "" : ": ", check));
    return open;
}

// What was written down as paid for the job, less what came back; nothing when no amount is.
std::optional<std::int64_t> recorded_cents(Session& session, const std::string& vehicle, std::int64_t job) {
    std::optional<std::int64_t> cents;
    for (const auto& entry : ShopRecords(session.shop()).money(vehicle))
        if (entry.stands && entry.job == job && !entry.of_vehicle())
            cents = cents.value_or(0) + (entry.comes_in() ? -entry.cents : entry.cents);
    return cents ? std::optional(std::max<std::int64_t>(*cents, 0)) : std::nullopt;
}

// What a seller sent for the job, or was asked to: "F38 (Near)".
std::vector<std::string> bought_for(Session& session, const std::string& vehicle, std::int64_t job) {
    std::vector<std::string> bought;
    for (const auto& event : ShopRecords(session.shop()).events(vehicle)) {
        const bool buys = event.event == "ordered" || event.event == "received";
        if (!event.stands || event.job != job || !buys || event.seller == own_shelf_name) continue;
        const auto what = event.item.empty() ? place_title(session.catalog(), event.role) : event.item;
        auto words = event.seller.empty() ? what : fmt::format("{} ({})", what, event.seller);
        if (!among(bought, words)) bought.push_back(std::move(words));
    }
    return bought;
}

// As typed, else as recorded. What was bought and not written down as paid cost something, and not 0.
std::int64_t cost_of(Session& session, const std::string& vehicle, const KeyValueArgs& words, std::int64_t job) {
    if (const auto typed = words.cents("money")) return *typed;
    const auto recorded = recorded_cents(session, vehicle, job);
    if (recorded) return *recorded;
    if (const auto bought = bought_for(session, vehicle, job); !bought.empty())
        throw Error(Exit::usage,
                    fmt::format("money: nothing is written down as paid for the job, and bought for it was "
                                "{}: write money=AMOUNT, what it cost, or money=0 when it cost nothing",
                                first_of(bought)));
    return 0;
}

Closing closing_from(Session& session, const std::string& vehicle, const KeyValueArgs& words, std::int64_t job) {
    Closing closing;
    closing.job = job;
    closing.cause = words.need("cause");
    closing.worked = one_of("worked", words.need("worked"), {"yes", "no", "not_known"});
    closing.hours = hours_from(words);
    closing.cost_cents = cost_of(session, vehicle, words, job);
    closing.note = words.text("note");
    closing.date = date_if(words, "date");
    if (const auto before = closed_before(session, vehicle, job))
        end_again(closing, *before, words.yes("again"), vehicle);
    const auto accepted = words.has("open") ? one_of("open", words.text("open"), {"accepted", "counted"}) : "";
    const auto open = open_in(session, vehicle, job);
    if (open.empty()) return closing;
    if (accepted.empty()) {
        std::vector<std::string> lines{
            fmt::format("{}: {}: not closed, {} open:", vehicle, key_of(session, vehicle, job), open.size())};
        for (const auto& one : open) lines.push_back("  " + one);
        lines.push_back(
            "Finish it, or close it so with open=accepted: what is open is written down, and a success counts as not "
            "known (open=counted: as one that worked).");
        throw Error(Exit::cannot_tell, lines);
    }
    if (closing.worked == "yes" && accepted == "accepted")
        closing.worked = "not_known",
        closing.note = "said to have worked" + (closing.note.empty() ? "" : "; " + closing.note);
    closing.note += fmt::format("{}open when it was closed: {}", closing.note.empty() ? "" : "; ",
                                fmt::join(open, "; "));
    return closing;
}

Result run_close(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    const KeyValueArgs words(args.words, 2, {"cause", "worked", "hours", "money", "note", "date", "open", "again"});
    const auto closing = closing_from(session, vehicle, words, *job_of(session, vehicle, args.words.at(1)));
    ShopRecords records(session.shop());
    records.close(vehicle, closing);
    const auto key = key_of(session, vehicle, closing.job);
    const auto rate = records.rate_of(key);
    if (session.json()) {
        auto json = document("close");
        json["vehicle"] = vehicle;
        json["job"] = key;
        json["closed"] = rate.closed;
        json["worked"] = rate.worked;
        json["failed"] = rate.failed;
        json["cost_cents"] = closing.cost_cents;
        return {Exit::yes, json_text(json)};
    }
    const auto cost = words.has("money") ? ""
                                         : wrapped(fmt::format("Money: {}, as recorded for it.",
                                                               money_text(closing.cost_cents, currency_of(session))),
                                                   0, 2);
    return {Exit::yes, wrapped(fmt::format("{}: {} is closed. Own {} closed: {}; it worked {} times and did not {}.",
                                           vehicle, key, key, rate.closed, rate.worked, rate.failed),
                               0, 2) +
                           cost};
}

}  // namespace

std::vector<Command> close_commands() {
    return {{"close",
             "VEHICLE JOB cause=TEXT worked=yes|no|not-known hours=NUMBER [money=AMOUNT] [open=accepted|counted] "
             "[note=TEXT] [date=DATE] [again=yes]",
             "end a job: what was wrong, and what it took",
             5,
             any_number,
             {dry_run},
             one_write<run_close>,
             "casebound close van pan-service cause=\"seal left in the case\" worked=yes hours=3"}};
}

}  // namespace casebound
