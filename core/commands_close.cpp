// `close`: a started job ends; what was wrong and what it took joins the shop's own figures.
#include <fmt/format.h>

#include "command.h"
#include "json_of.h"
#include "record_words.h"
#include "text_layout.h"

namespace casebound {

namespace {

std::string key_of(Session& session, const std::string& vehicle, std::int64_t job) {
    for (const auto& started : session.shop().jobs(vehicle))
        if (started.id == job) return started.job;
    return {};
}

Closing closing_from(Session& session, const std::string& vehicle, const Args& args) {
    const KeyedWords words(args.words, 2, {"cause", "worked", "hours", "money", "note", "date"});
    Closing closing;
    closing.job = *job_of(session, vehicle, args.words.at(1));
    closing.cause = words.need("cause");
    closing.worked = one_of("worked", words.need("worked"), {"yes", "no", "not_known"});
    words.need("hours");
    closing.hours = *words.number("hours", "");
    closing.cost_cents = words.cents("money").value_or(0);
    closing.note = words.text("note");
    closing.date = date_if(words, "date");
    return closing;
}

Result run_close(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    const auto closing = closing_from(session, vehicle, args);
    ShopRecords records(session.shop().database());
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
        return {Exit::yes, json_text(json)};
    }
    return {Exit::yes, wrapped(fmt::format("{}: {} is closed. Own {} closed: {}; it worked {} times and did not {}.", vehicle, key, key, rate.closed, rate.worked, rate.failed), 0, 2)};
}

}  // namespace

std::vector<Command> close_commands() {
    return {{"close", "VEHICLE JOB cause=TEXT worked=yes|no|not-known hours=NUMBER [money=AMOUNT]", "end a job: what was wrong, and what it took", 5, any_number, {}, run_close}};
}

}  // namespace casebound
