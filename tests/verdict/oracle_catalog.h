// Small catalogs as plain data, and putting them into a database: what the oracles reason about. Values are read
// here a second time, on their own: nothing uses core's conditions, possibilities or judge, so that agreement
// with them means something.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "core/store/schema_sql.h"
#include "core/verdict/catalog.h"

namespace casebound::tests {

// ---------------------------------------------------------------- values, as a person reads them

struct PlainAttribute {
    std::string name;
    ValueKind kind = ValueKind::choice;
    std::string unit;
    double tolerance = 0, minutes = 5;
    bool raised = false, dismantling = false;
    std::vector<std::string> pool;  // values as a pack may spell them
    bool ordered() const { return kind == ValueKind::number || kind == ValueKind::year || kind == ValueKind::month; }
};

struct PlainValue {
    bool none = false;
    double number = 0;  // mm, L; year; month as year * 12 + month - 1
    std::string word;   // for choices
};

// The inch is 25.4 mm, the US liquid quart 0.946352946 L, both exactly (NIST Handbook 44, Appendix C).
inline PlainValue plain_value(const PlainAttribute& a, const std::string& text) {
    PlainValue value;
    value.none = text == "none";
    value.word = text;
    if (value.none || !a.ordered()) return value;
    if (a.kind == ValueKind::month) {
        value.number = std::stoi(text.substr(0, 4)) * 12 + std::stoi(text.substr(5, 2)) - 1;
        return value;
    }
    value.number = std::stod(text);
    if (text.find("in") != std::string::npos) value.number *= 25.4;
    if (text.find("US qt") != std::string::npos) value.number *= 0.946352946;
    return value;
}

// One string for one value, however it is spelled.
inline std::string value_key(bool none, bool ordered, double number, const std::string& word) {
    return none ? "none" : ordered ? fmt::format("{:.4f}", number) : word;
}

inline const std::vector<PlainAttribute>& plain_attributes() {
    using K = ValueKind;
    static const std::vector<PlainAttribute> all{
        {"engine", K::choice, "", 0, 3, false, false, {"2.0", "2.6", "3.0 diesel", "none"}},
        {"drive", K::choice, "", 0, 2, false, false, {"2wd", "4wd", "awd"}},
        {"tag_code", K::choice, "", 0, 6, true, false, {"T1", "T2", "T3"}},
        {"cooler", K::yes_no, "", 0, 4, false, false, {"yes", "no"}},
        {"hose", K::yes_no, "", 0, 1, false, false, {"yes", "no", "none"}},
        {"pan_depth", K::number, "mm", 1.5, 3, true, false, {"33 mm", "38mm", "39", "1.6 in", "45 mm", "52mm", "none"}},
        {"rod_length", K::number, "mm", 0, 8, true, true, {"100", "101.5 mm", "4 in", "110mm"}},
        {"sump", K::number, "L", 0, 10, true, true, {"4.5 L", "5 US qt", "7 US qt", "5.3 L"}},
        {"year", K::year, "", 0, 1, false, false, {"2001", "2002", "2003", "2004", "2005", "2006", "2007"}},
        {"build",
         K::month,
         "",
         0,
         1,
         false,
         false,
         {"2003-10", "2003-11", "2003-12", "2004-01", "2004-02", "2004-03", "none"}},
    };
    return all;
}

// ---------------------------------------------------------------- a catalog

struct PlainSource {
    std::string key;
    Evidence evidence;
};

inline const std::vector<PlainSource>& plain_sources() {
    static const std::vector<PlainSource> all{
        {"maker-book", Evidence::maker},       {"maker-bulletin", Evidence::maker},
        {"measured-here", Evidence::measured}, {"practice", Evidence::common_practice},
        {"old-hand", Evidence::memory},        {"other-hand", Evidence::memory},
        {"standard-sheet", Evidence::standard}};
    return all;
}

using Where = std::vector<bool>;  // by configuration

struct PlainRow {
    std::string role, group, condition, withdrawn;  // group empty: none needed
    Says says = Says::fits;
    std::optional<double> quantity;
    std::size_t source = 0;
    std::uint32_t line = 0;  // in applications.csv
    Where on;                // where the condition holds
};

struct PlainObjection {
    std::string role, group, condition;
    Verdict at_most = Verdict::does_not_fit;
    Where on;
};

struct PlainFact {
    std::string attribute, right_side;
    TellEvidence evidence = TellEvidence::measured;
    bool applies = true;  // to this line
    Where on;
};

struct PlainCatalog {
    std::vector<const PlainAttribute*> attributes;
    std::vector<std::pair<std::string, std::optional<double>>> configuration_rows;  // text, share
    std::vector<std::vector<PlainValue>> configurations;                            // values by attribute
    std::vector<double> weights;
    std::vector<PlainRow> rows;
    std::vector<PlainObjection> objections;
};

inline const std::vector<std::string>& plain_roles() {
    static const std::vector<std::string> all{"alpha-part", "beta-part", "gamma-part"};
    return all;
}
inline const std::string& unloaded_role() { return plain_roles().back(); }  // its domain is never loaded

// Every value of a configuration in the line's order: names it, however core orders configurations.
inline std::string configuration_key(const PlainCatalog& plain, std::size_t configuration) {
    std::string key;
    for (std::size_t a = 0; a < plain.attributes.size(); ++a) {
        const auto& value = plain.configurations[configuration][a];
        key += fmt::format("{}={};", plain.attributes[a]->name,
                           value_key(value.none, plain.attributes[a]->ordered(), value.number, value.word));
    }
    return key;
}

// ---------------------------------------------------------------- put into a database

using Cell = std::variant<std::nullptr_t, std::int64_t, double, std::string>;

inline void put(const Database& database, const std::string& sql, const std::vector<std::vector<Cell>>& rows) {
    Statement insert(database, sql);
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            const int at = static_cast<int>(i) + 1;
            if (const auto* whole = std::get_if<std::int64_t>(&row[i])) insert.bind(at, *whole);
            else if (const auto* real = std::get_if<double>(&row[i])) insert.bind(at, *real);
            else if (const auto* text = std::get_if<std::string>(&row[i])) insert.bind(at, std::string_view(*text));
            else insert.bind_null(at);
        }
        insert.run();
    }
}

inline Cell or_null(const std::string& text) { return text.empty() ? Cell(nullptr) : Cell(text); }
inline Cell or_null(const std::optional<double>& number) { return number ? Cell(*number) : Cell(nullptr); }

constexpr std::int64_t test_pack = std::int64_t{1} << 32;
constexpr int ordinal_bits = 20;

// The one database the catalogs go into, each after the other.
class Bench {
public:
    Bench() : database_(std::make_unique<Database>(":memory:", Database::Mode::create)) {
        database_->execute(core_sql);
        database_->execute(catalog_sql);
        database_->execute("PRAGMA foreign_keys=OFF; INSERT INTO pack VALUES (1,'oracle','oracle','1',0,'','')");
        for (const auto& a : plain_attributes())
            put(*database_,
                "INSERT INTO known_attribute VALUES (?,?,?,?,?,'look at "
                "it',?,?,?,0,'',-9e999,9e999,-9e999,9e999,0,'',0,'','toy')",
                {{a.name, a.name, std::string(value_kind_name(a.kind)), a.unit, a.tolerance, a.minutes,
                  std::int64_t{a.raised}, std::int64_t{a.dismantling}}});
        database_->execute(
            "INSERT INTO known_attribute VALUES "
            "('knock','knock','yes_no','',0,'listen',2,0,0,1,'',-9e999,9e999,-9e999,9e999,0,'',0,'','toy');"
            "INSERT INTO known_item_kind VALUES ('widget','widget','each','toy'),('gadget','gadget','each','absent');");
        for (const auto& role : plain_roles())
            put(*database_, "INSERT INTO known_role VALUES (?,?,?,0,?)",
                {{role, role, std::string(role == unloaded_role() ? "gadget" : "widget"),
                  std::string(role == unloaded_role() ? "absent" : "toy")}});
    }

    // A catalog over what was put; the bench has no database until the catalog is closed.
    std::unique_ptr<Catalog> open() {
        put(*database_, "INSERT INTO name VALUES (?,?)", new_names_);
        new_names_.clear();
        return std::make_unique<Catalog>(std::move(*database_));
    }
    void close(std::unique_ptr<Catalog> catalog) {
        database_ = std::make_unique<Database>(std::move(catalog->database()));
    }

    const Database& database() const { return *database_; }
    std::int64_t name(const std::string& text) {
        const auto [at, fresh] = names_.try_emplace(text, static_cast<std::int64_t>(names_.size()) + 1);
        if (fresh) new_names_.push_back({at->second, text});
        return at->second;
    }

    void clear() {
        database_->execute(
            "DELETE FROM application; DELETE FROM member; DELETE FROM stand_ins; DELETE FROM item_group; DELETE FROM "
            "item; "
            "DELETE FROM configurations; DELETE FROM lines; DELETE FROM sources; DELETE FROM name");
        names_.clear();
        new_names_.clear();
        std::vector<std::vector<Cell>> rows;
        for (std::size_t i = 0; i < plain_sources().size(); ++i) {
            const auto& source = plain_sources()[i];
            rows.push_back({test_pack + 2 + static_cast<std::int64_t>(i), source.key,
                            std::string(evidence_name(source.evidence)), source.key});
        }
        put(*database_, "INSERT INTO sources VALUES (?,?,?,?,NULL,NULL)", rows);
    }

    std::int64_t put_group(const std::string& key, const std::string& kind, std::uint32_t line) {
        const auto id = name(key);
        put(*database_, "INSERT OR IGNORE INTO item_group VALUES (?,?,?,?,?)",
            {{id, name(kind), key, name("maker-book"), test_pack + line}});
        return id;
    }

    // `order`: which row of the catalog goes in first, second, ...; empty: as they stand.
    void put_catalog(const PlainCatalog& plain, const std::vector<std::size_t>& order = {}) {
        clear();
        for (const auto at : order) name(plain.rows[at].condition + "x");  // other numbers for the same names
        const auto line = name("oracle-line");
        put(*database_, "INSERT INTO lines VALUES (?,'oracle-line','Oracle line',NULL,'maker-book')",
            {{test_pack + 2}});
        std::vector<std::vector<Cell>> rows;
        for (const auto& [text, share] : plain.configuration_rows)
            rows.push_back({test_pack + 2 + static_cast<std::int64_t>(rows.size()), text, or_null(share)});
        name("maker-book");
        put(*database_, "INSERT INTO configurations VALUES (?,'oracle-line',?,?,'maker-book')", rows);
        rows.clear();
        for (std::size_t i = 0; i < plain.rows.size(); ++i) {
            const auto& row = plain.rows[order.empty() ? i : order[i]];
            const Cell group = row.group.empty() ? Cell(nullptr) : Cell(put_group(row.group, "widget", row.line));
            const Cell condition = row.condition.empty() ? Cell(nullptr) : Cell(name(row.condition));
            rows.push_back({(line << ordinal_bits) + static_cast<std::int64_t>(i), name(row.role),
                            static_cast<std::int64_t>(row.says), group, condition, or_null(row.quantity),
                            name(plain_sources()[row.source].key), test_pack + row.line, or_null(row.withdrawn)});
        }
        put(*database_, "INSERT INTO application VALUES (?,?,?,?,?,?,?,?,NULL,?)", rows);
    }

private:
    std::unique_ptr<Database> database_;
    std::map<std::string, std::int64_t> names_;
    std::vector<std::vector<Cell>> new_names_;
};

}  // namespace casebound::tests
