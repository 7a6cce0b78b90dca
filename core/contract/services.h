// What core lends a domain for one question: rows, the vehicle, and the possibilities engine. Part of the contract.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/facts.h"
#include "core/contract/vehicle.h"
#include "core/contract/words.h"

namespace casebound {

struct Alternative {
    std::string label;  // alternatives may share a label; their shares are added
    double weight = 1;
    std::vector<std::string> values;  // one per attribute of the table; "" means nothing is said
};

struct AlternativeTable {
    std::vector<Attribute> attributes;
    std::vector<Alternative> alternatives;
};

struct Ranking {
    struct Place {
        std::string label;
        double share;
    };
    struct Question {
        std::string attribute, how;
        double minutes{};
        double gain_bits{};
    };
    std::vector<Place> places;        // largest share first; empty when the findings contradict each other
    std::vector<Question> questions;  // best information per minute first
    std::string contradiction;        // names the findings that leave nothing
};

class Reasoner {
public:
    virtual ~Reasoner() = default;
    // `findings`: attribute and value (a condition's right side: "a", "a|b", "11..16").
    virtual Ranking rank(const AlternativeTable& table,
                         const std::vector<std::pair<std::string, std::string>>& findings) const = 0;
};

struct Services {
    const Facts& facts;
    const Reasoner& reasoner;
    const VehicleView* vehicle = nullptr;  // null when the question is about no vehicle
};

// The rows of a table with a column `line`, and perhaps `condition`, that hold on the vehicle or may, in file order.
// None without a vehicle.
inline std::vector<HeldRow> rows_here(const Services& services, std::string_view table) {
    std::vector<HeldRow> held;
    if (!services.vehicle) return held;
    for (const auto& row : services.facts.rows(table, "line", services.vehicle->line()))
        if (const auto holds = row.has("condition") ? services.vehicle->holds(row.text("condition")) : Holds::yes;
            holds != Holds::no)
            held.push_back({&row, holds});
    return held;
}

}  // namespace casebound
