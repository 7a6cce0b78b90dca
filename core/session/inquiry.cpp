#include "core/session/inquiry.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
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
    } catch (const UnitFault& fault) { throw Error(Exit::bad_data, fmt::format("{}: {}", input.name, fault.what())); }
    if (!(value >= input.min && value <= input.max))
        throw Error(Exit::bad_data, fmt::format("{}: got {}: valid range is {}", input.name, text, range_text(input)));
    return value;
}

GivenValue typed(const Input& input, const std::string& text, std::string origin) {
    GivenValue value{text, {}, {}, std::move(origin)};
    switch (input.kind) {
        case Input::Kind::number: value.numbers = {number_in(input, text)}; break;
        case Input::Kind::number_list:
            for (const auto& part : list_parts(text)) value.numbers.push_back(number_in(input, part));
            break;
        case Input::Kind::text_list: value.items = list_parts(text); break;
        case Input::Kind::yes_no:
            if (text != "yes" && text != "no")
                throw Error(Exit::bad_data, fmt::format("{}: got {}: say yes or no", input.name, text));
            break;
        case Input::Kind::choice:
            if (std::find(input.choices.begin(), input.choices.end(), text) == input.choices.end()) {
                const auto near = nearest(text, input.choices);
                throw Error(Exit::bad_data,
                            fmt::format("{}: got {}: {}", input.name, text,
                                        near.empty() ? fmt::format("one of {}", fmt::join(input.choices, ", "))
                                                     : fmt::format("did you mean {}?", near)));
            }
            break;
        case Input::Kind::date:
            if (text == "today") value.text = today();
            else if (!is_date(text))
                throw Error(Exit::bad_data, fmt::format("{}: got {}: write a date as 2026-11-25", input.name, text));
            break;
        case Input::Kind::text: break;
    }
    return value;
}

// What the vehicle already says: told, or the single value still possible.
std::optional<std::pair<std::string, std::string>> from_vehicle(const Input& input, const VehicleView* vehicle) {
    if (!vehicle || input.attribute.empty()) return std::nullopt;
    for (const auto& told : vehicle->told())
        if (told.attribute == input.attribute)
            return std::pair(
                input.kind == Input::Kind::text_list ? fmt::format("{}", fmt::join(told.seen(), ", ")) : told.text,
                fmt::format("told of {}: {} {}", vehicle->name(), told.evidence, told.date));
    const auto possible = vehicle->possible(input.attribute);
    if (possible.size() == 1)
        return std::pair(possible[0].text, fmt::format("every configuration of {} left", vehicle->name()));
    return std::nullopt;
}

}  // namespace

std::string range_text(const Input& input) {
    const auto unit = input.unit.empty() ? "" : " " + input.unit;
    if (std::isinf(input.min) && std::isinf(input.max)) return "any number";
    if (std::isinf(input.max)) return fmt::format("{}{} or more", plain_number(input.min), unit);
    if (std::isinf(input.min)) return fmt::format("up to {}{}", plain_number(input.max), unit);
    return fmt::format("{} to {}{}", plain_number(input.min), plain_number(input.max), unit);
}

InquiryRun run_inquiry_with(const Inquiry& inquiry, const std::vector<std::pair<std::string, std::string>>& named,
                            const Services& services) {
    InquiryRun run;
    std::vector<std::string> faults;
    Exit exit = Exit::bad_data;
    const auto take = [&](const Input& input, const std::string& text, std::string origin) {
        try {
            run.given.values[input.name] = typed(input, text, std::move(origin));
        } catch (const Error& error) { faults.push_back(error.what()); }
    };
    std::vector<std::string> names;
    for (const auto& input : inquiry.inputs) names.push_back(input.name);
    for (const auto& [name, text] : named) {
        const auto found = std::find_if(inquiry.inputs.begin(), inquiry.inputs.end(),
                                        [&](const Input& input) { return same_name(input.name, name); });
        if (found == inquiry.inputs.end()) {
            const auto near = nearest(name, names);
            faults.push_back(fmt::format("{}: no such input of {}: {}", name, inquiry.name,
                                         near.empty() ? fmt::format("it takes {}", fmt::join(names, ", "))
                                                      : fmt::format("did you mean {}?", near)));
            exit = Exit::usage;
        } else {
            take(*found, text, "given");
        }
    }
    for (const auto& input : inquiry.inputs) {
        if (run.given.has(input.name)) continue;
        if (const auto known = from_vehicle(input, services.vehicle)) take(input, known->first, known->second);
        else if (!input.fallback.empty()) take(input, input.fallback, "assumed");
        else if (input.required && std::none_of(faults.begin(), faults.end(), [&](const std::string& f) {
                     return f.rfind(input.name + ":", 0) == 0;
                 })) {
            faults.push_back(fmt::format("{}: missing: {}{}", input.name, input.title,
                                         input.unit.empty() ? "" : fmt::format(", in {}", input.unit)));
            exit = Exit::usage;
        }
    }
    if (!faults.empty()) throw Error(exit, faults);
    try {
        run.answer = inquiry.run(run.given, services);
    } catch (const std::domain_error& error) {
        const std::string what = error.what(), who = inquiry.name + ": ";
        throw Error(Exit::bad_data, what.rfind(who, 0) == 0 ? what : who + what);
    }
    return run;
}

}  // namespace casebound
