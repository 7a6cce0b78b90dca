#include "core/session/inquiry.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

// Some domains write their inputs with `-`, some with `_`: a person need not remember which.
bool same_name(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return x == y || ((x == '-' || x == '_') && (y == '-' || y == '_')); });
}

std::vector<std::string> list_parts(const std::string& text) {
    std::vector<std::string> parts;
    std::string part;
    for (const char c : text + ",") {
        if (c != ',' && c != ';') {
            part += c;
            continue;
        }
        const auto first = part.find_first_not_of(' ');
        if (first != std::string::npos) parts.push_back(part.substr(first, part.find_last_not_of(' ') - first + 1));
        part.clear();
    }
    return parts;
}

double number_in(const Input& input, const std::string& text) {
    double value = 0;
    try {
        value = quantity_in(text, input.unit);
    } catch (const UnitFault& fault) {
        throw Error(Exit::bad_data, fmt::format("{}: {}", dashed(input.name), fault.what()));
    }
    if (input.whole && value != std::floor(value))
        throw Error(Exit::bad_data,
                    fmt::format("{}: got {}: it is counted, in whole numbers", dashed(input.name), text));
    if (!(value >= input.min && value <= input.max))
        throw Error(Exit::bad_data,
                    fmt::format("{}: got {}: valid range is {}", dashed(input.name), text, range_text(input)));
    return value;
}

// "in gear" and "in-gear" are in_gear.
std::string choice_in(const Input& input, const std::string& text) {
    auto meant = text;
    std::replace_if(
        meant.begin(), meant.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
    for (const auto& choice : {text, meant})
        if (std::find(input.choices.begin(), input.choices.end(), choice) != input.choices.end()) return choice;
    const auto near = nearest(text, input.choices);
    throw Error(Exit::bad_data,
                fmt::format("{}: got {}: {}", dashed(input.name), text,
                            near.empty() ? spaced(fmt::format("one of {}", fmt::join(input.choices, ", ")))
                                         : fmt::format("did you mean {}?", spaced(near))));
}

GivenValue typed(const Input& input, const std::string& text) {
    GivenValue value;
    value.text = text;
    switch (input.kind) {
        case Input::Kind::number: value.numbers = {number_in(input, text)}; break;
        case Input::Kind::number_list:
            for (const auto& part : list_parts(text)) value.numbers.push_back(number_in(input, part));
            break;
        case Input::Kind::text_list: value.items = list_parts(text); break;
        case Input::Kind::yes_no:
            if (text != "yes" && text != "no")
                throw Error(Exit::bad_data, fmt::format("{}: got {}: say yes or no", dashed(input.name), text));
            break;
        case Input::Kind::choice: value.text = choice_in(input, text); break;
        case Input::Kind::date:
            if (text == "today") value.text = today();
            else if (!is_date(text))
                throw Error(Exit::bad_data,
                            fmt::format("{}: got {}: write a date as 2026-11-25", dashed(input.name), text));
            break;
        case Input::Kind::text: break;
    }
    return value;
}

class Filling {
public:
    Filling(const Inquiry& inquiry, const Services& services, Given& given)
        : inquiry_(inquiry), services_(services), given_(given) {}

    void by_hand(const std::vector<std::pair<std::string, std::string>>& named) {
        std::vector<std::string> names;
        for (const auto& input : inquiry_.inputs) names.push_back(dashed(input.name));
        for (const auto& [name, text] : named) {
            const auto found = std::find_if(
                inquiry_.inputs.begin(), inquiry_.inputs.end(),
                [&, &name = name](const Input& input) { return same_name(input.name, name); });
            if (found == inquiry_.inputs.end()) {
                const auto near = nearest(name, names);
                faults_.push_back(fmt::format("{}: no such input of {}: {}", name, inquiry_.name,
                                              near.empty() ? fmt::format("it takes {}", fmt::join(names, ", "))
                                                           : fmt::format("did you mean {}?", near)));
                exit_ = Exit::usage;
            } else {
                take(*found, text, From::by_hand, {Evidence::measured, "given"}, false);
            }
        }
    }

    // What the vehicle already says: told, or the single value still possible.
    void from_vehicle(const Input& input) {
        const auto* vehicle = services_.vehicle;
        if (has(input) || !vehicle || input.attribute.empty()) return;
        if (const auto told = told_of(vehicle, input.attribute)) {
            const auto text = input.kind == Input::Kind::text_list ? listed(told->seen()) : told->text;
            return take(input, text, From::told,
                        {evidence_of(told->evidence), fmt::format("told of {}: {} {}", vehicle->name(),
                                                                  tell_evidence_words(told->evidence), told->date)},
                        is_hearsay(told->evidence));
        }
        const auto possible = vehicle->possible(input.attribute);
        if (possible.size() == 1)
            take(input, possible[0].text, From::left,
                 {vehicle->left_rests_on(), fmt::format("every version of {} still possible", vehicle->name())}, false);
    }

    // Of rows that may hold and do not differ, one that surely holds; of those that differ, none.
    void from_rows(const Input& input) {
        if (has(input) || !input.recorded) return;
        std::vector<GivenValue> found;
        for (const auto& held : rows(*input.recorded))
            if (held->stated(input.recorded->column)) found.push_back(recorded(input, held));
        const auto sure = [](const GivenValue& value) { return value.only_where.empty(); };
        const bool agree = std::all_of(found.begin(), found.end(), [&](const GivenValue& value) {
            return value.text == found.front().text && value.numbers == found.front().numbers;
        });
        if (found.empty()) return;
        if (!agree) given_.undecided[input.name] = std::move(found);
        else {
            const auto first = std::find_if(found.begin(), found.end(), sure);
            given_.values[input.name] = first == found.end() ? found.front() : *first;
        }
    }

    void fall_back(const Input& input) {
        if (has(input)) return;
        const bool faulty = std::any_of(faults_.begin(), faults_.end(), [&](const std::string& f) {
            return f.rfind(dashed(input.name) + ":", 0) == 0;
        });
        if (!input.fallback.empty()) {
            take(input, input.fallback, From::assumed, {Evidence::memory, "assumed"}, true);
        } else if (input.required && !faulty && !given_.undecided.contains(input.name)) {
            faults_.push_back(fmt::format("{}: missing: {}{}", dashed(input.name), input.title,
                                          input.unit.empty() ? "" : fmt::format(", in {}", unit_words(input.unit))));
            exit_ = Exit::usage;
        }
    }

    // A group or item that is named must have its row.
    void check_key(const Input& input) {
        if (input.key_of.empty() || !has(input)) return;
        const auto& value = given_.values.find(input.name)->second.text;
        if (!row_of_group(services_.facts, input.key_of, value))
            faults_.push_back(fmt::format("{}: nothing is recorded of {} ({}): give the measurements by hand",
                                          dashed(input.name), value, input.title));
    }

    void refuse_if_any() const {
        if (!faults_.empty()) throw Error(exit_, faults_);
    }

private:
    bool has(const Input& input) const { return given_.values.contains(input.name); }

    void take(const Input& input, const std::string& text, From from, SourceNote source, bool hearsay) {
        try {
            auto value = typed(input, text);
            value.from = from;
            value.source = std::move(source);
            value.hearsay = hearsay;
            given_.values[input.name] = std::move(value);
        } catch (const Error& error) { faults_.push_back(error.what()); }
    }

    std::vector<HeldRow> rows(const Recorded& recorded) const {
        std::vector<HeldRow> held;
        const auto key = std::find_if(inquiry_.inputs.begin(), inquiry_.inputs.end(),
                                      [&](const Input& input) { return input.key_of == recorded.table && has(input); });
        if (key != inquiry_.inputs.end()) {
            const auto& value = given_.values.find(key->name)->second.text;
            if (const auto* row = row_of_group(services_.facts, recorded.table, value))
                held.push_back({row, Holds::yes});
        } else if (const auto& all = services_.facts.rows(recorded.table); !all.empty() && all.front().has("line")) {
            held = rows_here(services_, recorded.table);
        }
        std::erase_if(held, [&](const HeldRow& one) {
            return std::any_of(recorded.match.begin(), recorded.match.end(), [&](const auto& pair) {
                const auto value = given_.values.find(pair.second);
                return value == given_.values.end() || one->text(pair.first) != value->second.text;
            });
        });
        return held;
    }

    GivenValue recorded(const Input& input, const HeldRow& held) const {
        const auto& column = input.recorded->column;
        GivenValue value;
        value.text = held->text(column);
        if (input.kind == Input::Kind::number || input.kind == Input::Kind::number_list)
            value.numbers = {held->need_number(column)};
        if (input.kind == Input::Kind::text_list) value.items = list_parts(value.text);
        value.from = From::recorded;
        value.source = row_source(*held);
        if (held.holds != Holds::yes) value.only_where = held->text("condition");
        return value;
    }

    const Inquiry& inquiry_;
    const Services& services_;
    Given& given_;
    std::vector<std::string> faults_;
    Exit exit_ = Exit::bad_data;
};

AnswerLine line_of(const Input& input, const GivenValue& value) {
    AnswerLine line{input.title, value.text, value.source};
    if (!value.numbers.empty()) {
        const auto text = plain_number(value.numbers[0]);
        const auto point = text.find('.');
        line.value = Measure{value.numbers[0], input.unit,
                             point == std::string::npos ? 0 : static_cast<int>(text.size() - point - 1)};
    }
    if (!value.only_where.empty()) line.label += " where " + value.only_where;
    return line;
}

// What came from the pack is shown with its row; records that differ, or may not hold, weaken the answer.
void say_recorded(InquiryRun& run, const Inquiry& inquiry) {
    std::vector<AnswerLine> lines;
    for (const auto& input : inquiry.inputs) {
        if (!run.given.asked().contains(input.name)) continue;
        if (const auto value = run.given.values.find(input.name);
            value != run.given.values.end() && value->second.from == From::recorded) {
            lines.push_back(line_of(input, value->second));
            if (value->second.only_where.empty()) continue;
            run.answer.assumptions.push_back(fmt::format("{}: the record counts where {}, which is not known yet",
                                                         input.title, value->second.only_where));
            run.answer.lower(Verdict::check_first);
        }
        const auto undecided = run.given.undecided.find(input.name);
        if (undecided == run.given.undecided.end()) continue;
        std::set<std::string> sure;
        for (const auto& value : undecided->second) {
            lines.push_back(line_of(input, value));
            if (value.only_where.empty()) sure.insert(value.text);
        }
        if (input.how.empty()) continue;  // it can do without
        run.answer.lower(sure.size() > 1 ? Verdict::sources_disagree : Verdict::check_first);
        run.answer.next.push_back(
            fmt::format("Find out which record holds for this vehicle, or give {}: {}", dashed(input.name), input.how));
    }
    run.answer.lines.insert(run.answer.lines.begin(), lines.begin(), lines.end());
}

Evidence weakest_of(const InquiryRun& run) {
    Evidence weakest = Evidence::law;
    for (const auto& line : run.answer.lines) weakest = weaker(weakest, line.source.evidence);
    for (const auto& name : run.given.asked())
        if (const auto value = run.given.values.find(name); value != run.given.values.end())
            weakest = weaker(weakest, value->second.source.evidence);
    return weakest;
}

Answer not_answered(const std::string& failure) {
    auto answer = Answer::judging(Verdict::not_answered);
    answer.headline = fmt::format("{}.", failure);
    answer.next = {"Tell whoever made the domain; every other domain still answers."};
    return answer;
}

}  // namespace

std::string range_text(const Input& input) {
    const auto unit = input.unit.empty() ? "" : " " + unit_words(input.unit);
    if (std::isinf(input.min) && std::isinf(input.max)) return "any number" + unit;
    if (std::isinf(input.max)) return fmt::format("{}{} or more", plain_number(input.min), unit);
    if (std::isinf(input.min)) return fmt::format("up to {}{}", plain_number(input.max), unit);
    return fmt::format("{} to {}{}", plain_number(input.min), plain_number(input.max), unit);
}

InquiryRun run_inquiry_with(const GuardedDomain& domain, const Inquiry& inquiry,
                            const std::vector<std::pair<std::string, std::string>>& named, const Services& services) {
    Given given;
    Filling filling(inquiry, services, given);
    filling.by_hand(named);
    for (const auto& input : inquiry.inputs) filling.from_vehicle(input);
    // What is taken unless something else is said may say which record is meant, and so comes before the records.
    for (const auto& input : inquiry.inputs)
        if (!input.recorded) filling.fall_back(input);
    try {
        for (const auto& input : inquiry.inputs) filling.check_key(input);
        for (const auto& input : inquiry.inputs) filling.from_rows(input);
    } catch (const std::logic_error& error) {  // a table, column or cell that its input names and that is not there
        return {std::move(given), not_answered(fmt::format("{} failed in the inputs of {}: {}", domain.name(),
                                                           inquiry.name, error.what()))};
    }
    for (const auto& input : inquiry.inputs) filling.fall_back(input);
    filling.refuse_if_any();
    try {
        auto asked = domain.run(inquiry, given, services);
        if (!asked) return {std::move(given), not_answered(asked.failure)};
        InquiryRun run{std::move(given), std::move(*asked)};
        say_recorded(run, inquiry);
        run.weakest = weakest_of(run);
        return run;
    } catch (const std::domain_error& error) {
        const std::string what = error.what(), who = inquiry.name + ": ";
        throw Error(Exit::bad_data, what.rfind(who, 0) == 0 ? what : who + what);
    }
}

}  // namespace casebound
