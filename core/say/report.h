// How answers read as text: short, imperative, a reason and a source behind every word. A colour stands only where a word or a sign says the same.
// Renders only; decides nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/ground/colour.h"
#include "core/session/situation.h"
#include "core/verdict/interchange.h"
#include "core/verdict/parts_list.h"

namespace casebound {

Meaning meaning_of(Verdict verdict);
Meaning meaning_of(const ListLine& line);
std::string ready_words(const PartsList& list);  // of a list that is ready
std::string in_colour(Verdict verdict, std::string_view text);
std::string source_text(const Origin& origin);    // a row of a CSV file or of a workbook, and its evidence
std::string note_text(const SourceNote& source);  // what was typed is "typed in", whatever it was typed from
// With what is said put into words of the vehicle, where there is one.
std::string leaf_text(const Leaf& leaf, const Situation* situation, std::size_t indent = 2);
// At most five unless full, and none that the answer stands without.
std::string leaves_text(std::vector<Leaf> leaves, bool full, const Situation* situation, std::size_t indent = 2);
std::string invented_label(bool invented);    // "invented demo data" or ""
std::string need_text(const ListLine& line);  // "5.3 L", "1", "4.7 to 5.3 L"; "?" where nobody says how much
std::string containers_text(const std::vector<Container>& containers,
                            const std::string& unit);  // "1 x 5 L (KEY) + 1 x 1 L (KEY)"
std::string missing_text(
    const ListLine& line);  // why there is nothing to order: "nobody has said; look at the old one"
std::string claimed_text(const Option& option);  // members that only their seller puts in the group
// What keeps a list from being ordered, line by line: every hold, every doubt, and what is still to check.
struct InTheWay {
    std::string title, why;
};
std::vector<InTheWay> in_the_way(const PartsList& list, const Situation& situation);
// What several places wait for once, with the places: "neck seal; pan filter".
std::vector<InTheWay> each_once(const std::vector<InTheWay>& all);
// Each but what is from memory with how it is known; that once: "pan depth 41 mm (said); from memory: ...".
std::string hearsay_joined(const std::vector<std::string>& hearsay);
std::string right_only_if(const std::vector<std::string>& hearsay);  // a sentence; "" when there is none
std::string reuse_text(const ListLine& line);  // whether the old one may go back; "" when nothing is to be said
// Is there a question, and does nothing that lines wait for come before it? One about what only has to be looked at does
// not come before a doubt or a hold.
bool question_comes_first(const PartsList& list);
std::string find_out_text(const Question& question);  // what, how, and how long it takes
// What is typed once it is known, with a blank for the value; "" when there is nothing to tell.
std::string tell_command(const Question& question, const std::string& vehicle);
// Both, without what it settles.
std::string brief_question_text(const Question& question, const std::string& vehicle);
std::string question_text(const Question& question, const std::string& vehicle, std::size_t open_lines);
std::string settles_text(const Question& question, std::size_t open_lines);  // "It decides up to 2 of 3 places: ..."
// What may still be true, in words: at most eight, else the first and the last.
std::string answers_text(const Question& question);

// Where a value goes in a command to type; never one that could be pasted as a fact.
std::string blank_for(const Attribute& attribute);

std::string list_text(const PartsList& list, const Situation& situation, bool full);
// What was told and is in doubt, where another part might be right for it, and what settles it.
std::string doubts_text(const std::vector<Doubt>& doubts, std::size_t indent = 0);
std::string role_text(const RoleAnswer& answer, const Situation& situation, bool full);
std::string swap_text(const SwapAnswer& answer, bool full, const Catalog& catalog);
std::string value_text(const AnswerLine& line);                                      // "152400 km"
std::string answer_text(const Answer& answer, const std::string& title, bool full);  // an inquiry's

// As packs say it of their jobs. The closing caution says it of every one, so that it is said once.
inline constexpr std::string_view jack_caution_of_packs =
    "Put the vehicle on stands on level ground, wheels chocked; never work under a jack alone.";

inline constexpr const char* closing_caution =
    "Caution: never under a vehicle held by a jack alone: stands on level ground, wheels chocked. Follow the maker's "
    "instructions, local rules and licensed practice.";

}  // namespace casebound
