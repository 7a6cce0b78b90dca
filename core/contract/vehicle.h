// The vehicle as a domain sees it: what was told, what is still possible, and whether a condition holds. Part of the
// contract with plugins. Core meets every condition; a domain never reads one.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/facts.h"
#include "core/contract/text.h"

namespace casebound {

// How the person knows what is told, firmest first. `said` is typed without saying how it is known; `assumed` is a guess
// that is written down.
enum class TellEvidence : std::uint8_t { measured, read, said, seller_said, assumed };

inline constexpr std::array<std::string_view, 5> tell_evidence_names{"measured", "read", "said", "seller said",
                                                                     "assumed"};
constexpr std::string_view tell_evidence_words(TellEvidence evidence) {
    return tell_evidence_names[static_cast<std::size_t>(evidence)];
}

// Nobody here has measured or read it.
constexpr bool is_hearsay(TellEvidence evidence) { return evidence > TellEvidence::read; }
// An assumption and hearsay are no better than memory.
constexpr Evidence evidence_of(TellEvidence evidence) {
    return is_hearsay(evidence) ? Evidence::memory : Evidence::measured;
}

struct Told {
    std::string attribute, text;
    TellEvidence evidence = TellEvidence::assumed;
    std::string date;              // YYYY-MM-DD
    std::optional<double> number;  // of one value, in the attribute's unit; a month as year * 12 + month - 1

    std::vector<std::string> seen() const;          // what is seen side by side: "a+b" is a, b
    std::vector<std::string> alternatives() const;  // one of these it is: "a|b" is a, b
    SourceNote source() const {
        return {evidence_of(evidence), "told: " + std::string(tell_evidence_words(evidence)) + " " + date};
    }
};

struct PossibleValue {
    std::string text;              // as written in the pack: "38 mm", "4wd"
    std::optional<double> number;  // in the attribute's unit; a month as year * 12 + month - 1
    double share{};                // of the configurations still possible, by weight; sums to 1
};

// Does a condition hold on the vehicle, on all that is left of it, on none of it, or on some?
enum class Holds : std::uint8_t { no, open, yes };

class VehicleView {
public:
    virtual ~VehicleView() = default;
    virtual std::string name() const = 0;  // "bookvan"
    virtual std::string line() const = 0;  // the vehicle line's key
    // The values that are left of an attribute of the line; of one that the line does not have, what was told, where
    // that is single values. Empty: nothing is known.
    virtual std::vector<PossibleValue> possible(std::string_view attribute) const = 0;
    virtual std::vector<Told> told() const = 0;  // newest entry per attribute, findings included
    // The weakest that what is left rests on: the rows of the configurations, and told facts that ruled others out.
    virtual Evidence left_rests_on() const = 0;
    // Met jointly with all that is left, and for attributes that the line does not have with what was told.
    // An empty condition holds. Throws std::invalid_argument for a text that is no condition.
    virtual Holds holds(std::string_view condition) const = 0;
};

// What is known of one attribute: told as one value, or the only value that is left.
struct Known {
    std::string text;
    std::optional<double> number;
    SourceNote source;
};

inline std::optional<Told> told_of(const VehicleView* vehicle, std::string_view attribute) {
    if (vehicle)
        for (auto& told : vehicle->told())
            if (told.attribute == attribute) return std::move(told);
    return std::nullopt;
}

inline std::optional<Known> known_of(const VehicleView* vehicle, std::string_view attribute) {
    if (!vehicle) return std::nullopt;
    if (const auto told = told_of(vehicle, attribute);
        told && told->text.find_first_of("|<>") == std::string::npos && told->text.find("..") == std::string::npos)
        return Known{told->text, told->number, told->source()};
    const auto possible = vehicle->possible(attribute);
    if (possible.size() != 1) return std::nullopt;
    return Known{possible[0].text, possible[0].number, {vehicle->left_rests_on(), "every configuration left has it"}};
}

// A row that holds on the vehicle, or may.
struct HeldRow {
    const Row* row;
    Holds holds;
    const Row* operator->() const { return row; }
    const Row& operator*() const { return *row; }
    // "" where it holds; " where engine=2.6" where that is open.
    std::string where() const { return holds == Holds::yes ? "" : " where " + std::string(row->text("condition")); }
};

inline std::vector<std::string> Told::seen() const { return split_at(text, '+'); }
inline std::vector<std::string> Told::alternatives() const { return split_at(text, '|'); }

}  // namespace casebound
