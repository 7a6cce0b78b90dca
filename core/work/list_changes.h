// What a change of the catalog does to the vehicles on the yard: each place whose verdict, parts or quantities differ,
// and the jobs it is in. The change is made in a copy of the catalog; nothing is written where it matters.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/session/session.h"

namespace casebound {

struct PlaceNow {
    std::string verdict, parts;  // in words; of what fits or may fit, and how much of it
    bool operator==(const PlaceNow&) const = default;
};

struct PlaceChange {
    std::string vehicle, role, title;
    std::vector<std::string> jobs;
    PlaceNow before, after;
};

// `change` is given the path of the copy; what it throws is thrown on, and nothing is left behind.
std::vector<PlaceChange> list_changes(Session& session, const std::function<void(const std::string& catalog)>& change);

// "blue: pan filter (pan-service): FITS PF-33; now NOT RECORDED", a line each; what is said when there is none.
std::string changes_text(const std::vector<PlaceChange>& changes);

}  // namespace casebound
