// The next thing to find out: the attribute with the largest expected number of open lines settled, weighted by
// probability, per minute of effort; what needs no dismantling comes first at equal worth. When no single
// answer settles a line, the one that tells most about what is still open (in bits per minute).
// A measured number leaves every value within the attribute's tolerance; what was told as one value is not asked
// again, and a line that no answer could settle is not asked about.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/reason/possibilities.h"

namespace casebound {

// A line that is not settled yet: would it be, if only these were left? Once settled, it stays so on fewer.
struct OpenLine {
    std::string name;
    std::function<bool(const Bits& cell)> settled;
    std::vector<Bits> marks;  // sets whose membership the line hinges on; used for the bits
};

struct Question {
    const Possibilities::Column* column = nullptr;
    double settles = 0;  // expected number of open lines settled
    std::size_t settles_most = 0;
    double gain_bits = 0;
    double effort_minutes = 0;
    std::vector<std::pair<const Value*, double>> answers;  // still possible, with their shares
    std::vector<std::string> lines;                        // names of lines that some answer settles
};

// Attributes told as one value each.
using ToldOnce = std::vector<std::string>;

// Minutes with the vehicle's position counted in: raising costs 5, dismantling 30 more (common practice, no source).
double effort_minutes(const Attribute& attribute);

std::vector<Question> questions(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                                const ToldOnce& told = {});  // best first
std::optional<Question> next_question(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                                      const ToldOnce& told = {});

// A smallest set of attributes whose answers settle the line whatever they are, with the least effort among equals
// (above 12 undecided attributes and 3 to ask: one from which none can be left out). Empty when nothing settles
// it: two configurations differ in nothing that can be asked, or a domain's doubt stays.
std::vector<std::string> settling_attributes(const Possibilities& set, const Bits& left, const OpenLine& line,
                                             const ToldOnce& told = {});

// Expected minutes until no more can be settled: asking greedily, and by the best possible tree (exact; for at
// most 12 undecided attributes, and `most_states` sets of configurations, else nothing).
double greedy_minutes(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                      const ToldOnce& told = {});
std::optional<double> least_minutes(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                                    const ToldOnce& told = {}, std::size_t most_states = 200000);

}  // namespace casebound
