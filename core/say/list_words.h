// A parts list whose sentences are in words: what domains and packs say of a place, with the keys in it by their titles
// (unless keys are asked for), and what several lines wait for said once. For reading only: JSON takes the list as it was
// made. Decides nothing.
#pragma once

#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/verdict/catalog.h"
#include "core/verdict/parts_list.h"

namespace casebound {

PartsList in_words(PartsList list, const Catalog& catalog);
std::vector<Leaf> in_words(std::vector<Leaf> leaves, const Catalog& catalog);  // rows are worded where they are shown

SwapAnswer in_words(SwapAnswer answer, const Catalog& catalog);
Answer in_words(Answer answer, const Catalog& catalog);  // what is typed next stays as it is typed
Answer in_words(Answer answer, Session& session);        // as it is where no catalog can be read: it needs none

// What is poured or cut to length, and nobody says how much: "QF-4, how much it takes is not recorded"; else "".
inline constexpr const char* amount_open_words = "how much it takes is not recorded";
std::string amount_open_text(const ListLine& line, const Option& option);

// What stays behind when the old part comes off, by its row: "neck seal, up in the bore, 1 out and 1 in"; a liquid is
// not counted. The line of its place points at it.
std::string stay_words(const Stay& stay);
std::string stay_count(const Stay& stay);                            // "1 out and 1 in"; "" where it is not counted
std::string stay_flag(const ListLine& line, const PartsList& list);  // "SOMETHING STAYS BEHIND"; "" where nothing does

// What two lines or more wait for, each once; a line that waits for nothing else points at it.
class SaidOnce {
public:
    explicit SaidOnce(const PartsList& list);

    std::vector<std::string> texts() const;  // "the fluid is milky: test the cooler", numbered where there are several
    std::string of(const ListLine& line) const;  // "see above", "see above, 2", or in full; "" where nothing waits

private:
    std::vector<std::string> shared_;
};

}  // namespace casebound
