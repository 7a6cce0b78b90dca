// What people type for a place, a job or something found out: its key or its title, in small or capital letters, with
// blanks, dashes or underscores between. What is meant by none comes back as it was typed, for the usual error.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/verdict/catalog.h"

namespace casebound {

std::string place_titles(const Catalog& catalog, const std::vector<std::string>& keys);  // "pan filter, pan gasket"
std::string place_title(const Catalog& catalog, std::string_view key);    // as it is shown; the key when nobody has it
std::string place_typed(const Catalog& catalog, std::string_view typed);  // "Pan filter": "pan-filter"

// No such job: with the two or three nearest, by words of key and title or by spelling, and how to see all.
[[noreturn]] void no_such_job(const Catalog& catalog, const std::string& typed);

// Jobs word by word: {"pan", "service", "neck-seal"} may be two.
std::vector<std::string> jobs_typed(const Catalog& catalog, const std::vector<std::string>& words);

// {"pan", "depth", "41", "mm", "measured"}: {"pan_depth=41 mm", "measured"}. A word with "=" keeps its right side.
std::vector<std::string> tellings_typed(const Vocabularies& vocabularies, const std::vector<std::string>& words);

// The same for attributes alone.
std::vector<std::string> attributes_typed(const Vocabularies& vocabularies, const std::vector<std::string>& words);

}  // namespace casebound
