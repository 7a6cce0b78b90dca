#include "on_vehicle.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>

namespace casebound::transmission_fluids {

namespace {

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::vector<std::string_view> parts(std::string_view text, char separator) {
    std::vector<std::string_view> found;
    for (std::size_t start = 0; start <= text.size();) {
        const auto end = std::min(text.find(separator, start), text.size());
        found.push_back(trimmed(text.substr(start, end - start)));
        start = end + 1;
    }
    return found;
}

Holds opposite(Holds holds) { return holds == Holds::yes ? Holds::no : holds == Holds::no ? Holds::yes : Holds::open; }

struct Written {
    double number;
    std::string_view unit;
};

std::optional<Written> written_number(std::string_view text) {
    Written written{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), written.number);
    if (error != std::errc()) return std::nullopt;
    written.unit = trimmed(text.substr(static_cast<std::size_t>(end - text.data())));
    return written;
}

// "2006-09" as year * 12 + month - 1, as a PossibleValue counts months.
std::optional<double> month_number(std::string_view text) {
    int year = 0, month = 0;
    if (text.size() != 7 || text[4] != '-') return std::nullopt;
    const char* const at = text.data();
    if (std::from_chars(at, at + 4, year).ptr != at + 4) return std::nullopt;
    if (std::from_chars(at + 5, at + 7, month).ptr != at + 7) return std::nullopt;
    return year * 12 + month - 1;
}

// `text` of a condition on the scale of `value`; nothing when it is in another unit.
std::optional<double> on_scale_of(const PossibleValue& value, std::string_view text) {
    if (month_number(value.text)) return month_number(text);
    const auto recorded = written_number(value.text);
    const auto asked = written_number(text);
    if (!recorded || !asked) return std::nullopt;
    if (!asked->unit.empty() && asked->unit != recorded->unit) return std::nullopt;
    return asked->number;
}

struct Bounds {
    std::string_view low, high;  // empty: open
    bool low_excluded = false, high_excluded = false;
};

Bounds span_of(std::string_view text) {
    const auto dots = text.find("..");
    if (dots == std::string_view::npos) return {text, text};
    return {trimmed(text.substr(0, dots)), trimmed(text.substr(dots + 2))};
}

bool same_ends(const Bounds& bounds) { return !bounds.low.empty() && bounds.low == bounds.high; }

// At least `low`, or more; seen from the other side, at most `high`.
Holds not_below(double value, double low, bool excluded) {
    const double slack = 1e-9 * std::max(1.0, std::abs(value));
    return (excluded ? value > low + slack : value >= low - slack) ? Holds::yes : Holds::no;
}

Holds within(const PossibleValue& value, const Bounds& bounds) {
    if (!value.number) return same_ends(bounds) && bounds.low == value.text ? Holds::yes : Holds::no;
    if (same_ends(bounds) && bounds.low == "none") return Holds::no;
    Holds holds = Holds::yes;
    for (const bool upper : {false, true}) {
        const auto text = upper ? bounds.high : bounds.low;
        if (text.empty()) continue;
        const auto end = on_scale_of(value, text);
        if (!end) return Holds::open;
        const double sign = upper ? -1 : 1;
        const bool excluded = upper ? bounds.high_excluded : bounds.low_excluded;
        holds = std::min(holds, not_below(sign * *value.number, sign * *end, excluded));
    }
    return holds;
}

struct Term {
    std::string_view attribute;
    bool negated = false;
    std::vector<Bounds> spans;
};

Term read_term(std::string_view text) {
    Term term;
    term.negated = text.substr(0, 4) == "not ";
    if (term.negated) text = trimmed(text.substr(4));
    const auto at = std::min(text.find_first_of("=<>"), text.size());
    term.attribute = trimmed(text.substr(0, at));
    const std::string_view tail = text.substr(at);
    if (tail.empty()) return term;
    if (tail.front() == '=') {
        for (const auto part : parts(tail.substr(1), '|')) term.spans.push_back(span_of(part));
        return term;
    }
    const bool inclusive = tail.size() > 1 && tail[1] == '=';
    const auto end = trimmed(tail.substr(inclusive ? 2 : 1));
    if (tail.front() == '<') term.spans.push_back({{}, end, false, !inclusive});
    else term.spans.push_back({end, {}, !inclusive, false});
    return term;
}

Holds holds_for(const Term& term, const PossibleValue& value) {
    Holds any = Holds::no;
    for (const Bounds& bounds : term.spans) any = std::max(any, within(value, bounds));
    return term.negated ? opposite(any) : any;
}

Holds holds_for(const Term& term, const VehicleView& vehicle) {
    const auto values = vehicle.possible(term.attribute);
    if (values.empty() || term.spans.empty()) return Holds::open;
    const Holds first = holds_for(term, values.front());
    const bool agreed = std::all_of(values.begin(), values.end(),
                                    [&](const PossibleValue& value) { return holds_for(term, value) == first; });
    return agreed ? first : Holds::open;
}

}  // namespace

Holds holds_on(std::string_view condition, const VehicleView& vehicle) {
    Holds holds = Holds::yes;
    if (trimmed(condition).empty()) return holds;
    for (const auto part : parts(condition, ';')) holds = std::min(holds, holds_for(read_term(part), vehicle));
    return holds;
}

std::vector<HeldRow> rows_on_vehicle(const Services& services, std::string_view table) {
    std::vector<HeldRow> held;
    if (services.vehicle == nullptr) return held;
    for (auto& row : services.facts.rows(table, "line", services.vehicle->line())) {
        const Holds holds = holds_on(row.text("condition"), *services.vehicle);
        if (holds != Holds::no) held.push_back({std::move(row), holds});
    }
    return held;
}

}  // namespace casebound::transmission_fluids
