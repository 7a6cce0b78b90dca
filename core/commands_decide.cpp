// `decide`: small fix, unit, pass on or look first, from figures that each say where they come from.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "command.h"
#include "economics.h"
#include "json_of.h"
#include "keyed_words.h"
#include "shop_records.h"
#include "text_layout.h"
#include "units.h"

namespace casebound {

namespace {

const std::vector<std::string>& decide_keys() {
    static const std::vector<std::string> keys{"purchase", "diagnosis", "fix", "unit", "sale", "as_is", "as_is_opened", "works", "worked", "failed", "reusable", "margin", "sale_cost", "sale_fee",
                                               "fix_hours", "unit_hours", "hour", "spent", "look", "look_cost", "look_good_if_works", "look_good_if_not"};
    return keys;
}

double figure(std::string_view key, std::string_view text) {
    const bool percent = text.ends_with('%');
    if (percent) text.remove_suffix(1);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size())
        throw Error(Exit::usage, fmt::format("{}: \"{}\": write LIKELY or LOW/LIKELY/HIGH, such as 330/420/620", key, text));
    return percent ? value / 100 : value;
}

Estimate typed(std::string_view key, const std::string& text) {
    const auto first = text.find('/');
    if (first == std::string::npos) return exactly(figure(key, text), "typed in");
    const auto second = text.find('/', first + 1);
    if (second == std::string::npos) throw Error(Exit::usage, fmt::format("{}: \"{}\": write LOW/LIKELY/HIGH", key, text));
    const std::string_view all = text;
    return {figure(key, all.substr(0, first)), figure(key, all.substr(first + 1, second - first - 1)), figure(key, all.substr(second + 1)), "typed in"};
}

// Invented with the rest of the demo; the answer says which figures are these.
Estimate demo(double low, double likely, double high) { return {low, likely, high, "demo default"}; }

class Figures {
public:
    Figures(const KeyedWords& words, std::vector<std::string>& defaults) : words_(words), defaults_(defaults) {}
    Estimate of(std::string_view key, const Estimate& fallback) {
        if (words_.has(key)) return typed(key, words_.text(key));
        if (fallback.origin == "demo default") defaults_.emplace_back(key);
        return fallback;
    }
    double one(std::string_view key, double fallback) const { return words_.has(key) ? figure(key, words_.text(key)) : fallback; }

private:
    const KeyedWords& words_;
    std::vector<std::string>& defaults_;
};

struct Asked {
    Deal deal;
    std::vector<std::string> defaults;  // keys that rest on the demo
    std::string rate_note;
};

Chance chance_of(Figures& figures, const KeyedWords& words, const OwnRate& own, const std::string& job, Asked& asked) {
    if (words.has("worked") || words.has("failed")) return chance_beta(static_cast<double>(words.whole("worked").value_or(0) + 1), static_cast<double>(words.whole("failed").value_or(0) + 1), "typed in");
    if (words.has("works")) return {typed("works", words.text("works")), 0, 0};
    if (own.worked + own.failed > 0) {
        asked.rate_note = fmt::format("Own rate of {}: worked {} of {} closed jobs that say so.", job, own.worked, own.worked + own.failed);
        return chance_from_jobs(own.worked, own.failed);
    }
    return {figures.of("works", demo(0.3, 0.6, 0.8)), 0, 0};
}

// What closed jobs cost, low, mean and high; the demo's figure while there is none.
Estimate own_cost(const OwnRate& own, const Estimate& fallback) {
    if (own.cost_cents.empty()) return fallback;
    const auto [low, high] = std::minmax_element(own.cost_cents.begin(), own.cost_cents.end());
    double sum = 0;
    for (const auto cents : own.cost_cents) sum += static_cast<double>(cents);
    return {static_cast<double>(*low) / 100, sum / static_cast<double>(own.cost_cents.size()) / 100, static_cast<double>(*high) / 100, fmt::format("own closed jobs ({})", own.closed)};
}

double setting_number(Session& session, std::string_view key) {
    const auto value = session.shop().setting(key);
    return value ? quantity_in(*value, "") : 0;
}

Asked asked_from(Session& session, const Args& args) {
    const auto& vehicle = args.words.at(0);
    const KeyedWords words(args.words, 1, decide_keys());
    const ShopRecords records(session.shop().database());
    const auto job = args.option("job");
    const auto own = job.empty() ? OwnRate{} : records.rate_of(job);
    Asked asked;
    Figures figures(words, asked.defaults);
    auto& deal = asked.deal;
    deal.bought = args.has("bought") || args.has("failed-fix");
    deal.fix_failed = args.has("failed-fix");
    const auto paid_already = exactly(0, "paid already");
    deal.purchase = figures.of("purchase", deal.bought ? paid_already : demo(1200, 1400, 1600));
    deal.diagnosis = figures.of("diagnosis", deal.bought ? paid_already : demo(80, 120, 160));
    deal.cheap_fix = figures.of("fix", own_cost(own, demo(330, 420, 620)));
    deal.unit = figures.of("unit", demo(2200, 2600, 3400));
    deal.sale_running = figures.of("sale", demo(3700, 4300, 4800));
    deal.sale_as_is = figures.of("as_is", demo(500, 700, 900));
    if (words.has("as_is_opened")) deal.sale_opened = typed("as_is_opened", words.text("as_is_opened"));
    deal.works = chance_of(figures, words, own, job, asked);
    deal.reusable_share = figures.one("reusable", 0);
    deal.spent = figures.one("spent", static_cast<double>(records.spent_cents(vehicle)) / 100);
    deal.margin = figures.one("margin", setting_number(session, "margin"));
    deal.fixed_sale_cost = figures.one("sale_cost", 0);
    deal.sale_fee_rate = figures.one("sale_fee", 0);
    deal.fix_hours = figures.one("fix_hours", 0);
    deal.unit_hours = figures.one("unit_hours", 0);
    deal.hour_value = figures.one("hour", setting_number(session, "hour_value"));
    if (words.has("look"))
        deal.look = Look{words.text("look"), figures.one("look_good_if_works", 0.9), figures.one("look_good_if_not", 0.4), words.has("look_cost") ? typed("look_cost", words.text("look_cost")) : exactly(0, "not given"), words.has("as_is_opened")};
    return asked;
}

std::string whole(double amount) { return fmt::format("{:.0f}", amount + 0.0); }

std::string paths_text(const Decision& decision) {
    Table table({"path", "expected", "chance of a loss", "5 % .. 95 %", "worst"});
    for (const auto& path : decision.likely.paths) {
        std::vector<std::string> row{std::string(path_words(path.path)), whole(path.whole), "-", "-", "-"};
        for (const auto& spread : decision.spreads)
            if (spread.path == path.path)
                row = {row[0], row[1], fmt::format("{:.0f} %", spread.chance_of_loss * 100), fmt::format("{} .. {}", whole(spread.low_5), whole(spread.high_95)), whole(spread.worst)};
        table.row(row);
    }
    return table.text();
}

std::string decision_text(const Asked& asked, const Decision& decision, const std::string& vehicle, const std::string& currency) {
    const auto& likely = decision.likely;
    std::string out = wrapped(fmt::format("{}: {}. {}", vehicle, capitalised(path_words(decision.recommended)), decision.reason), 0, 2);
    out += fmt::format("Amounts in {}, at the likely figures:\n", currency) + paths_text(decision);
    for (const auto* even : {&likely.against_unit, &likely.against_pass_on})
        if (!even->words.empty()) out += wrapped("Break-even " + even->words + (even->chance ? fmt::format(" ({:.1f} %)", *even->chance * 100) : "") + ".", 0, 2);
    out += wrapped(fmt::format("Worst: {} if the cheap fix fails; then {}.", whole(likely.worst), path_words(likely.after_failure)), 0, 2);
    if (likely.bid_ceiling) out += wrapped(fmt::format("Bid ceiling: {} for purchase and transport.", whole(*likely.bid_ceiling)), 0, 2);
    if (likely.looking) out += wrapped(fmt::format("Looking first ({}) is worth up to {}.", asked.deal.look->what, whole(likely.looking->value)), 0, 2);
    for (const auto& floor : decision.floors) out += wrapped(fmt::format("Floor price, {}: {} ({} with own hours); the likely sale is an asking price of {}.", floor.outcome, whole(floor.price), whole(floor.with_hours), whole(floor.asked)), 0, 2);
    out += wrapped(decision.floors_explained, 2, 2) + "What matters most:\n";
    for (const auto& swing : decision.swings) out += wrapped(fmt::format("{} ({}): {} .. {}", swing.input, swing.origin, whole(swing.low_result), whole(swing.high_result)), 2, 2);
    out += wrapped(fmt::format("Spent already: {}. It is gone either way and does not move the recommendation.", whole(decision.spent)), 0, 2);
    if (!asked.rate_note.empty()) out += wrapped(asked.rate_note, 0, 2);
    if (!asked.defaults.empty()) out += wrapped(fmt::format("DEMO DEFAULTS, invented: {}. Type your own figures before deciding.", fmt::join(asked.defaults, ", ")), 0, 2);
    return out;
}

Json decision_json(const Asked& asked, const Decision& decision) {
    const auto& likely = decision.likely;
    Json json{{"recommended", path_words(decision.recommended)}, {"reason", decision.reason}, {"spent", decision.spent}, {"worst", likely.worst}, {"after_failure", path_words(likely.after_failure)},
              {"demo_defaults", asked.defaults}, {"own_rate", asked.rate_note}};
    json["bid_ceiling"] = likely.bid_ceiling ? Json(*likely.bid_ceiling) : Json(nullptr);
    json["break_even_unit"] = likely.against_unit.chance ? Json(*likely.against_unit.chance) : Json(nullptr);
    json["break_even_pass_on"] = likely.against_pass_on.chance ? Json(*likely.against_pass_on.chance) : Json(nullptr);
    json["value_of_looking"] = likely.looking ? Json(likely.looking->value) : Json(nullptr);
    for (const auto& path : likely.paths) json["paths"].push_back({{"path", path_words(path.path)}, {"result", path.whole}, {"to_come", path.to_come}, {"hours_value", path.hours_value}});
    json["spreads"] = Json::array();
    for (const auto& one : decision.spreads)
        json["spreads"].push_back({{"path", path_words(one.path)}, {"mean", one.mean}, {"standard_error", one.standard_error}, {"low_5", one.low_5}, {"high_95", one.high_95}, {"chance_of_loss", one.chance_of_loss}, {"worst", one.worst}});
    json["floors"] = Json::array();
    for (const auto& floor : decision.floors) json["floors"].push_back({{"outcome", floor.outcome}, {"price", floor.price}, {"with_hours", floor.with_hours}, {"asked", floor.asked}});
    json["swings"] = Json::array();
    for (const auto& swing : decision.swings) json["swings"].push_back({{"input", swing.input}, {"origin", swing.origin}, {"low_result", swing.low_result}, {"high_result", swing.high_result}});
    return json;
}

Result run_decide(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    const auto asked = asked_from(session, args);
    const auto decision = decide(asked.deal);
    const auto exit = asked.defaults.empty() ? Exit::yes : Exit::cannot_tell;
    if (!session.json()) return {exit, decision_text(asked, decision, vehicle, session.shop().setting("currency").value_or("cu"))};
    auto json = document("decide");
    json["vehicle"] = vehicle;
    json["decision"] = decision_json(asked, decision);
    return {exit, json_text(json)};
}

}  // namespace

std::vector<Command> decide_commands() {
    return {{"decide", "VEHICLE [KEY=LIKELY|LOW/LIKELY/HIGH...]",
             "fix first, unit now, pass on or look first: purchase, diagnosis, fix, unit, sale, as_is, as_is_opened, works or worked and failed, reusable, margin, sale_cost, sale_fee, fix_hours, unit_hours, hour, spent, look, look_cost, look_good_if_works, look_good_if_not",
             1, any_number,
             {{"job", "JOB", "use what own closed jobs of this kind say"}, {"bought", "", "purchase and diagnosis are paid: only what is to come counts"}, {"failed-fix", "", "the cheap fix was tried and did not help"}}, run_decide}};
}

}  // namespace casebound
