#include "science/actuator.h"

#include <algorithm>
#include <utility>

#include "core/contract/valid_range.h"

namespace casebound::actuators {
namespace {

struct ActuatorComparison : Comparison {
    void by_word(const char* what, const std::string& wanted, const std::string& offered, const char* because) {
        if (wanted.empty() || offered.empty()) not_known(what);
        else if (wanted != offered) add(what, said(offered), said(wanted), because, Weight::no);
    }
    void by_cavities(const Actuator& wanted, const Actuator& offered) {
        if (further_apart("cavities of the plug", wanted.cavities, offered.cavities, 0))
            add("cavities of the plug", number_text(*offered.cavities), number_text(*wanted.cavities),
                "the plug is another", Weight::no);
    }
    void by_travel(const Actuator& wanted, const Actuator& offered, Apart apart) {
        const auto off = further_apart("travel", wanted.travel_deg, offered.travel_deg, apart.travel_deg);
        if (!off) return;
        const bool other = *off > apart.other_travel_deg;
        add("travel", with_unit(*offered.travel_deg, "deg"), with_unit(*wanted.travel_deg, "deg"),
            other                                      ? "the door does not reach its stop, or is forced past it"
            : *offered.travel_deg > *wanted.travel_deg ? "only if the control unit learns the stops"
                                                       : "the door may stop short",
            other ? Weight::no : Weight::needs_something);
    }
};

}  // namespace

std::vector<Difference> differences(const Actuator& wanted, const Actuator& offered, Apart apart) {
    ActuatorComparison comparison;
    const auto word = [](auto value, const auto& words) { return std::string(words[static_cast<std::size_t>(value)]); };
    comparison.by_word("function", word(wanted.place.function, function_words),
                       word(offered.place.function, function_words), "it moves another door");
    const auto here = wanted.place.side, there = offered.place.side;
    const auto left_or_right = [](Side side) {
        return side == Side::left || side == Side::right || side == Side::either;
    };
    const bool serves = (here == Side::either && left_or_right(there)) ||
                        (there == Side::either && left_or_right(here));
    if (!serves)
        comparison.by_word("side", word(here, side_words), word(there, side_words),
                           "a mirrored one turns its door the other way");
    comparison.by_cavities(wanted, offered);
    comparison.by_word("drive", wanted.drive, offered.drive, "the control unit drives it another way");
    comparison.by_word("feedback", wanted.feedback, offered.feedback, "the control unit cannot read where it is");
    comparison.by_word("shaft", wanted.shaft, offered.shaft, "it does not hold the door");
    comparison.by_word("coding of the plug", wanted.plug_code, offered.plug_code,
                       "the coding keeps the wrong plug out: cut nothing away");
    if (wanted.drive == "dc" || offered.drive == "dc")
        comparison.by_word("way it turns", wanted.turns, offered.turns, "it runs its door against the stop");
    comparison.by_travel(wanted, offered, apart);
    return std::move(comparison.all);
}

std::string said(std::string_view word) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 12> words{
        {{"d_shaft", "a D-shaped shaft"},
         {"double_d", "a shaft with two flats"},
         {"spline", "a splined shaft"},
         {"square", "a square shaft"},
         {"slot", "a slot"},
         {"lever", "a lever"},
         {"crank_pin", "a crank with a pin"},
         {"dc", "a brushed motor"},
         {"stepper", "a stepper motor"},
         {"bus", "its own electronics"},
         {"end_switches", "end switches"},
         {"none", "no feedback"}}};
    for (const auto& [key, text] : words)
        if (key == word) return std::string(text);
    std::string plain(word);
    std::replace(plain.begin(), plain.end(), '_', ' ');
    return plain;
}

}  // namespace casebound::actuators
