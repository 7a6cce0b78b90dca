// One thing told about a vehicle: the same struct from the shop file to the proof of an answer. What a domain sees of
// it is its base. Its right side is parsed once, when it is given. Judges nothing: whether it can be is checked where
// it is met with a line.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/contract/vehicle.h"
#include "core/ground/bits.h"
#include "core/ground/photo.h"
#include "core/reason/condition.h"

namespace casebound {

// What stands to the right of `attribute=` in the condition language: "1.5in", "a|b", "11..16". Empty when nothing is
// told (taken back).
class RightSide {
public:
    RightSide() = default;
    explicit RightSide(std::string text);

    const std::string& text() const { return text_; }
    bool empty() const { return text_.empty(); }
    const std::vector<Span>& spans() const;  // throws ConditionFault, each time, for a text that is no right side
    const std::string* single() const;       // when it is one value, that value; throws as spans()
    bool operator==(const RightSide& other) const { return text_ == other.text_; }

private:
    std::string text_;
    std::vector<Span> spans_;
    std::optional<ConditionFault> fault_;
};

struct ToldFact : Told {
    RightSide right_side;
    std::string photo, note;                 // photo: a name alone, of entries before version 6 of the shop file
    std::vector<Photo> photos{};             // those that show it; to tell it, their numbers are enough
    std::int64_t id{};                       // of its entry in the shop file; 0: of none yet
    std::optional<std::int64_t> corrects{};  // the entry that it takes back, perhaps of another attribute
    bool withdrawn{};                        // nothing is told about the attribute from here on
    bool stands{};   // the newest of the firmest kind told of its attribute, neither withdrawn nor corrected
    bool applies{};  // the line has this attribute; findings and attributes of other lines do not narrow
    Bits holding{};  // over the whole line, when it applies

    std::string said() const;  // "pan_depth=38 mm (measured 2026-11-25)"
};

// As typed: `text` is also its right side.
ToldFact told_fact(std::string attribute, const std::string& text, TellEvidence evidence, std::string date = {});

}  // namespace casebound
