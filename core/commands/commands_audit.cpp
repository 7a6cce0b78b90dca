// audit: what is doubtful in the catalog as a whole.
#include <map>
#include <numeric>

#include <fmt/format.h>

#include "core/contract/answer_lines.h"
#include "core/ground/text_layout.h"
#include "core/say/in_words.h"
#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/verdict/audit.h"
#include "core/verdict/source_shares.h"

namespace casebound {

namespace {

double share(std::size_t part, std::size_t all) {
    return all == 0 ? 0 : 100.0 * static_cast<double>(part) / static_cast<double>(all);
}

Json json_of_rows(const RowsByKind& rows) {
    Json json = Json::object();
    for (std::size_t kind = 0; kind < rows.size(); ++kind)
        json[std::string(evidence_name(static_cast<Evidence>(kind)))] = rows[kind];
    return json;
}

// The rows by the kind of their source, and what of each table is from memory.
Result run_sources(Session& session) {
    const PackShape shape(session.plugins());
    const auto tables = shares_of(session.catalog().facts(), shape);
    const auto sum = summed(tables);
    const auto all = std::accumulate(sum.begin(), sum.end(), std::size_t{});
    constexpr auto memory = static_cast<std::size_t>(Evidence::memory);
    if (session.json()) {
        auto json = document("audit-sources");
        json["rows"] = json_of_rows(sum);
        json["tables"] = Json::array();
        for (const auto& one : tables)
            json["tables"].push_back({{"table", one.table->name}, {"rows", json_of_rows(one.rows)}});
        return {Exit::yes, json_text(json)};
    }
    Table kinds({"kind of source", "rows", "share"}, 0);
    for (std::size_t kind = 0; kind < sum.size(); ++kind)
        if (sum[kind] > 0)
            kinds.row({std::string(evidence_words(static_cast<Evidence>(kind))), std::to_string(sum[kind]),
                       fixed(share(sum[kind], all), 1) + " %"});
    auto out = kinds.text();
    Table remembered({"from memory", "rows", "of"}, 0);
    for (const auto& one : tables)
        if (one.rows[memory] > 0)
            remembered.row({dashed(one.table->name), std::to_string(one.rows[memory]), std::to_string(one.all())});
    if (sum[memory] > 0) out += "\n" + remembered.text() + "What is from memory decides nothing alone.\n";
    return {Exit::yes, out};
}

Result run_audit(Session& session, const Args& args) {
    if (args.has("sources")) return run_sources(session);
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
             {{"sources", "", "instead: how many rows rest on which kind of source, and what is from memory"}},
             run_audit,
             "casebound audit --full"}};
}

}  // namespace casebound
