#include "science/stages.h"

#include "core/contract/valid_range.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

namespace casebound::mounts {
namespace {

struct Unit {
    std::string_view text;
    StageKind kind;
    double factor;
};

constexpr std::array<Unit, 18> units{{
    {"N·m", StageKind::torque, 1.0},
    {"N.m", StageKind::torque, 1.0},
    {"N m", StageKind::torque, 1.0},
    {"Nm", StageKind::torque, 1.0},
    {"lbf·in", StageKind::torque, nm_per_lbf_in},
    {"lbf.in", StageKind::torque, nm_per_lbf_in},
    {"in·lb", StageKind::torque, nm_per_lbf_in},
    {"in.lb", StageKind::torque, nm_per_lbf_in},
    {"lbf in", StageKind::torque, nm_per_lbf_in},
    {"in lbf", StageKind::torque, nm_per_lbf_in},
    {"lbf·ft", StageKind::torque, nm_per_lbf_ft},
    {"lbf.ft", StageKind::torque, nm_per_lbf_ft},
    {"ft·lb", StageKind::torque, nm_per_lbf_ft},
    {"ft.lb", StageKind::torque, nm_per_lbf_ft},
    {"lbf ft", StageKind::torque, nm_per_lbf_ft},
    {"ft lbf", StageKind::torque, nm_per_lbf_ft},
    {"°", StageKind::angle, 1.0},
    {"deg", StageKind::angle, 1.0},
}};

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

const Unit* unit_named(std::string_view text) {
    const auto found = std::find_if(units.begin(), units.end(), [text](const Unit& unit) { return unit.text == text; });
    return found == units.end() ? nullptr : &*found;
}

Stage stage_of(StageKind kind, double amount) {
    return kind == StageKind::torque ? torque_stage(amount) : angle_stage(amount);
}

std::optional<Stage> read_stage(std::string_view text) {
    text = trimmed(text);
    double number = 0.0;
    const auto [rest, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{}) return std::nullopt;
    const auto length = static_cast<std::size_t>(rest - text.data());
    const Unit* unit = unit_named(trimmed(text.substr(length)));
    if (unit == nullptr) return std::nullopt;
    return stage_of(unit->kind, number * unit->factor);
}

std::string amount_text(double number) {
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed, 1);
    std::string result(text.data(), end.ptr);
    if (result.ends_with(".0")) result.erase(result.size() - 2);
    return result;
}

}  // namespace

bool operator==(const Stage& a, const Stage& b) { return a.kind == b.kind && a.amount == b.amount; }

Stage torque_stage(double torque_nm) { return {StageKind::torque, in_range("torque_nm", torque_nm, 0.1, 2000.0)}; }

Stage angle_stage(double angle_deg) { return {StageKind::angle, in_range("angle_deg", angle_deg, 1.0, 720.0)}; }

std::optional<std::vector<Stage>> read_stages(std::string_view text) {
    std::vector<Stage> stages;
    for (;;) {
        const auto plus = text.find('+');
        const auto stage = read_stage(text.substr(0, plus));
        if (!stage) return std::nullopt;
        stages.push_back(*stage);
        if (plus == std::string_view::npos) break;
        text.remove_prefix(plus + 1);
    }
    if (stages.front().kind == StageKind::angle) return std::nullopt;
    return stages;
}

std::string stages_text(const std::vector<Stage>& stages) {
    std::string text;
    for (const Stage& stage : stages) {
        if (!text.empty()) text += " + ";
        text += amount_text(stage.amount) + (stage.kind == StageKind::torque ? " N·m" : "°");
    }
    return text;
}

bool wants_new_bolts(const std::vector<Stage>& stages) {
    return std::any_of(stages.begin(), stages.end(), [](const Stage& stage) { return stage.kind == StageKind::angle; });
}

}  // namespace casebound::mounts
