// Pages that would come out as they did: kept while nothing that they rest on has changed, which is the request, the
// moment of the session's catalog and shop, the day, and the note of the last backup. Each form in one that is shown
// again gets an id of its own. Kept in memory, 4 MB at most; when there is no more room they are all written anew.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/page/page_visit.h"

namespace casebound {

// Everything that the page of a visit rests on; nothing while it cannot be said.
std::optional<std::string> kept_under(const Visit& visit);

class KeptPages {
public:
    std::optional<std::string> find(std::string_view key) const;
    // `form_ids`: those that stand in it, in their order. A page that does not have each of them once is not kept.
    void keep(std::string key, std::string body, const std::vector<std::string>& form_ids);

private:
    struct Kept {
        std::string body;
        std::vector<std::size_t> form_ids;  // where each begins
    };
    std::map<std::string, Kept, std::less<>> kept_;
    std::size_t bytes_ = 0;
};

// Of this process, as forms_done().
KeptPages& kept_pages();

}  // namespace casebound
