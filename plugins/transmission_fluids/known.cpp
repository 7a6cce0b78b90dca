#include "known.h"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "answer_parts.h"
#include "on_vehicle.h"

namespace casebound::transmission_fluids {

namespace {

struct Recorded {
    double value;
    Holds holds;
    std::string condition;
    SourceNote source;
};

std::vector<Recorded> recorded(const Wanted& wanted, const Services& services) {
    std::vector<Recorded> found;
    for (const auto& held : rows_on_vehicle(services, wanted.table))
        if (const auto value = held.row.number(wanted.column))
            found.push_back({*value, held.holds, std::string(held.row.text("condition")), source_of(held.row)});
    return found;
}

AnswerLine line_for(const Wanted& wanted, const Recorded& record) {
    std::string label{wanted.label};
    if (record.holds == Holds::open) label += " where " + record.condition;
    return line(std::move(label), record.value, std::string(wanted.unit), wanted.decimals, record.source);
}

// Rows that differ: two that hold contradict each other; otherwise the vehicle is not known well enough.
void say_that_they_differ(const Wanted& wanted, const std::vector<Recorded>& records, Answer& answer) {
    std::set<double> sure;
    for (const auto& record : records) {
        answer.lines.push_back(line_for(wanted, record));
        if (record.holds == Holds::yes) sure.insert(record.value);
    }
    lower(answer, sure.size() > 1 ? Verdict::sources_disagree : Verdict::check_first);
    answer.next.push_back("Find out which record holds for this vehicle, or give " + std::string(wanted.input) + ": " +
                          std::string(wanted.how));
}

double use(const Wanted& wanted, const std::vector<Recorded>& records, Answer& answer) {
    const auto sure = std::find_if(records.begin(), records.end(),
                                   [](const Recorded& r) { return r.holds == Holds::yes; });
    const Recorded& record = sure != records.end() ? *sure : records.front();
    answer.lines.push_back(line_for(wanted, record));
    if (record.holds == Holds::open) {
        answer.assumptions.push_back(std::string(wanted.label) + ": the record counts where " + record.condition +
                                     ", which is not known yet");
        lower(answer, Verdict::check_first);
    }
    return record.value;
}

std::optional<double> look_up(const Wanted& wanted, const Given& given, const Services& services, Answer& answer,
                              bool needed) {
    if (const auto value = given.maybe_number(wanted.input)) return value;
    const auto records = wanted.table.empty() ? std::vector<Recorded>{} : recorded(wanted, services);
    if (records.empty()) {
        if (needed) missing(answer, wanted.input, wanted.how);
        return std::nullopt;
    }
    const bool agreed = std::all_of(records.begin(), records.end(),
                                    [&](const Recorded& r) { return r.value == records.front().value; });
    if (agreed) return use(wanted, records, answer);
    if (needed) say_that_they_differ(wanted, records, answer);
    return std::nullopt;
}

}  // namespace

std::optional<double> known_number(const Wanted& wanted, const Given& given, const Services& services, Answer& answer) {
    return look_up(wanted, given, services, answer, true);
}

std::optional<double> known_number_if_any(const Wanted& wanted, const Given& given, const Services& services,
                                          Answer& answer) {
    return look_up(wanted, given, services, answer, false);
}

std::optional<double> most_recorded(const Wanted& wanted, const Services& services) {
    std::optional<double> most;
    for (const auto& record : recorded(wanted, services)) most = std::max(most.value_or(record.value), record.value);
    return most;
}

std::string open_condition(const Wanted& wanted, const Given& given, const Services& services) {
    if (given.has(wanted.input)) return "";
    const auto records = recorded(wanted, services);
    const bool sure = std::any_of(records.begin(), records.end(),
                                  [](const Recorded& r) { return r.holds == Holds::yes; });
    return sure || records.empty() ? "" : records.front().condition;
}

std::optional<std::string> recorded_text(const Services& services, std::string_view table, std::string_view column) {
    const auto rows = rows_on_vehicle(services, table);
    if (rows.empty() || rows.front().row.text(column).empty()) return std::nullopt;
    const std::string text{rows.front().row.text(column)};
    const bool agreed = std::all_of(rows.begin(), rows.end(),
                                    [&](const HeldRow& held) { return held.row.text(column) == text; });
    return agreed ? std::optional(text) : std::nullopt;
}

}  // namespace casebound::transmission_fluids
