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

// What may be told of a vehicle, or worked out, whose title has every one of the words: "clunk" finds the clunk from drive
// to reverse, and the computation about it.
struct Topic {
    bool computed{};            // else it is told
    std::string domain, title;  // domain: of a computation
    std::string key;            // of the attribute, or of the inquiry
    std::string command() const;
};
std::vector<Topic> topics_of(Session& session, const std::string& words);

}  // namespace casebound
