// Short ways to write what can be found out about a vehicle, one line for what it is and one for how; part of the
// contract, and nothing but shorthand. An attribute is looked at on the wheels, with nothing taken off, and is identity,
// unless it is said here that it is not.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
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

// A kind of item, the places that take one, each with its name and title, and what decides whether one goes there.
struct KindInPlaces {
    std::string key, title;
    StandIns stand_ins;
    std::vector<std::pair<std::string, std::string>> places;
    std::string unit = "each";
    DecidedBy decided_by{};
};

inline Vocabulary vocabulary_of(std::vector<Attribute> attributes, const std::vector<KindInPlaces>& kinds) {
    Vocabulary words{std::move(attributes), {}, {}};
    for (const auto& kind : kinds) {
        words.item_kinds.push_back({kind.key, kind.title, kind.unit});
        for (const auto& [name, title] : kind.places)
            words.roles.emplace_back(name, title, kind.key, kind.stand_ins, kind.decided_by);
    }
    return words;
}

// The words of a domain, made once.
template <Vocabulary (*words)()> const Vocabulary& known_words() {
    static const Vocabulary all = words();
    return all;
}

// Null when there is none of this name.
inline const Role* role_in(const Vocabulary& words, std::string_view name) {
    for (const auto& role : words.roles)
        if (role.name == name) return &role;
    return nullptr;
}

// One list after the other, of attributes or of inquiries.
template <class One> std::vector<One> together(std::initializer_list<std::vector<One>> lists) {
    std::vector<One> all;
    for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
    return all;
}

inline std::vector<Attribute> as_findings(std::vector<Attribute> attributes) {
    for (auto& attribute : attributes) attribute.finding = true;
    return attributes;
}

// An observation of trouble.
inline Attribute as_finding(Attribute attribute) {
    attribute.finding = true;
    return attribute;
}

}  // namespace casebound
