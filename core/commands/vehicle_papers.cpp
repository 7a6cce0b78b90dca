#include "core/commands/vehicle_papers.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/commands/confirmed.h"
#include "core/ground/text_layout.h"
#include "core/ground/vin.h"
#include "core/say/json_of.h"
#include "core/session/ask_domains.h"
#include "core/session/tell_check.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

void check_number(Session& session, const Vehicle& vehicle) {
    if (const auto* line = session.catalog().line(vehicle.line))
        if (const auto why = number_outside(*line, vehicle)) throw Error(Exit::bad_data, *why);
}

std::string vin_notes(const Vehicle& vehicle) {
    if (vehicle.vin.empty()) return "";
    std::string out;
    for (const auto& finding : read_vin(vehicle.vin, vin_context(vehicle)).findings) out += wrapped(finding.text, 2, 2);
    return out;
}

std::string cautions_text(Session& session, const Situation& situation, const std::vector<std::string>& said) {
    std::string out;
    for (const auto& unusual : unusual_told(session, situation))
        out += wrapped(fmt::format("CHECK: {}", unusual), 0, 2);
    if (situation.number_in_doubt())
        out += wrapped(
            fmt::format("Was the number misread? casebound vehicle correct {} --vin NUMBER", situation.name()), 0, 2);
    std::size_t again = 0;
    for (const auto& caution : evidence_cautions(session, situation))
        if (std::find(said.begin(), said.end(), caution) != said.end()) ++again;
        else out += wrapped(fmt::format("Caution: {}.", caution), 0, 2);
    if (again > 0)
        out += wrapped(fmt::format("Still to mind, said before: {}: casebound vehicle show {}",
                                   plural(again, "caution"), situation.name()),
                       0, 2);
    return out;
}

Result vehicle_json(Session& session, const Situation& situation) {
    auto json = document("vehicle");
    json["vehicle"] = json_of(situation);
    json["cautions"] = evidence_cautions(session, situation);
    json["unusual"] = unusual_told(session, situation);
    return {Exit::yes, json_text(json)};
}

namespace {

// A paper as it is put right: what is typed, "" for none, or what stands.
std::string put_right(const Args& args, std::string_view option, const std::string& stands) {
    const auto typed = args.option(option, stands);
    return typed == "none" ? "" : typed;
}

std::string put_right_words(std::string_view title, const std::string& was, const std::string& now) {
    if (was == now) return "";
    return wrapped(
        fmt::format("{}: was {}, now {}", title, was.empty() ? "not told" : was, now.empty() ? "not told" : now), 0, 2);
}

Result run_correct(Session& session, const Args& args) {
    const auto was = session.vehicle(args.words.at(0));
    if (!args.has("vin") && !args.has("market"))
        throw Error(Exit::usage, "vehicle correct: say what is right: --vin NUMBER, --market MARKET, or none");
    auto now = was;
    now.market = put_right(args, "market", was.market);
    now.vin = normal_vin(put_right(args, "vin", was.vin));
    check_number(session, now);
    if (now.market != was.market || now.vin != was.vin)
        ShopVehicles(session.shop()).correct(was.name, now.market, now.vin);
    const auto situation = session.situation(was.name);
    if (session.json()) return vehicle_json(session, *situation);
    return {Exit::yes, put_right_words("identification number", was.vin, now.vin) +
                           put_right_words("market", was.market, now.market) +
                           wrapped(fmt::format("{}: {}", was.name, situation->headline())) + vin_notes(now) +
                           cautions_text(session, *situation)};
}

// What the shop file holds of a vehicle and nothing else does.
std::vector<std::string> lost_with(Session& session, const std::string& name) {
    const ShopRecords records(session.shop());
    std::vector<std::string> lost;
    const auto add = [&](std::size_t count, std::string_view one, std::string_view many) {
        if (count > 0) lost.push_back(plural(count, one, many));
    };
    add(ShopTold(session.shop()).history(name).size(), "told fact", "told facts");
    add(records.jobs(name).size(), "job", "jobs");
    add(records.records(name).size() + records.events(name).size(), "record", "records");
    add(records.money(name).size(), "payment", "payments");
    std::size_t photos = 0;  // one of a statement stays with it
    for (const auto& photo : ShopPhotos(session.shop()).all(name))
        photos += photo.taken_back.empty() && std::none_of(photo.shows.begin(), photo.shows.end(),
                                                           [](const auto& one) { return one.kind == "statement"; });
    add(photos, "photo", "photos");
    return lost;
}

Result run_forget(Session& session, const Args& args) {
    const auto name = session.vehicle(args.words.at(0)).name;
    const auto lost = lost_with(session, name);
    if (!args.has("records-too")) {  // refused before anybody is asked
        const Transaction trial(session.shop());
        ShopVehicles(session.shop()).forget(name, false);
    }
    const auto text = wrapped(
        fmt::format("{}: {} for good. What was written down of its line stays: casebound own show", name,
                    lost.empty() ? "its name goes" : fmt::format("{} go", fmt::join(lost, ", "))),
        0, 2);
    const bool done = confirmed(session, args, text);
    if (done) ShopVehicles(session.shop()).forget(name, args.has("records-too"));
    const auto exit = done ? Exit::yes : Exit::cannot_tell;
    if (!session.json()) return {exit, text + (done ? "Forgotten.\n" : not_done)};
    auto json = document("vehicle-forget");
    json["vehicle"] = name;
    json["lost"] = lost;
    json["done"] = done;
    return {exit, json_text(json)};
}

// Its photos go with it.
Result forget_and_sweep(Session& session, const Args& args) {
    auto result = one_write<run_forget>(session, args);
    if (!args.has(dry_run.name)) ShopPhotos(session.shop()).sweep();
    return result;
}

}  // namespace

Command correct_command() {
    return {"vehicle correct",
            "VEHICLE",
            "put a mistyped identification number or market right; the old one is kept",
            1,
            1,
            {{"vin", "NUMBER", "as it stands on the vehicle; none: it has none"},
             {"market", "MARKET", "north-america, or another; none: not known"},
             dry_run},
            one_write<run_correct>,
            "casebound vehicle correct van --vin 00AAA00605A000002"};
}

Command forget_command() {
    return {"vehicle forget",
            "VEHICLE",
            "take a vehicle off your list; says first what is lost by it",
            1,
            1,
            {{"records-too", "", "even when jobs or records hang on it"},
             {"yes", "", "do it without being asked"},
             dry_run},
            forget_and_sweep,
            "casebound vehicle forget van --yes"};
}

}  // namespace casebound
