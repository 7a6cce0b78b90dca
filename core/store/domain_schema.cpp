#include "core/store/domain_schema.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/store/pack_tables.h"

namespace casebound {

namespace {

// Action codes of sqlite3_set_authorizer (SQLite, "Authorizer Action Codes"): fixed since 3.0.
enum Action : int {
    create_index = 1,
    create_table = 2,
    create_trigger = 7,
    create_view = 8,
    insert = 18,
    pragma = 19,
    read = 20,
    transaction = 22,
    update = 23,
    attach = 24,
    detach = 25,
    reindex = 27,
    create_vtable = 29,
    function = 31
};

// What else core names with a `_` (schema/catalog.sql): not to be taken by a domain called `item` or `known`.
constexpr std::array<std::string_view, 13> core_names{"item_group",
                                                      "member_by_item",
                                                      "known_role",
                                                      "name_as_compared",
                                                      "known_item_kind",
                                                      "known_attribute",
                                                      "configurations_by_line",
                                                      "stand_ins_by_wanted",
                                                      "stand_ins_by_offered",
                                                      "kit_contents_by_group",
                                                      "job_roles_by_job",
                                                      "stays_behind_by_role",
                                                      "cautions_by_job"};

template <std::size_t N> bool among(const std::array<std::string_view, N>& names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

bool begins(std::string_view text, std::string_view start) { return text.substr(0, start.size()) == start; }

std::string_view deed(int action) {
    switch (action) {
        case create_index: return "CREATE INDEX";
        case create_table: return "CREATE TABLE";
        case create_trigger: return "CREATE TRIGGER";
        case create_view: return "CREATE VIEW";
        case create_vtable: return "CREATE VIRTUAL TABLE";
        case insert: return "INSERT INTO";
        case update: return "UPDATE";
        case read: return "reading";
        case pragma: return "PRAGMA";
        case transaction: return "transaction control:";
        case attach: return "ATTACH";
        case detach: return "DETACH";
        default: return "a statement that makes neither a table nor an index";
    }
}

class Confinement {
public:
    explicit Confinement(std::string_view domain) : prefix_(fmt::format("{}_", domain)) {}

    bool allows(int action, std::string_view first, std::string_view second) {
        const bool allowed = allowed_action(action, first, second);
        if (!allowed && denied_.empty()) denied_ = refused_deed(action, first);
        return allowed;
    }
    bool owns(std::string_view name) const {
        return begins(name, prefix_) && !is_pack_table(name) && !among(core_names, name);
    }
    const std::string& denied() const { return denied_; }  // the first refusal, "" when there is none

private:
    static std::string refused_deed(int action, std::string_view first) {
        if (first == "sqlite_temp_master") return "something temporary";  // where SQLite notes such things
        return first.empty() ? std::string(deed(action)) : fmt::format("{} {}", deed(action), first);
    }
    bool allowed_action(int action, std::string_view first, std::string_view second) const {
        switch (action) {
            case create_table:
            case reindex: return owns(first);
            case create_index: return owns(second) && (owns(first) || begins(first, "sqlite_autoindex_"));
            case insert:
            case update: return first == "sqlite_master";  // how SQLite itself notes a new table
            case read: return first == "sqlite_master" || owns(first);
            case function: return second != "load_extension";
            default: return false;
        }
    }

    std::string prefix_, denied_;
};

[[noreturn]] void refuse(std::string_view domain, std::string_view what) {
    throw Error(Exit::refused,
                fmt::format("schema of {}: {}: write only CREATE TABLE and CREATE INDEX, with names that begin "
                            "with `{}_`, and refer only to these and to core's pack tables",
                            domain, what, domain));
}

// SQLite's own words out of what Database says of a failure: "FILE: WORDS (START OF THE SQL): ADVICE".
std::string words_of(const Error& error, const Database& database, std::string_view sql) {
    const std::string whole = error.what();
    const std::size_t from = begins(whole, database.path()) ? database.path().size() + 2 : 0;
    const auto line = sql.substr(0, std::min<std::size_t>(sql.find('\n'), 80));
    return whole.substr(from, whole.find(fmt::format(" ({}", line), from) - from);
}

std::vector<std::string> column(const Database& database, std::string_view query, std::string_view bound = {}) {
    Statement statement(database, query);
    if (!bound.empty()) statement.bind(1, bound);
    std::vector<std::string> values;
    while (statement.step()) values.push_back(statement.str(0));
    return values;
}

void check_references(const Database& database, std::string_view domain) {
    const Confinement confinement(domain);
    for (const auto& table : column(database, "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"))
        for (const auto& target :
             column(database, "SELECT \"table\" FROM pragma_foreign_key_list(?1) ORDER BY 1", table))
            if (!confinement.owns(target) && !is_pack_table(target))
                refuse(domain, fmt::format("{} refers to {}, which is not a table of {} or a pack table", table, target,
                                           domain));
}

}  // namespace

bool is_core_name(std::string_view name) { return name == "core" || is_pack_table(name); }

void apply_domain_schema(Database& database, std::string_view domain, std::string_view sql) {
    if (sql.find('\0') != std::string_view::npos) refuse(domain, "a NUL character inside the text");
    Confinement confinement(domain);
    std::string fault;
    database.authorize([&](int action, std::string_view first, std::string_view second) {
        return confinement.allows(action, first, second);
    });
    try {
        database.execute(std::string(sql));
    } catch (const Error& error) { fault = words_of(error, database, sql); }
    database.authorize({});
    if (!confinement.denied().empty()) refuse(domain, confinement.denied());
    if (!fault.empty()) refuse(domain, fault);
}

void check_domain_schema(std::string_view domain, std::string_view sql) {
    Database database(":memory:", Database::Mode::create);
    apply_domain_schema(database, domain, sql);
    check_references(database, domain);
}

}  // namespace casebound
