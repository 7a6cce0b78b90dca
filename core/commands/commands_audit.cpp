// audit: what is doubtful in the catalog as a whole.
#include <map>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/say/in_words.h"
#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/verdict/audit.h"

namespace casebound {

namespace {

Result run_audit(Session& session, const Args&) {
    const auto found = audit(session.catalog(), session.plugins(), session.engine());
    const auto exit = found.empty() ? Exit::yes : Exit::no;
    if (session.json()) {
        auto json = document("audit");
        json["findings"] = Json::array();
        for (const auto& one : found)
            json["findings"].push_back({{"kind", one.kind}, {"what", one.what}, {"rows", json_list(one.rows)}});
        return {exit, json_text(json)};
    }
    std::map<std::string, std::size_t> counts;
    for (const auto& one : found) ++counts[one.kind];
    std::string out;
    std::map<std::string, std::size_t> shown;
    constexpr std::size_t most = 10;
    for (const auto& one : found) {
        const auto nth = ++shown[one.kind];
        if (nth == 1) out += fmt::format("{}{} ({})\n", out.empty() ? "" : "\n", one.kind, counts[one.kind]);
        if (nth > most && !session.full()) {
            if (nth == most + 1) out += wrapped(fmt::format("and {} more: --full", counts[one.kind] - most), 2);
            continue;
        }
        out += wrapped(in_titles(session.catalog(), one.what), 2, 2);
        for (const auto& row : one.rows) out += wrapped(source_text(row), 4, 2);
    }
    return {exit, out.empty() ? "Nothing doubtful found.\n" : out};
}

}  // namespace

std::vector<Command> audit_commands() {
    return {{"audit",
             "",
             "contradictions, gaps, dead conditions, empty groups, facts from memory",
             0,
             0,
             {},
             run_audit,
             "casebound audit --full"}};
}

}  // namespace casebound
