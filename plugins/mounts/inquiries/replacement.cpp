// One mount for another, and which others to change, consider or inspect when one is broken.
#include <algorithm>
#include <cctype>
#include <map>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/mount_record.h"
#include "rows/vehicle_mounts.h"
#include "rows/where.h"
#include "science/pair_advice.h"

namespace casebound::mounts {
namespace {

// ---------------------------------------------------------------- one mount in the place of another

std::vector<Input> side_inputs(const std::string& side, const std::string& whose) {
    return {word_input(Input::Kind::text, side, "interchange group of " + whose + ", for what is recorded of it"),
            choice_input(side + "-position", "position of " + whose, position_choices()),
            choice_input(side + "-kind", "kind of " + whose, kind_choices()),
            choice_input(side + "-connection", "what is connected to " + whose, {"none", "hose", "plug"}),
            number_input(side + "-pins", "pins of its plug", "", 1, 40),
            number_input(side + "-hose", "outside diameter of its pipe stub", "mm", 0.5, 40),
            choice_input(side + "-bracket", "bracket of " + whose, {"integral", "included", "separate"}),
            number_input(side + "-stud", "thread of its stud, 10 for M10", "mm", 3, 40),
            number_input(side + "-stud-length", "free length of its stud", "mm", 1, 300),
            yes_no_input(side + "-pin", "locating pin on " + whose)};
}

template <class Value> void take(const Given& given, const std::string& name, std::optional<Value>& field) {
    if (const auto number = given.maybe_number(name)) field = static_cast<Value>(*number);
}

struct Side {
    Mount mount;
    std::string name;
    SourceNote source;
};

// What is recorded of the named group, then what was given by hand on top of it.
Side side_of(const Given& given, const Services& services, const std::string& side) {
    Side out{{}, given.has(side) ? given.text(side) + ": " : "", practice()};
    const auto record = given.has(side) ? mount_of_group(services.facts, given.text(side)) : std::nullopt;
    if (record) out = {record->mount, out.name, row_source(record->origin)};
    else if (given.has(side)) out.name += "not recorded; ";
    Mount& mount = out.mount;
    for (const char* part :
         {"-position", "-kind", "-connection", "-bracket", "-stud", "-stud-length", "-pin", "-pins", "-hose"})
        if (!record && given.has(side + part)) out.source = given_source(given, side + part);
    if (given.has(side + "-position")) mount.position = position_from(given.text(side + "-position"));
    if (given.has(side + "-kind")) mount.kind = kind_from(given.text(side + "-kind"));
    if (given.has(side + "-connection")) mount.connection = connection_from(given.text(side + "-connection"));
    if (given.has(side + "-bracket")) mount.bracket = bracket_from(given.text(side + "-bracket"));
    if (given.has(side + "-pin")) mount.locating_pin = given.yes(side + "-pin");
    take(given, side + "-pins", mount.pins);
    take(given, side + "-hose", mount.hose_mm);
    take(given, side + "-stud", mount.stud_thread_mm);
    take(given, side + "-stud-length", mount.stud_length_mm);
    return out;
}

// What the vehicle shows fills what neither hand nor record says of the wanted mount.
void fill_from_vehicle(Mount& wanted, const VehicleView* vehicle) {
    const Mount seen = mount_seen(vehicle, wanted.position);
    if (wanted.kind == Kind::unknown) wanted.kind = seen.kind;
    if (wanted.connection == Connection::unknown) wanted.connection = seen.connection;
}

std::string shown(const Mount& mount) {
    std::string text = std::string(word(mount.position)) + ", " + std::string(word(mount.kind)) + ", connection " +
                       std::string(word(mount.connection));
    if (mount.bracket != Bracket::unknown) text += ", bracket " + std::string(word(mount.bracket));
    if (mount.stud_thread_mm) text += ", stud M" + number_text(*mount.stud_thread_mm);
    if (mount.stud_thread_mm && mount.stud_length_mm) text += " x " + number_text(*mount.stud_length_mm);
    return text;
}

Verdict verdict_of(Replacement replacement) {
    return replacement == Replacement::no          ? Verdict::does_not_fit
           : replacement == Replacement::same_kind ? Verdict::fits
                                                   : Verdict::check_first;
}

std::string differences(const std::vector<BenchLine>& bench) {
    std::vector<std::string> apart;
    for (const auto& line : bench)
        if (line.known) apart.push_back(line.what + " " + line.values);
    return listed(apart, "; ");
}

// A stud of another thread goes into no hole made for the first.
bool does_not_bolt_up(const std::vector<BenchLine>& bench) {
    return std::any_of(bench.begin(), bench.end(),
                       [](const BenchLine& line) { return line.known && line.what == "stud thread"; });
}

std::string headline_of(const ReplacementAnswer& answer, const std::vector<BenchLine>& bench) {
    const std::string& reason = answer.reasons.front();
    const auto apart = differences(bench);
    const std::string also = apart.empty() ? "" : " It differs too: " + apart + ".";
    if (does_not_bolt_up(bench)) return "It does not bolt up as it is: " + apart + ".";
    switch (answer.verdict) {
        case Replacement::same_kind:
            if (!apart.empty()) return "Same position and kind, but not the same to bolt up: " + apart + ".";
            return "Position and kind do not speak against it" +
                   std::string(bench.empty() ? "." : "; compare the rest at the bench.");
        case Replacement::bolts_up_but: return "It may bolt up, but differs in function: " + reason + "." + also;
        case Replacement::no:
            return static_cast<char>(std::toupper(static_cast<unsigned char>(reason.front()))) + reason.substr(1) + ".";
        case Replacement::cannot_tell: break;
    }
    return "Cannot tell yet: " + reason + "." + also;
}

Answer answer_replacement(const Given& given, const Services& services) {
    Answer answer;
    auto wanted = side_of(given, services, "wanted");
    const auto offered = side_of(given, services, "offered");
    fill_from_vehicle(wanted.mount, services.vehicle);
    const auto replacement = may_replace(wanted.mount, offered.mount);
    const auto bench = replacement.verdict == Replacement::no ? std::vector<BenchLine>{}
                                                              : bench_differences(wanted.mount, offered.mount);
    answer.verdict = verdict_of(replacement.verdict);
    if (!bench.empty() && answer.verdict == Verdict::fits) answer.verdict = Verdict::check_first;
    if (does_not_bolt_up(bench)) answer.verdict = Verdict::does_not_fit;
    answer.headline = headline_of(replacement, bench);
    const auto source = weaker(wanted.source, offered.source);
    answer.lines.push_back(text_line("wanted", wanted.name + shown(wanted.mount), wanted.source));
    answer.lines.push_back(text_line("offered", offered.name + shown(offered.mount), offered.source));
    for (const auto& reason : replacement.reasons) answer.lines.push_back(text_line("because", reason, source));
    for (const auto& line : bench)
        answer.lines.push_back(text_line(
            line.what, line.known ? "differs: " + line.values : "not known on both sides: compare at the bench",
            source));
    for (const auto& look : replacement.look_first) answer.next.push_back("Look first: " + look + ".");
    if (replacement.note_required)
        answer.cautions.push_back("write in the job record what was fitted instead, and why");
    answer.cautions.push_back(
        "this compares position, kind, connection and what bolts up; only an application in the catalog says that a "
        "part fits a vehicle");
    return answer;
}

Inquiry replacement() {
    auto inputs = side_inputs("wanted", "the mount called for");
    for (auto& input : side_inputs("offered", "the mount offered")) inputs.push_back(input);
    return {"replacement", "One mount in the place of another: position, kind, hose or plug, then the bench", inputs,
            answer_replacement};
}

// ---------------------------------------------------------------- the other mounts

const char* action_word(PairAction action) {
    return action == PairAction::replace ? "replace" : action == PairAction::consider ? "consider" : "inspect";
}

PairRule rule_from(std::string_view text) {
    return text == "required"      ? PairRule::required
           : text == "recommended" ? PairRule::recommended
           : text == "no"          ? PairRule::no
                                   : PairRule::not_recorded;
}

Position opposite_of(Position position) {
    for (const auto other : {Position::left, Position::right, Position::front, Position::rear})
        if (is_opposite(position, other)) return other;
    return Position::unknown;
}

bool has_cost(const Given& given) { return given.has("price") && given.has("hours-later"); }

ExtraItem cost_of(const Given& given) {
    const double rate = given.maybe_number("hour-rate").value_or(0);
    return {given.number("price"), labour_cost(given.maybe_number("hours-now").value_or(0), rate),
            labour_cost(given.number("hours-later"), rate), given.maybe_number("consumables-later").value_or(0),
            given.maybe_number("comeback").value_or(0)};
}

struct RecordedRule {
    PairRule rule = PairRule::not_recorded;
    SourceNote source{};
};

// Rows on this pair, those written from the broken mount's side first; from the other side only where there are none.
std::vector<Row> rows_on_pair(const Services& services, Position broken, Position other) {
    std::vector<Row> forward, backward;
    for (const auto& row : rows_of_line(services, "mounts_pairs")) {
        if (row.text("position") == position_key(broken) && row.text("with_position") == position_key(other))
            forward.push_back(row);
        if (row.text("with_position") == position_key(broken) && row.text("position") == position_key(other))
            backward.push_back(row);
    }
    return forward.empty() ? backward : forward;
}

// Of several rules that apply the strictest is advised, and each is shown. One that may or may not apply is at most
// a recommendation until that is found out.
RecordedRule recorded_rule(const Services& services, Position broken, Position other, Answer& answer) {
    RecordedRule strictest;
    for (const auto& row : rows_on_pair(services, broken, other)) {
        const auto where = where_text(row, services.vehicle);
        answer.lines.push_back(text_line("on record for " + position_key(broken) + " and " + position_key(other),
                                         std::string(row.text("rule")) +
                                             (row.text("words").empty() ? "" : ": " + std::string(row.text("words"))) +
                                             (where.empty() ? "" : " (" + where + ")"),
                                         row_source(row.origin)));
        auto rule = rule_from(row.text("rule"));
        if (!where.empty() && rule == PairRule::required) {
            rule = PairRule::recommended;
            answer.next.push_back(
                "Find out whether the pair is required: " + where.substr(std::string("where ").size()) + ".");
        }
        if (strictest.rule == PairRule::not_recorded || rule < strictest.rule)
            strictest = {rule, row_source(row.origin)};
    }
    return strictest;
}

std::vector<OtherMount> others_of(const Given& given, const Services& services, Position broken, Answer& answer,
                                  std::map<Position, SourceNote>& sources) {
    std::vector<OtherMount> others;
    const Position partner = opposite_of(broken);
    for (const auto& key : position_choices()) {
        OtherMount other{position_from(key)};
        if (other.position == broken) continue;
        const bool front_or_rear = other.position == Position::front || other.position == Position::rear;
        const auto recorded = recorded_rule(services, broken, other.position, answer);
        other.pair_rule = recorded.rule;
        if (recorded.rule != PairRule::not_recorded) sources[other.position] = recorded.source;
        if (other.position == partner) {
            if (given.has("same-age")) other.same_age = given.yes("same-age");
            if (given.has("chance")) other.chance = given.number("chance") / 100;
            if (has_cost(given)) other.cost = cost_of(given);
        } else if (front_or_rear && other.pair_rule == PairRule::not_recorded) {
            continue;  // most engines have left and right only
        }
        others.push_back(other);
    }
    return others;
}

void add_money(Answer& answer, const Given& given) {
    if (!has_cost(given)) {
        answer.next.push_back(
            "Give price and hours-later, with hour-rate, to see from which chance on the second mount pays now.");
        return;
    }
    const auto item = cost_of(given);
    const double now = item.price + item.labour_now;
    const double later = item.price + item.labour_later + item.consumables_later + item.comeback_cost;
    answer.lines.push_back(
        measure_line("the other mount now, labour shared", now, "", 2, given_source(given, "price")));
    answer.lines.push_back(
        measure_line("the other mount later, opened again", later, "", 2, given_source(given, "hours-later")));
    answer.lines.push_back(measure_line("pays now from a chance of", 100 * break_even_chance(item), "%", 0,
                                        {Evidence::common_practice, "cost now / cost later"}));
    if (given.has("chance"))
        answer.lines.push_back(measure_line("chance that it is needed soon", given.number("chance"), "%", 0,
                                            given_source(given, "chance")));
    answer.assumptions.push_back("one currency for every amount; what is not given counts as nothing");
}

Answer answer_pair(const Given& given, const Services& services) {
    Answer answer;
    const auto broken = position_from(given.text("broken"));
    std::map<Position, SourceNote> sources;
    const auto advice = pair_advice(broken, others_of(given, services, broken, answer, sources));
    std::vector<std::string> together;
    for (const auto& one : advice) {
        answer.lines.push_back(text_line(std::string(word(one.position)) + " mount",
                                         std::string(action_word(one.action)) + ": " + one.reason,
                                         sources[one.position]));
        if (one.action == PairAction::replace) together.push_back(std::string(word(one.position)));
    }
    add_money(answer, given);
    answer.verdict = together.empty() ? Verdict::check_first : Verdict::fits;
    answer.headline = together.empty() ? "Replace the " + std::string(word(broken)) +
                                             " mount; look at the others while the engine is up."
                                       : "Replace the " + std::string(word(broken)) + " and the " +
                                             listed(together, " and the ") + " mount together.";
    answer.cautions = {"never under an engine that only a jack holds"};
    return answer;
}

Inquiry pair() {
    return {"pair",
            "Which other mounts to change, consider or inspect when one is broken, with the shared labour counted",
            {required(choice_input("broken", "the mount that is broken", position_choices())),
             yes_no_input("same-age", "is the opposite mount as old as the broken one?"),
             number_input("chance", "chance that the opposite one is needed within the holding or warranty time", "%",
                          0, 100),
             number_input("price", "price of the opposite mount", "", 0, 1e6),
             number_input("hours-now", "extra hours while the job is open", "h", 0, 1000),
             number_input("hours-later", "hours if the job is opened again for it", "h", 0, 1000),
             number_input("hour-rate", "what an hour is worth", "", 0, 1e6),
             number_input("consumables-later", "consumables if the job is opened again", "", 0, 1e6),
             number_input("comeback", "cost of the vehicle coming back", "", 0, 1e6)},
            answer_pair};
}

}  // namespace

std::vector<Inquiry> choice_inquiries() { return {replacement(), pair()}; }

}  // namespace casebound::mounts
