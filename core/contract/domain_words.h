// Short ways to write what can be found out about a vehicle, one line for what it is and one for how; part of the
// contract, and nothing but shorthand. An attribute is looked at on the wheels, with nothing taken off, and is identity,
// unless it is said here that it is not.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/contract/words.h"

namespace casebound {

inline Attribute attribute_of(ValueKind kind, std::string name, std::string title, std::string how, double minutes) {
    Attribute attribute;
    attribute.name = std::move(name);
    attribute.title = std::move(title);
    attribute.kind = kind;
    attribute.how = std::move(how);
    attribute.minutes = minutes;
    return attribute;
}

// One of a closed list; open when the list is empty.
inline Attribute choice_of(std::vector<std::string> choices, std::string name, std::string title, std::string how,
                           double minutes) {
    auto attribute = attribute_of(ValueKind::choice, std::move(name), std::move(title), std::move(how), minutes);
    attribute.choices = std::move(choices);
    return attribute;
}

inline Attribute yes_or_no(std::string name, std::string title, std::string how, double minutes) {
    return attribute_of(ValueKind::yes_no, std::move(name), std::move(title), std::move(how), minutes);
}

// A number in `unit` ("" for a plain one); a told one agrees with a recorded one within `tolerance`.
inline Attribute number_of(std::string unit, double tolerance, std::string name, std::string title, std::string how,
                           double minutes) {
    auto attribute = attribute_of(ValueKind::number, std::move(name), std::move(title), std::move(how), minutes);
    attribute.unit = std::move(unit);
    attribute.tolerance = tolerance;
    return attribute;
}

// The vehicle must be raised for it.
inline Attribute when_raised(Attribute attribute) {
    attribute.raised = true;
    return attribute;
}

// The vehicle must be raised for it, and something must come off.
inline Attribute when_opened(Attribute attribute) {
    attribute.raised = attribute.dismantling = true;
    return attribute;
}

// Something must come off, on the wheels.
inline Attribute when_taken_off(Attribute attribute) {
    attribute.dismantling = true;
    return attribute;
}

// An observation of trouble.
inline Attribute as_finding(Attribute attribute) {
    attribute.finding = true;
    return attribute;
}

}  // namespace casebound
