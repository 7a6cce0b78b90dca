#include "science/actuator.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/contract/valid_range.h"

namespace casebound::actuators {
namespace {

struct Comparison {
    std::vector<Difference> all{};

    void add(const char* what, const std::string& offered, const std::string& wanted, const char* because,
             Weight weight) {
        all.push_back({what, offered + " offered, " + wanted + " wanted: " + because, weight});
    }
    void by_word(const char* what, const std::string& wanted, const std::string& offered, const char* because,
                 Weight weight = Weight::no) {
        if (wanted.empty() || offered.empty()) all.push_back({what, "not known of both", Weight::not_known});
        else if (wanted != offered) add(what, said(offered), said(wanted), because, weight);
    }
    void by_cavities(const Actuator& wanted, const Actuator& offered) {
        const char* what = "cavities of the plug";
        if (!wanted.cavities || !offered.cavities) all.push_back({what, "not known of both", Weight::not_known});
        else if (*wanted.cavities != *offered.cavities)
            add(what, number_text(*offered.cavities), number_text(*wanted.cavities), "the plug is another", Weight::no);
    }
    void by_travel(const Actuator& wanted, const Actuator& offered, Apart apart) {
        const char* what = "travel";
        if (!wanted.travel_deg || !offered.travel_deg) {
            all.push_back({what, "not known of both", Weight::not_known});
            return;
        }
        const double off = std::abs(*wanted.travel_deg - *offered.travel_deg);
        if (off <= apart.travel_deg) return;
        const bool other = off > apart.other_travel_deg;
        add(what, with_unit(*offered.travel_deg, "deg"), with_unit(*wanted.travel_deg, "deg"),
            other                                      ? "the door does not reach its stop, or is forced past it"
            : *offered.travel_deg > *wanted.travel_deg ? "only if the control unit learns the stops"
                                                       : "the door may stop short",
            other ? Weight::no : Weight::needs_something);
    }
};

}  // namespace

std::vector<Difference> differences(const Actuator& wanted, const Actuator& offered, Apart apart) {
    Comparison comparison;
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

std::optional<Weight> heaviest(const std::vector<Difference>& all) {
    std::optional<Weight> most;
    for (const auto& one : all)
        if (!most || one.weight > *most) most = one.weight;
    return most;
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
