#include "core/work/record_words.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/vocabulary.h"
#include "core/session/ask_domains.h"
#include "core/shop/shop_records.h"
#include "core/verdict/part_number.h"
#include "core/work/open_work.h"

namespace casebound {

namespace {

std::string known_role(Session& session, const std::string& role) {
    if (role.empty() || session.catalog().vocabularies().role(role)) return role;
    std::vector<std::string> known;
    for (const auto& [name, owned] : session.catalog().vocabularies().roles()) known.push_back(name);
    const auto near = nearest(role, known);
    throw Error(Exit::usage,
                fmt::format("{}: no such role{}", role, near.empty() ? "" : fmt::format(": did you mean {}?", near)));
}

std::string unit_of(Session& session, const std::string& role) {
    const auto* known = session.catalog().vocabularies().role(role);
    const auto* kind = known ? session.catalog().vocabularies().item_kind(known->item_kind) : nullptr;
    return kind && kind->unit != "each" ? kind->unit : "";
}

// A number that cannot be below zero; `zero`: whether it may be zero.
std::optional<double> number_from_zero(const KeyValueArgs& words, std::string_view key, std::string_view unit,
                                       bool zero) {
    const auto value = words.number(key, unit);
    if (value && (*value < 0 || (!zero && *value == 0)))
        throw Error(Exit::usage, fmt::format("{}: \"{}\": write a number {}", dashed(key), words.text(key),
                                             zero ? "from 0 up" : "above 0"));
    return value;
}

// What every entry may say.
template <class One> One begun(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    One one;
    one.job = job_of(session, vehicle, words.text("job"));
    one.note = words.text("note");
    one.date = date_if(words, "date");
    one.corrects = words.whole("corrects");
    return one;
}

// Of several open jobs the one that its place was ordered for, else the newest that has this place.
std::optional<std::int64_t> job_with(Session& session, const std::string& vehicle, const std::string& role) {
    const auto open = jobs_not_closed(session, vehicle);
    std::optional<std::int64_t> found;
    for (const auto& job : open)
        if (has_place(session.catalog(), job.job, role)) found = job.id;
    for (const auto& event : ShopRecords(session.shop()).events(vehicle))
        for (const auto& job : open)
            if (event.stands && event.role == role && event.event == "ordered" && event.job == job.id) found = job.id;
    return found;
}

// The same with what an entry about a part may say.
template <class One> One begun_for_part(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    auto one = begun<One>(session, vehicle, words);
    one.role = known_role(session, words.text("role"));
    if (!words.has("job") && !one.role.empty())
        if (const auto job = job_with(session, vehicle, one.role)) one.job = job;
    one.item = item_meant(session.catalog(), words.text("item"));
    one.quantity = number_from_zero(words, "quantity", unit_of(session, one.role), false);
    return one;
}

std::vector<std::string> parts_of(const std::string& text, std::string_view between) {
    std::vector<std::string> parts{""};
    for (const char c : text)
        if (between.find(c) != std::string_view::npos) parts.emplace_back();
        else parts.back() += c;
    return parts;
}

// "1-2-3-4": what came for each gear that was called for.
std::string gears_from(const KeyValueArgs& words) {
    const auto text = words.text("gears");
    if (text.empty()) return text;
    for (const auto& gear : parts_of(text, "-")) {
        const bool number = !gear.empty() && gear.size() <= 2 && std::all_of(gear.begin(), gear.end(), [](char c) {
            return std::isdigit(static_cast<unsigned char>(c));
        });
        if (!number && !holds({"R", "N", "slip", "bind", "?"}, gear))
            throw Error(Exit::usage, fmt::format("gears: \"{}\": write what came for each gear called for, joined by "
                                                 "-: 1-2-3-4, with R, N, slip, bind or ? where it was so",
                                                 text));
    }
    return text;
}

// "none", or codes of SAE J2012 form, joined by "+": a letter P, C, B or U, a digit 0 to 3, three digits or A to F.
std::string codes_from(const KeyValueArgs& words) {
    const auto text = words.text("codes");
    if (text.empty() || text == "none") return text;
    for (const auto& code : parts_of(text, "+")) {
        const bool good = code.size() == 5 && std::string_view("PCBU").find(code[0]) != std::string_view::npos &&
                          code[1] >= '0' && code[1] <= '3' && std::all_of(code.begin() + 2, code.end(), [](char c) {
                              return std::isxdigit(static_cast<unsigned char>(c)) &&
                                     !std::islower(static_cast<unsigned char>(c));
                          });
        if (!good)
            throw Error(Exit::usage,
                        fmt::format("codes: \"{}\": write none, or each code as read, joined by +: P0753+P0758", text));
    }
    return text;
}

}  // namespace

const std::vector<std::string>& record_keys() {
    static const std::vector<std::string> keys{
        "job",      "role",       "item",     "made",   "label",    "quantity", "torque", "seals_out",
        "seals_in", "out",        "out_temp", "in",     "in_temp",  "gears",    "codes",  "drives",
        "leaks",    "leak_after", "odometer", "state",  "note",     "date",     "seller", "return_by",
        "core_by",  "core",       "kind",     "amount", "corrects", "measured", "pack"};
    return keys;
}

const std::vector<std::string>& line_events() {
    static const std::vector<std::string> events{"ordered",   "received", "matched",      "fitted",
                                                 "left_over", "returned", "core_returned"};
    return events;
}

bool holds(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

std::string one_of(std::string_view key, std::string word, const std::vector<std::string>& allowed) {
    std::replace(word.begin(), word.end(), '-', '_');
    std::replace(word.begin(), word.end(), ' ', '_');
    if (!holds(allowed, word))
        throw Error(Exit::usage, fmt::format("{}: \"{}\": write one of {}", dashed(key), dashed(word),
                                             fmt::join(as_typed(allowed), ", ")));
    return word;
}

std::string date_if(const KeyValueArgs& words, std::string_view key) {
    const auto text = words.text(key);
    if (!text.empty() && !is_date(text))
        throw Error(Exit::usage, fmt::format("{}: \"{}\" is not a date: write YYYY-MM-DD", dashed(key), text));
    return text;
}

std::optional<std::int64_t> job_of(Session& session, const std::string& vehicle, const std::string& word) {
    std::vector<std::int64_t> closed;
    for (const auto& closing : ShopRecords(session.shop()).closings(vehicle)) closed.push_back(closing.job);
    std::optional<std::int64_t> open, ended;
    for (const auto& job : ShopRecords(session.shop()).jobs(vehicle)) {
        if (!word.empty() && job.job != word && std::to_string(job.id) != word) continue;
        (std::find(closed.begin(), closed.end(), job.id) == closed.end() ? open : ended) = job.id;
    }
    if (open || word.empty()) return open;
    if (ended) return ended;
    throw Error(Exit::no_input, fmt::format("{}: job {} was not started: casebound record {} start job={}", vehicle,
                                            word, vehicle, word));
}

WorkRecord work_from(Session& session, const std::string& vehicle, const std::string& what, const KeyValueArgs& words) {
    auto one = begun_for_part<WorkRecord>(session, vehicle, words);
    one.what = what;
    if (words.has("made"))
        one.made = one_of("made", words.text("made"), {"new", "remanufactured", "used", "own_stock"});
    one.label = words.text("label");
    one.torque_nm = number_from_zero(words, "torque", "N m", false);
    one.seals_out = words.whole("seals_out");
    one.seals_in = words.whole("seals_in");
    one.out_l = number_from_zero(words, "out", "L", true);
    one.out_temp_c = words.number("out_temp", "degC");
    one.in_l = number_from_zero(words, "in", "L", true);
    one.in_temp_c = words.number("in_temp", "degC");
    one.gears = gears_from(words);
    one.codes = codes_from(words);
    one.drives = words.whole("drives");
    one.leaks = words.text("leaks");
    one.leak_minutes = number_from_zero(words, "leak_after", "min", true);
    one.odometer_km = number_from_zero(words, "odometer", "km", true);
    if (words.has("state")) one.state = one_of("state", words.text("state"), {"sound", "worn", "damaged", "leaking"});
    return one;
}

LineEvent event_from(Session& session, const std::string& vehicle, const std::string& event,
                     const KeyValueArgs& words) {
    words.need("role");
    auto one = begun_for_part<LineEvent>(session, vehicle, words);
    one.event = event;
    one.seller = words.text("seller");
    one.return_by = date_if(words, "return_by");
    one.core_by = date_if(words, "core_by");
    one.core_cents = words.cents("core");
    return one;
}

MoneyEntry money_from(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    auto entry = begun<MoneyEntry>(session, vehicle, words);
    entry.kind = one_of("kind", words.need("kind"),
                        {"purchase", "transport", "diagnosis", "parts", "fluid", "hire", "refund", "sale", "other"});
    words.need("amount");
    entry.cents = *words.cents("amount");
    if (entry.of_vehicle() && !words.has("job")) entry.job.reset();
    return entry;
}

double hours_from(const KeyValueArgs& words) {
    words.need("hours");
    return *number_from_zero(words, "hours", "", true);
}

namespace {

// how many of what stays behind were seen there, where the role's own domain takes a count of it for trouble.
std::optional<double> seen_in_place(Session& session, const Situation& situation, const std::string& role) {
    const auto& words = session.catalog().vocabularies();
    for (const auto& trouble : troubles(session, situation)) {
        const auto owned = words.attributes().find(trouble.attribute);
        if (owned == words.attributes().end() || owned->second.owner != words.owner_of_role(role)) continue;
        const auto& attribute = owned->second.word;
        if (!attribute.extent.whole || !attribute.unit.empty()) continue;
        if (const auto told = told_of(&situation, trouble.attribute)) return told->number;
    }
    return std::nullopt;
}

// Does the place take so many, by what is on record of what stays behind in it?
bool takes(Session& session, const Situation& situation, const std::string& role, std::int64_t count) {
    for (const auto& row : session.catalog().facts().rows("stays_behind", "role", role))
        if (row.text("line") == situation.line() && row.number("count") == static_cast<double>(count) &&
            situation.holds(row.text("condition")) != Holds::no)
            return true;
    return false;
}

// Where one that was forgotten would be, by what is on record: ": pressed up in the bore".
std::string where_left(Session& session, const Situation& situation, const std::string& role) {
    for (const auto& row : session.catalog().facts().rows("stays_behind", "role", role))
        if (row.text("line") == situation.line() && situation.holds(row.text("condition")) != Holds::no)
            return fmt::format(": {}", row.text("place"));
    return "";
}

void check_seals(Session& session, const std::string& vehicle, const WorkRecord& one,
                 std::vector<std::string>& checks) {
    if (!one.seals_out) return;
    std::optional<double> seen;
    std::string left;
    bool right = one.seals_in && *one.seals_out == *one.seals_in;
    try {
        const auto situation = session.situation(vehicle);
        seen = seen_in_place(session, *situation, one.role);
        left = where_left(session, *situation, one.role);
        right = right || (one.seals_in && seen == static_cast<double>(*one.seals_out) &&
                          takes(session, *situation, one.role, *one.seals_in));
    } catch (const Error&) {}  // the pack with the line was dropped: the counts alone are left
    if (seen && *seen > static_cast<double>(*one.seals_out))
        checks.push_back(
            fmt::format("{} were seen there and {} came out. Look again before closing: one may still be there{}.",
                        plain_number(*seen, 0), *one.seals_out, left));
    if (one.seals_in && !right)
        checks.push_back(
            fmt::format("{} came out and {} went in. Count again before closing: one may still be there{}.",
                        *one.seals_out, *one.seals_in, left));
}

}  // namespace

std::vector<std::string> open_checks(Session& session, const std::string& vehicle, const WorkRecord& one) {
    std::vector<std::string> checks;
    check_seals(session, vehicle, one, checks);
    constexpr double allowance_l = 0.5;  // common practice, no source
    if (one.out_l && one.in_l && std::abs(*one.out_l - *one.in_l) > allowance_l)
        checks.push_back(
            fmt::format("{} L out and {} L in differ by more than {} L: read the level again at its temperature.",
                        plain_number(*one.out_l, 2), plain_number(*one.in_l, 2), allowance_l));
    if (one.codes == "none" && one.drives.value_or(0) == 0)
        checks.push_back(
            "no codes and no drive since: that proves nothing yet. Read again after some drives and record it with "
            "drives=NUMBER.");
    if (one.what == "proof" && !one.leaks.empty() && !one.leak_minutes)
        checks.push_back("the leak check has no time: record it with leak-after=24h, counted from wiping it dry.");
    return checks;
}

}  // namespace casebound
