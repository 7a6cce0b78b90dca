#include "rows/where.h"

#include <algorithm>
#include <cstdlib>
#include <string>

namespace casebound::mounts {
namespace {

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(' ');
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

template <class Each> void split(std::string_view text, char separator, Each each) {
    for (;;) {
        const auto end = text.find(separator);
        each(trimmed(text.substr(0, end)));
        if (end == std::string_view::npos) return;
        text.remove_prefix(end + 1);
    }
}

struct Quantity {
    double number;
    std::string_view unit;  // as written; "" means the attribute's own
};

// A month counts as year * 12 + month - 1.
std::optional<Quantity> quantity_of(std::string_view text) {
    const std::string whole(text);
    char* end = nullptr;
    const double number = std::strtod(whole.c_str(), &end);
    if (end == whole.c_str()) return std::nullopt;
    if (*end == '-' && whole.size() == 7) return Quantity{number * 12 + std::atof(end + 1) - 1, ""};
    return Quantity{number, trimmed(text.substr(static_cast<std::size_t>(end - whole.c_str())))};
}

// The number of `text` in the unit of `value`; nothing where that would need a conversion.
std::optional<double> number_for(const PossibleValue& value, std::string_view text) {
    const auto wanted = quantity_of(text), shown = quantity_of(value.text);
    if (!wanted || !value.number) return std::nullopt;
    if (!wanted->unit.empty() && shown && wanted->unit != shown->unit) return std::nullopt;
    return wanted->number;
}

bool is_range(std::string_view text) { return text.find("..") != std::string_view::npos; }

std::optional<bool> in_span(std::string_view span, const PossibleValue& value) {
    if (value.text == span) return true;
    if (!is_range(span)) {
        if (!value.number) return false;
        const auto wanted = number_for(value, span);
        return wanted ? std::optional(*wanted == *value.number) : std::nullopt;
    }
    const auto dots = span.find("..");
    const auto low = span.substr(0, dots), high = span.substr(dots + 2);
    const auto from = number_for(value, low), to = number_for(value, high);
    if ((!from && !low.empty()) || (!to && !high.empty())) return std::nullopt;
    return (!from || *value.number >= *from) && (!to || *value.number <= *to);
}

std::optional<bool> compares(char op, bool or_equal, std::string_view right, const PossibleValue& value) {
    const auto bound = number_for(value, right);
    if (!bound) return std::nullopt;
    if (or_equal && *value.number == *bound) return true;
    return op == '<' ? *value.number < *bound : *value.number > *bound;
}

std::optional<bool> term_holds(std::string_view op, std::string_view right, const PossibleValue& value) {
    if (op != "=") return compares(op[0], op.size() == 2, right, value);
    std::optional<bool> any = false;
    split(right, '|', [&](std::string_view span) {
        const auto one = in_span(span, value);
        if (!one) any = any && *any ? any : std::nullopt;
        else if (*one) any = true;
    });
    return any;
}

Applies term_applies(std::string_view term, const VehicleView& vehicle) {
    const bool negated = term.starts_with("not ");
    if (negated) term = trimmed(term.substr(4));
    const auto at = term.find_first_of("=<>");
    if (at == std::string_view::npos) return Applies::cannot_tell;
    const std::size_t length = term[at] != '=' && at + 1 < term.size() && term[at + 1] == '=' ? 2 : 1;
    bool some = false, none = false;
    for (const auto& value : vehicle.possible(trimmed(term.substr(0, at)))) {
        const auto holds = term_holds(term.substr(at, length), trimmed(term.substr(at + length)), value);
        if (!holds) return Applies::cannot_tell;
        (*holds != negated ? some : none) = true;
    }
    if (some == none) return Applies::cannot_tell;
    return some ? Applies::yes : Applies::no;
}

}  // namespace

Applies applies(std::string_view condition, const VehicleView* vehicle) {
    if (trimmed(condition).empty()) return Applies::yes;
    if (vehicle == nullptr) return Applies::cannot_tell;
    Applies all = Applies::yes;
    split(condition, ';', [&](std::string_view term) {
        const auto one = term_applies(term, *vehicle);
        if (one == Applies::no || all == Applies::no) all = Applies::no;
        else if (one == Applies::cannot_tell) all = Applies::cannot_tell;
    });
    return all;
}

std::vector<Row> rows_of_line(const Services& services, std::string_view table) {
    if (services.vehicle == nullptr) return {};
    auto rows = services.facts.rows(table, "line", services.vehicle->line());
    std::erase_if(rows,
                  [&](const Row& row) { return applies(row.text("condition"), services.vehicle) == Applies::no; });
    return rows;
}

std::string where_text(const Row& row, const VehicleView* vehicle) {
    const auto condition = row.text("condition");
    return applies(condition, vehicle) == Applies::yes ? "" : "where " + std::string(condition);
}

}  // namespace casebound::mounts
