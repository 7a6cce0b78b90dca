// What the answers of this domain are put together from: numbers as text, where a number comes from, lines, and
// the lowering of a verdict. Never raises a verdict and never writes a number without its source.
#pragma once

#include <string>
#include <string_view>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

// "4.70": always that many decimals.
std::string rounded(double value, int decimals);
// At most that many decimals, without trailing zeros: "4.7 L".
std::string quantity_text(double value, std::string_view unit, int decimals = 2);

SourceNote standard(std::string title);
SourceNote law(std::string title);
SourceNote common_practice(std::string_view detail = {});  // "common practice, no source: DETAIL"
SourceNote from_memory(std::string title);
// "demo-fleet, transmission_fluids_fills.csv:12: TITLE"
SourceNote source_of(const Row& row);
SourceNote weaker(const SourceNote& a, const SourceNote& b);
// A formula fed with a number: as weak as the weaker of the two, and named after both.
SourceNote resting_on(const SourceNote& formula, const SourceNote& input);
// A formula fed with what the answer's lines say so far: as weak as the weakest of them.
SourceNote resting_on(SourceNote formula, const Answer& answer);
SourceNote computed(std::string_view how);  // plain arithmetic: no more than common practice
SourceNote given_by_hand();

AnswerLine line(std::string label, double value, std::string unit, int decimals, SourceNote source);
AnswerLine line(std::string label, std::string text, SourceNote source);

// Moves the verdict towards the end of the list of verdicts, never back.
void lower(Answer& answer, Verdict at_most);
// The answer lacks an input: says which, and how to find it out.
void missing(Answer& answer, std::string_view input, std::string_view how);

// Refuses a number with a fraction: "number of changes: got 2.5: valid range is a whole number".
int whole(std::string_view what, double value);

// Prices are counted in hundredths of the currency unit: 4750 is "47.50".
std::string price_text(double hundredths);

}  // namespace casebound::transmission_fluids
