// What is asked of the page, and what it replies. Data alone; the rules of a request are in page.h.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace casebound {

using Fields = std::vector<std::pair<std::string, std::string>>;  // decoded, in order; a name may come again

// It lies in a file of its own, which goes with the last copy of `kept`.
struct SentFile {
    std::string field, name, path;  // name: as the browser calls it; never a path to write to
    std::shared_ptr<const void> kept{};
};

struct PageRequest {
    bool post{};
    std::string path;  // decoded, without the query: "/vehicle/bookvan"
    Fields query, form;
    bool may_edit = true;    // false: no form that writes is shown, and a POST is refused with 403
    std::string form_token;  // stands in every form that writes, as the hidden field "token"; checked by the server
    std::vector<SentFile> files{};
};

struct PageReply {
    int status = 200;
    std::string type = "text/html; charset=utf-8";
    std::string body;
    std::string location;  // where a 303 sends the reader
    std::string file{};    // instead of `body`: what is in this file, which never changes
};

}  // namespace casebound
