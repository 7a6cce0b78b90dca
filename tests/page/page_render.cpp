// page_render PATH[?QUERY] [NAME=VALUE...]: one page of the folder CASEBOUND_HOME, as HTML on stdout; with fields, a
// POST. --read-only: as one who may only read. The status, and where a 303 sends, go to stderr.
#include <cstdio>
#include <cstdlib>
#include <string>

#include <fmt/format.h>

#include "core/ground/paths.h"
#include "core/page/page.h"

namespace {

std::string decoded(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '%' && i + 2 < text.size()) {
            out += static_cast<char>(std::stoi(text.substr(i + 1, 2), nullptr, 16));
            i += 2;
        } else {
            out += text[i] == '+' ? ' ' : text[i];
        }
    }
    return out;
}

std::pair<std::string, std::string> cut(const std::string& text) {
    const auto at = text.find('=');
    return {text.substr(0, at), at == std::string::npos ? "" : text.substr(at + 1)};
}

casebound::PageRequest request_from(int argc, char** argv) {
    casebound::PageRequest request;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if (word == "--read-only") request.may_edit = false;
        else if (!request.path.empty()) request.form.push_back(cut(word));
        else {
            const auto mark = word.find('?');
            request.path = decoded(word.substr(0, mark));
            std::string rest = mark == std::string::npos ? "" : word.substr(mark + 1);
            while (!rest.empty()) {
                const auto end = rest.find('&');
                const auto [name, value] = cut(rest.substr(0, end));
                request.query.emplace_back(decoded(name), decoded(value));
                rest = end == std::string::npos ? "" : rest.substr(end + 1);
            }
        }
    }
    request.post = !request.form.empty();
    request.form_token = "a-token";
    return request;
}

}  // namespace

int main(int argc, char** argv) {
    casebound::start_single_threaded_sqlite();
    const auto paths = casebound::data_paths();
    casebound::Session session({paths.catalog,
                                paths.shop,
                                paths.probed,
                                {std::getenv("CASEBOUND_PLUGINS") ? std::getenv("CASEBOUND_PLUGINS") : ""}});
    const auto reply = casebound::page_reply(session, request_from(argc, argv));
    std::fwrite(reply.body.data(), 1, reply.body.size(), stdout);
    fmt::print(stderr, "{} {}\n", reply.status, reply.location);
    return reply.status < 400 ? 0 : 1;
}
