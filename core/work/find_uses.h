// What is found, with where it is used on the vehicles of the yard.
#pragma once

#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/verdict/find.h"

namespace casebound {

FindAnswer found_in(Session& session, const std::string& words, std::size_t most);

// Of each: "blue: pan filter, FITS", a sentence a place.
std::vector<std::vector<std::string>> uses_of(Session& session, const std::vector<Found>& found);

}  // namespace casebound
