#include "science/codes.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <tuple>
#include <utility>

#include "core/contract/text.h"

namespace casebound::solenoids {
namespace {

using Number = std::uint16_t;

constexpr std::array<std::string_view, 14> function_words{"transmission control system",
                                                          "actuator supply",
                                                          "range sensor",
                                                          "fluid temperature sensor",
                                                          "input speed",
                                                          "output speed",
                                                          "engine speed",
                                                          "gear ratio",
                                                          "converter clutch",
                                                          "pressure control solenoid",
                                                          "shift solenoid",
                                                          "shift",
                                                          "shift timing solenoid",
                                                          "intermediate speed"};
constexpr std::array<std::string_view, 13> class_words{"circuit",
                                                       "performance or stuck off",
                                                       "stuck on",
                                                       "electrical",
                                                       "intermittent",
                                                       "incorrect ratio",
                                                       "supply open",
                                                       "look in the transmission controller",
                                                       "range or performance",
                                                       "low",
                                                       "high",
                                                       "no signal",
                                                       "malfunction"};
constexpr std::array<std::string_view, 4> evidence_words{"published lists of SAE J2012 / ISO 15031-6 agree",
                                                         "one published list only", "a maker's text", "from memory"};

using Classes = std::array<CodeClass, 5>;
constexpr Classes solenoid_classes{CodeClass::circuit, CodeClass::stuck_off, CodeClass::stuck_on, CodeClass::electrical,
                                   CodeClass::intermittent};
constexpr Classes sensor_classes{CodeClass::circuit, CodeClass::range_performance, CodeClass::low, CodeClass::high,
                                 CodeClass::intermittent};
constexpr Classes speed_classes{CodeClass::circuit, CodeClass::range_performance, CodeClass::no_signal,
                                CodeClass::intermittent, CodeClass::intermittent};

// A run of consecutive numbers that differ only in the class.
struct Family {
    Number first;
    Number count;
    Function function;
    std::string_view which;
    const Classes* classes;
    CodeEvidence evidence;
};

constexpr auto agree = CodeEvidence::lists_agree;
constexpr auto memory = CodeEvidence::from_memory;

// Where the lists differ (P0721 to P0723) the reading is from memory.
constexpr std::array<Family, 18> families{{
    {0x0705, 5, Function::range_sensor, "", &sensor_classes, agree},
    {0x0710, 5, Function::fluid_temperature, "", &sensor_classes, agree},
    {0x0715, 4, Function::input_speed, "", &speed_classes, agree},
    {0x0720, 1, Function::output_speed, "", &speed_classes, agree},
    {0x0725, 4, Function::engine_speed, "", &speed_classes, agree},
    {0x0740, 5, Function::converter_clutch, "", &solenoid_classes, agree},
    {0x0745, 5, Function::pressure_control, "A", &solenoid_classes, agree},
    {0x0775, 5, Function::pressure_control, "B", &solenoid_classes, agree},
    {0x0795, 5, Function::pressure_control, "C", &solenoid_classes, agree},
    {0x0750, 5, Function::shift_solenoid, "A", &solenoid_classes, agree},
    {0x0755, 5, Function::shift_solenoid, "B", &solenoid_classes, agree},
    {0x0760, 5, Function::shift_solenoid, "C", &solenoid_classes, agree},
    {0x0765, 5, Function::shift_solenoid, "D", &solenoid_classes, agree},
    {0x0770, 5, Function::shift_solenoid, "E", &solenoid_classes, agree},
    {0x0785, 5, Function::shift_timing, "A", &sensor_classes, agree},
    {0x0791, 4, Function::intermediate_speed, "", &speed_classes, agree},
    {0x075A, 5, Function::shift_solenoid, "G", &solenoid_classes, CodeEvidence::one_list},
    {0x076A, 5, Function::shift_solenoid, "H", &solenoid_classes, CodeEvidence::one_list},
}};

struct Single {
    Number number;
    Function function;
    std::string_view which;
    CodeClass kind;
    CodeEvidence evidence;
};

constexpr std::array<Single, 20> singles{{
    {0x0657, Function::actuator_supply, "", CodeClass::supply_open, CodeEvidence::makers_text},
    {0x0700, Function::control_system, "", CodeClass::request, memory},
    {0x0701, Function::control_system, "", CodeClass::range_performance, agree},
    {0x0702, Function::control_system, "", CodeClass::electrical, agree},
    {0x0721, Function::output_speed, "", CodeClass::range_performance, memory},
    {0x0722, Function::output_speed, "", CodeClass::no_signal, memory},
    {0x0723, Function::output_speed, "", CodeClass::intermittent, memory},
    {0x0729, Function::gear_ratio, "6", CodeClass::ratio, agree},
    {0x0730, Function::gear_ratio, "", CodeClass::ratio, agree},
    {0x0731, Function::gear_ratio, "1", CodeClass::ratio, agree},
    {0x0732, Function::gear_ratio, "2", CodeClass::ratio, agree},
    {0x0733, Function::gear_ratio, "3", CodeClass::ratio, agree},
    {0x0734, Function::gear_ratio, "4", CodeClass::ratio, agree},
    {0x0735, Function::gear_ratio, "5", CodeClass::ratio, agree},
    {0x0736, Function::gear_ratio, "R", CodeClass::ratio, agree},
    {0x0780, Function::shift_quality, "", CodeClass::shift, agree},
    {0x0781, Function::shift_quality, "1-2", CodeClass::shift, agree},
    {0x0782, Function::shift_quality, "2-3", CodeClass::shift, agree},
    {0x0783, Function::shift_quality, "3-4", CodeClass::shift, agree},
    {0x0784, Function::shift_quality, "4-5", CodeClass::shift, agree},
}};

bool is_solenoid(Function function) {
    return function == Function::converter_clutch || function == Function::pressure_control ||
           function == Function::shift_solenoid || function == Function::shift_timing;
}

bool is_electrical(CodeClass kind) {
    return kind == CodeClass::circuit || kind == CodeClass::electrical || kind == CodeClass::intermittent ||
           kind == CodeClass::low || kind == CodeClass::high;
}

std::optional<Meaning> from_family(Family family, Number number) {
    if (number < family.first || number >= family.first + family.count) return std::nullopt;
    const auto index = static_cast<std::size_t>(number - family.first);
    return Meaning{family.function, std::string(family.which), family.classes->at(index), family.evidence};
}

std::optional<Meaning> from_singles(Number number) {
    const auto found = std::find_if(singles.begin(), singles.end(),
                                    [number](const Single& one) { return one.number == number; });
    if (found == singles.end()) return std::nullopt;
    return Meaning{found->function, std::string(found->which), found->kind, found->evidence};
}

char upper(char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); }

bool contains(const std::vector<Circuit>& circuits, const Circuit& one) {
    return std::find(circuits.begin(), circuits.end(), one) != circuits.end();
}

SuspectNode weigh(const WiringNode& node, const std::vector<Circuit>& failed) {
    SuspectNode weighed{node.name, 0, 0, 0};
    for (const Circuit& one : failed) ++(contains(node.circuits, one) ? weighed.failed_on : weighed.failed_off);
    for (const Circuit& one : node.circuits)
        if (!contains(failed, one)) ++weighed.silent_on;
    return weighed;
}

}  // namespace

std::optional<Code> read_code(std::string_view text) {
    text = trimmed(text);
    if (text.size() != 5) return std::nullopt;
    const char system = upper(text.front());
    const char second = text[1];
    if (std::string_view("PCBU").find(system) == std::string_view::npos) return std::nullopt;
    if (second < '0' || second > '3') return std::nullopt;
    Number number = 0;
    const char* last = text.data() + text.size();
    const auto [end, error] = std::from_chars(text.data() + 1, last, number, 16);
    if (error != std::errc{} || end != last) return std::nullopt;
    return Code{system, number};
}

std::string code_text(Code code) {
    std::string text{code.system};
    for (int shift : {12, 8, 4, 0}) text += "0123456789ABCDEF"[(code.number >> shift) & 0xF];
    return text;
}

bool is_makers_own(Code code) {
    const int second = code.number >> 12;
    if (code.system == 'P' && second == 3) return ((code.number >> 8) & 0xF) <= 3;
    return second == 1;
}

std::string_view word(Function function) { return function_words.at(static_cast<std::size_t>(function)); }
std::string_view word(CodeClass kind) { return class_words.at(static_cast<std::size_t>(kind)); }
std::string_view word(CodeEvidence evidence) { return evidence_words.at(static_cast<std::size_t>(evidence)); }

std::optional<Meaning> meaning(Code code) {
    if (code.system != 'P') return std::nullopt;
    for (const Family& family : families)
        if (auto found = from_family(family, code.number)) return found;
    return from_singles(code.number);
}

std::string in_words(const Meaning& meaning) {
    std::string text(word(meaning.function));
    if (!meaning.which.empty()) text += " " + meaning.which;
    return text + ", " + std::string(word(meaning.kind));
}

std::string described(Code code) {
    const auto known = meaning(code);
    return code_text(code) + ": " + (known ? in_words(*known) : "not recorded");
}

std::optional<Code> shift_solenoid_code(char letter, CodeClass kind) {
    const auto at = std::find(solenoid_classes.begin(), solenoid_classes.end(), kind);
    const std::string which{upper(letter)};
    if (at == solenoid_classes.end() || which < "A" || which > "E") return std::nullopt;
    for (const Family& family : families)
        if (family.function == Function::shift_solenoid && family.which == which)
            return Code{'P', static_cast<Number>(family.first + (at - solenoid_classes.begin()))};
    return std::nullopt;
}

std::vector<Cause> where_to_look(CodeClass kind) {
    switch (kind) {
        case CodeClass::supply_open: return {Cause::shared_feed, Cause::controller};
        case CodeClass::circuit:
        case CodeClass::electrical:
        case CodeClass::intermittent:
        case CodeClass::low:
        case CodeClass::high: return {Cause::shared_feed, Cause::internal_plate, Cause::coil, Cause::controller};
        case CodeClass::stuck_off:
        case CodeClass::stuck_on: return {Cause::fluid, Cause::valve_or_debris, Cause::clutch_or_seal};
        case CodeClass::ratio: return {Cause::fluid, Cause::clutch_or_seal, Cause::valve_or_debris, Cause::controller};
        case CodeClass::range_performance:
        case CodeClass::no_signal: return {Cause::controller, Cause::shared_feed, Cause::internal_plate};
        case CodeClass::request:
        case CodeClass::shift: break;
    }
    return {};
}

std::vector<Circuit> failed_circuits(const std::vector<Code>& codes) {
    std::vector<Circuit> failed;
    for (const Code code : codes) {
        const auto known = meaning(code);
        if (!known || !is_solenoid(known->function) || !is_electrical(known->kind)) continue;
        Circuit circuit{known->function, known->which};
        if (!contains(failed, circuit)) failed.push_back(std::move(circuit));
    }
    return failed;
}

SharedSuspicion shared_suspicion(const std::vector<Code>& codes) {
    constexpr Code supply{'P', 0x0657};
    if (std::find(codes.begin(), codes.end(), supply) != codes.end()) return SharedSuspicion::supply_reported;
    return failed_circuits(codes).size() > 1 ? SharedSuspicion::several_circuits : SharedSuspicion::none;
}

std::vector<SuspectNode> suspect_nodes(const std::vector<Code>& codes, const std::vector<WiringNode>& nodes) {
    const auto failed = failed_circuits(codes);
    std::vector<SuspectNode> suspects;
    for (const WiringNode& node : nodes)
        if (auto weighed = weigh(node, failed); weighed.failed_on > 1) suspects.push_back(std::move(weighed));
    std::sort(suspects.begin(), suspects.end(), [](const SuspectNode& a, const SuspectNode& b) {
        return std::tie(b.failed_on, a.silent_on, a.name) < std::tie(a.failed_on, b.silent_on, b.name);
    });
    return suspects;
}

}  // namespace casebound::solenoids
