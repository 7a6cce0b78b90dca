#include "core/commands/note_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"
#include "core/say/json_of.h"
#include "core/session/typed_names.h"
#include "core/work/own_words.h"

namespace casebound {

namespace {

std::string text_of(const OwnFact& fact, std::string_view column) {
    for (const auto& [name, text] : fact.rows.back().second)
        if (name == column) return text;
    return {};
}

std::string written_text(Session& session, const Situation& situation, const OwnFact& fact) {
    const auto says = fmt::format("says {} ({})", fact.title, evidence_words(evidence_from(fact.kind)));
    const auto& [table, cells] = fact.rows.back();
    if (table != "applications")
        return fmt::format("Written down, {}; {}.", statement_words(session.catalog(), table, cells), says);
    const auto condition = text_of(fact, "condition"), group = text_of(fact, "group_key");
    const auto where = condition.empty() ? std::string("on all of them")
                                         : "where " + condition_words(condition, situation.model().set);
    const auto* role = session.catalog().vocabularies().role(text_of(fact, "role"));
    return fmt::format("Written down: {}: {}{}, {}; {}.", role->title,
                       group.empty()               ? "none needed"
                       : group.starts_with("own-") ? group.substr(4)
                                                   : group,
                       text_of(fact, "says") == "does_not_fit" ? " does not fit" : "", where, says);
}

std::size_t number_of(Session& session, const std::string& folder) { return own_statements(session, folder).size(); }

}  // namespace

std::string where_typed(Session& session, const std::string& typed) {
    if (typed.find_first_of("=<>") != std::string::npos) return typed;
    std::vector<std::string> words;
    for (std::size_t from = 0; from < typed.size();) {
        const auto end = std::min(typed.find_first_of(" ;", from), typed.size());
        if (end > from) words.push_back(typed.substr(from, end - from));
        from = end + 1;
    }
    return fmt::format("{}", fmt::join(tellings_typed(session.catalog().vocabularies(), words), "; "));
}

void no_such_table(const PackShape& shape, const std::string& typed, const std::string& vehicle) {
    std::vector<std::string> names;
    for (const auto* table : tables_with_source(shape)) names.push_back(table->name);
    const auto near = nearest(typed, names);
    throw Error(Exit::usage,
                fmt::format("{}: {}", typed,
                            near.empty() ? fmt::format("write a place and a part, such as casebound note {} "
                                                       "pan-filter PF-33, or a table of casebound own tables",
                                                       vehicle)
                                         : fmt::format("no such table: did you mean {}?", near)));
}

Result statement_written(Session& session, const OwnFact& fact, const OwnRows& rows, const std::string& folder) {
    const auto situation = session.situation(fact.vehicle);
    const auto role = text_of(fact, "role");
    const auto number = number_of(session, folder);
    if (session.json()) {
        auto json = document("note");
        json["statement"] = number;
        json["pack"] = folder;
        json["rows"] = Json::array();
        for (const auto& [file, row] : rows)
            json["rows"].push_back({{"file", file}, {"row", row.substr(0, row.size() - 1)}});
        if (!role.empty()) json["verdict"] = verdict_name(situation->places().role(role).verdict);
        return {Exit::yes, json_text(json)};
    }
    auto out = wrapped(written_text(session, *situation, fact), 0, 2);
    if (!role.empty()) {
        const auto answer = situation->places().role(role);
        out += wrapped(
            fmt::format("{} on {} now: {}.", answer.title, fact.vehicle, capitalised(verdict_words(answer.verdict))), 0,
            2);
        for (const auto& text : amounts_missing(session.catalog(), fact.rows.back().second)) out += wrapped(text, 0, 2);
    }
    return {Exit::yes,
            out + wrapped(fmt::format("It is statement {0} of {1}. Wrong? casebound own correct {0} COLUMN=VALUE, or "
                                      "casebound own withdraw {0}",
                                      number, folder),
                          0, 2)};
}

}  // namespace casebound
