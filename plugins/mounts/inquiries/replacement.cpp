// One mount in the place of another: position and kind, then what is compared at the bench.
#include <algorithm>
#include <cctype>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/mount_record.h"
#include "rows/vehicle_mounts.h"

namespace casebound::mounts {
namespace {

std::vector<Input> side_inputs(const std::string& side, const std::string& whose) {
    return {key_of(text_input(side, "interchange group of " + whose + ", for what is recorded of it"), "mounts_mounts"),
            choice_input(side + "-position", "position of " + whose, position_choices()),
            choice_input(side + "-kind", "kind of " + whose, kind_choices()),
            choice_input(side + "-connection", "what is connected to " + whose, {"none", "hose", "plug"}),
            whole(number_input(side + "-pins", "pins of its plug", "", 1, 40)),
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
    std::optional<SourceNote> source;  // the weakest of what is known of it

    void rests_on(const SourceNote& more) { source = source ? weaker(*source, more) : more; }
};

void take_words(const Given& given, const std::string& side, Mount& mount) {
    if (given.has(side + "-position")) mount.position = position_from(given.text(side + "-position"));
    if (given.has(side + "-kind")) mount.kind = kind_from(given.text(side + "-kind"));
    if (given.has(side + "-connection")) mount.connection = connection_from(given.text(side + "-connection"));
    if (given.has(side + "-bracket")) mount.bracket = bracket_from(given.text(side + "-bracket"));
    if (given.has(side + "-pin")) mount.locating_pin = given.yes(side + "-pin");
}

// What is recorded of the named group, then what was given by hand on top of it.
Side side_of(const Given& given, const Services& services, const std::string& side) {
    Side out{{}, given.has(side) ? given.text(side) + ": " : "", {}};
    const auto record = given.has(side) ? mount_of_group(services.facts, given.text(side)) : std::nullopt;
    if (record) {
        out.mount = record->mount;
        out.rests_on(row_source(record->origin));
    }
    take_words(given, side, out.mount);
    take(given, side + "-pins", out.mount.pins);
    take(given, side + "-hose", out.mount.hose_mm);
    take(given, side + "-stud", out.mount.stud_thread_mm);
    take(given, side + "-stud-length", out.mount.stud_length_mm);
    for (const char* part :
         {"-position", "-kind", "-connection", "-bracket", "-stud", "-stud-length", "-pin", "-pins", "-hose"})
        if (given.has(side + part)) out.rests_on(given.source(side + part));
    return out;
}

// What the vehicle shows fills what neither hand nor record says of the wanted mount.
void fill_from_vehicle(Side& wanted, const VehicleView* vehicle) {
    const Mount seen = mount_seen(vehicle, wanted.mount.position);
    const bool kind = wanted.mount.kind == Kind::unknown && seen.kind != Kind::unknown;
    const bool connection = wanted.mount.connection == Connection::unknown && seen.connection != Connection::unknown;
    if (kind) wanted.mount.kind = seen.kind;
    if (connection) wanted.mount.connection = seen.connection;
    if (kind || connection)
        for (const char* attribute : {"mount_kind", "mount_hose", "mount_plug"})
            if (const auto known = known_of(vehicle, attribute)) wanted.rests_on(known->source);
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
    auto wanted = side_of(given, services, "wanted");
    const auto offered = side_of(given, services, "offered");
    fill_from_vehicle(wanted, services.vehicle);
    const auto replacement = may_replace(wanted.mount, offered.mount);
    const auto bench = replacement.verdict == Replacement::no ? std::vector<BenchLine>{}
                                                              : bench_differences(wanted.mount, offered.mount);
    auto answer = Answer::judging(verdict_of(replacement.verdict));
    if (!bench.empty()) answer.lower(Verdict::check_first);
    if (does_not_bolt_up(bench)) answer.lower(Verdict::does_not_fit);
    answer.headline = headline_of(replacement, bench);
    const auto source_wanted = wanted.source.value_or(practice()), source_offered = offered.source.value_or(practice());
    const auto source = weaker(source_wanted, source_offered);
    answer.lines.push_back(text_line("wanted", wanted.name + shown(wanted.mount), source_wanted));
    answer.lines.push_back(text_line("offered", offered.name + shown(offered.mount), source_offered));
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

}  // namespace

Inquiry replacement_inquiry() {
    auto inputs = side_inputs("wanted", "the mount called for");
    for (auto& input : side_inputs("offered", "the mount offered")) inputs.push_back(input);
    return {"replacement", "One mount in the place of another: position, kind, hose or plug, then the bench", inputs,
            answer_replacement, "wanted-position=left wanted-kind=hydraulic offered-position=left offered-kind=solid"};
}

}  // namespace casebound::mounts
