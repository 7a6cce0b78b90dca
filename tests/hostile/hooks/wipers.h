// Wiper blades: a small domain that is sound, for each plugin of this folder to spoil in one hook. Invented.
#pragma once

#include <stdexcept>

#include "core/contract/domain_words.h"
#include "core/contract/inquiry_inputs.h"
#include "core/contract/plugin.h"

namespace {

using namespace casebound;

inline Answer wiper_length(const Given& given, const Services&) {
    auto answer = Answer::computing();
    answer.headline = given.has("blade") ? "It is on record." : "Name a blade.";
    return answer;
}

class Wipers : public Domain {
public:
    std::string_view title() const override { return "wipers"; }
    std::string_view schema() const override {
        return R"(-- Wiper blades.
CREATE TABLE wipers_blades (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the blade
  length_mm REAL NOT NULL CHECK (length_mm > 0),  -- length, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;
)";
    }
    Vocabulary vocabulary() const override {
        return {{choice_of({"hook", "pin"}, "wiper_arm", "end of the wiper arm", "Look at the end of the arm.", 1),
                 as_finding(yes_or_no("wiper_smears", "wiper smears", "Wet the glass and wipe.", 1))},
                {{"wiper-blade", "wiper blade", "each"}},
                {{"wiper-front", "wiper blade, front", "wiper-blade", StandIns::may_be_offered}}};
    }
    std::vector<Inquiry> inquiries() const override {
        return {{"length",
                 "How long a wiper blade is",
                 {key_of(text_input("blade", "the blade, or its part number"), "wipers_blades")},
                 wiper_length}};
    }
};

}  // namespace
