#include "science/family.h"

#include <algorithm>

#include "core/contract/text.h"
#include "core/contract/valid_range.h"

namespace casebound::solenoids {

std::vector<std::string> split_words(std::string_view text, std::string_view separators) {
    std::vector<std::string> all;
    std::string word;
    for (const char c : std::string(text) + std::string(separators.substr(0, 1))) {
        if (separators.find(c) == std::string_view::npos) word += c;
        else if (!word.empty()) all.push_back(std::exchange(word, {}));
    }
    return all;
}

namespace {

std::pair<std::string, std::vector<std::string>> named_elements(const std::string& word, const char* input,
                                                                const char* example) {
    const auto colon = word.find(':');
    if (colon == std::string::npos || colon == 0)
        refuse(input, word, std::string("a list such as \"") + example + "\"");
    auto elements = split_words(word.substr(colon + 1), "+");
    std::erase(elements, "-");
    return {word.substr(0, colon), elements};
}

constexpr const char* apply_example = "1:A+B 2:B 3:- 4:A";
constexpr const char* shared_example = "feed:A+B ground:A+B";

}  // namespace

const Element* GearboxFamily::element(std::string_view wanted) const {
    const auto found = std::find_if(elements.begin(), elements.end(),
                                    [wanted](const Element& one) { return one.name == wanted; });
    return found == elements.end() ? nullptr : &*found;
}

const Element* GearboxFamily::element_of_role(std::string_view role) const {
    const auto found = std::find_if(elements.begin(), elements.end(),
                                    [role](const Element& one) { return one.role == role; });
    return found == elements.end() ? nullptr : &*found;
}

std::vector<Service> GearboxFamily::services_of(std::string_view wanted) const {
    std::vector<Service> all;
    for (const auto& service : services)
        if (service.element == wanted) all.push_back(service);
    return all;
}

std::vector<std::string> GearboxFamily::element_names() const {
    if (elements.empty()) return table.elements;
    std::vector<std::string> names;
    for (const auto& one : elements) names.push_back(one.name);
    return names;
}

GearboxFamily family_by_hand(std::string_view apply, std::string_view shared, TableKind kind) {
    GearboxFamily family;
    family.name = family.table.family = "by hand";
    family.title = "apply table given by hand";
    family.source = {Evidence::measured, "given"};
    family.table.kind = kind;
    std::vector<std::pair<std::string, std::vector<std::string>>> gears;
    for (const auto& word : split_words(apply, " ,")) gears.push_back(named_elements(word, "apply", apply_example));
    auto& elements = family.table.elements;
    for (const auto& gear : gears)
        for (const auto& element : gear.second) add_once(elements, element);
    std::sort(elements.begin(), elements.end());
    for (const auto& [name, on] : gears) {
        Gear gear{name, {}, name == "R" ? "R" : ""};
        for (const auto& element : elements)
            gear.required.push_back(std::find(on.begin(), on.end(), element) != on.end());
        family.table.gears.push_back(std::move(gear));
    }
    for (const auto& word : split_words(shared, " ,")) {
        const auto [name, behind] = named_elements(word, "shared", shared_example);
        family.nodes.push_back({name, name, "", behind, {}});
        family.table.nodes.push_back({name, behind, false});
    }
    if (const auto faults = table_faults(family.table); !faults.empty())
        refuse("apply", faults.front(), std::string("a list such as \"") + apply_example + "\"");
    return family;
}

bool add_common_feed(GearboxFamily& family) {
    if (!family.nodes.empty() || family.table.kind != TableKind::solenoid_states || family.table.elements.empty())
        return false;
    family.nodes.push_back({common_feed, "shared feed, ground or case connector", "", family.element_names(), {}});
    family.table.nodes.push_back({common_feed, family.table.elements, false});
    return true;
}

std::vector<std::string> twins_of(const GearboxFamily& family, std::string_view name) {
    std::vector<std::string> twins;
    const auto* element = family.element(name);
    if (element == nullptr || element->group.empty()) return twins;
    for (const auto& other : family.elements)
        if (other.name != name && other.group == element->group) twins.push_back(other.name);
    return twins;
}

}  // namespace casebound::solenoids
