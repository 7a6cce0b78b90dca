// What is told of a vehicle, and what it can still be, as text. Renders only.
#pragma once

#include <string>
#include <vector>

#include "core/reason/vocabulary.h"
#include "core/session/situation.h"

namespace casebound {

std::string told_text(const Vocabularies& words, const std::vector<ToldFact>& entries);

// What is still open, with how to find it out; what is known by now in one line.
std::string still_open_text(const Situation& situation);

// Where the file of a photo lies, as it may be opened; and that it is gone, when it is.
std::string photo_file(const Photo& photo);
std::string photos_text(const std::vector<Photo>& photos, std::size_t indent);  // "photo 3: PATH", a line each

}  // namespace casebound
