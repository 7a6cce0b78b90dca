#include "core/pack/pack_words.h"

#include <algorithm>
#include <charconv>
#include <optional>

#include <fmt/format.h>

#include "core/ground/units.h"
#include "core/ground/utf8.h"

namespace casebound {

namespace {

bool loaded(const Plugins& plugins, std::string_view domain) { return plugins.find(domain) != nullptr; }

std::vector<std::string> split_choices(std::string_view text) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const auto end = text.find('|');
        parts.emplace_back(text.substr(0, end));
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    }
    return parts;
}

// What domains that are not loaded today have said of themselves.
void add_absent_domains(Vocabularies& words, const Plugins& plugins, const Database& database) {
    const auto each = [&](std::string_view sql, auto take) {
        Statement rows(database, sql);
        while (rows.step()) {
            const auto owner = rows.str(0);
            if (owner == "core" || owner.substr(0, 5) == "pack " || loaded(plugins, owner)) continue;
            Vocabulary one;
            take(rows, one);
            words.add(one, owner);
        }
    };
    each(
        "SELECT domain, attribute, title, kind, unit, tolerance, how, minutes, raised, dismantling, finding, choices, "
        "least, most, usual_least, usual_most, whole, words, several, alone FROM known_attribute ORDER BY attribute",
        [](const Statement& row, Vocabulary& one) {
            one.attributes.push_back({row.str(1),
                                      row.str(2),
                                      value_kind_from(row.text(3)),
                                      row.str(4),
                                      row.real(5),
                                      row.str(6),
                                      row.real(7),
                                      row.integer(8) != 0,
                                      row.integer(9) != 0,
                                      row.integer(10) != 0,
                                      split_choices(row.text(11)),
                                      {row.real(12), row.real(13), row.real(14), row.real(15), row.integer(16) != 0},
                                      split_choices(row.text(17)),
                                      row.integer(18) != 0,
                                      row.str(19)});
        });
    each("SELECT domain, kind, title, unit FROM known_item_kind ORDER BY kind",
         [](const Statement& row, Vocabulary& one) {
             one.item_kinds.push_back({row.str(1), row.str(2), row.str(3)});
         });
    each("SELECT domain, role, title, item_kind, exact_only FROM known_role ORDER BY role",
         [](const Statement& row, Vocabulary& one) {
             one.roles.push_back({row.str(1), row.str(2), row.str(3), stand_ins_from(row.integer(4) != 0)});
         });
}

void add_other_packs(Vocabularies& words, const LoadedPacks& others) {
    Statement rows(
        others.database(),
        "SELECT p.name, a.attribute, a.title, a.kind, a.unit, a.tolerance, a.how, a.minutes, a.raised, a.dismantling "
        "FROM attributes a JOIN pack p ON p.id = a.origin >> 32 WHERE a.origin NOT BETWEEN ?1 AND ?2 ORDER BY "
        "a.origin");
    rows.bind(1, others.first_origin()).bind(2, others.last_origin());
    while (rows.step()) {
        Vocabulary one;
        one.attributes.push_back({rows.str(1),
                                  rows.str(2),
                                  value_kind_from(rows.text(3)),
                                  rows.str(4),
                                  rows.real(5),
                                  rows.str(6),
                                  rows.real(7),
                                  rows.text(8) == "yes",
                                  rows.text(9) == "yes",
                                  false,
                                  {}});
        words.add(one, "pack " + rows.str(0));
    }
}

double number_or(std::string_view text, double fallback) {
    double value = fallback;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

bool snake_case(std::string_view text) {
    return !text.empty() && text[0] >= 'a' && text[0] <= 'z' && std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    });
}

// One row of attributes.csv.
class OwnAttribute {
public:
    OwnAttribute(const PlainTable& table, std::size_t row, FaultList& faults)
        : table_(table), row_(row), faults_(faults) {}

    std::optional<Attribute> read() {
        const auto kind = cell("kind");
        const auto& choices = table_.shape->columns[at("kind")].choices;
        if (std::find(choices.begin(), choices.end(), kind) == choices.end()) return std::nullopt;  // already a fault
        if (!cell("attribute").empty() && !snake_case(cell("attribute")))
            fault("attribute",
                  fmt::format("`{}` is not snake_case: write lower-case letters, digits and _, as in pan_depth",
                              shown(cell("attribute"))));
        check_unit(kind);
        return Attribute{std::string(cell("attribute")),
                         std::string(cell("title")),
                         value_kind_from(kind),
                         std::string(cell("unit")),
                         number_or(cell("tolerance"), 0),
                         std::string(cell("how")),
                         number_or(cell("minutes"), 5),
                         cell("raised") == "yes",
                         cell("dismantling") == "yes",
                         false,
                         {}};
    }

    void fault(std::string_view column, std::string what) {
        faults_.at(*table_.shape, table_.lines[row_], at(column), std::move(what));
    }

private:
    void check_unit(std::string_view kind) {
        const auto unit = cell("unit");
        if (kind != "number" && !unit.empty())
            fault("unit", fmt::format("`{}`: only a number has a unit: leave it empty", shown(unit)));
        if (kind != "number" && !cell("tolerance").empty())
            fault("tolerance", "only a number has a tolerance: leave it empty");
        if (kind == "number" && !known_unit(unit))
            fault("unit",
                  fmt::format("`{}` is not a known unit: write mm, L, ohm, degC, N m, kg, V, A or %", shown(unit)));
    }

    std::size_t at(std::string_view column) const { return table_.shape->find(column); }
    std::string_view cell(std::string_view column) const { return table_.cell(row_, at(column)); }

    const PlainTable& table_;
    std::size_t row_;
    FaultList& faults_;
};

template <class Words> std::string unknown_word(const Words& words, std::string_view text, std::string_view what) {
    std::vector<std::string> known;
    for (const auto& [name, word] : words) known.push_back(name);
    const auto near = nearest(text, known);
    return near.empty() ? fmt::format(
                              "`{}` is not {} that core or a loaded domain knows: correct it, or load its domain "
                              "(`casebound plugin list`)",
                              shown(text), what)
                        : fmt::format("`{}` is not {}: did you mean {}?", shown(text), what, near);
}

std::string choices_text(const std::vector<std::string>& choices) { return fmt::format("{}", fmt::join(choices, "|")); }

}  // namespace

Vocabularies words_without(const Plugins& plugins, const LoadedPacks& others) {
    Vocabularies words;
    for (const auto& domain : plugins.domains) words.add(domain.vocabulary, domain.name);
    add_absent_domains(words, plugins, others.database());
    add_other_packs(words, others);
    return words;
}

void add_own_words(Vocabularies& words, const PackData& data, const std::string& pack, FaultList& faults) {
    const auto* table = data.find("attributes");
    if (!table) return;
    for (std::size_t row = 0; row < table->rows(); ++row) {
        OwnAttribute own(*table, row, faults);
        const auto attribute = own.read();
        if (!attribute) continue;
        Vocabulary one;
        one.attributes.push_back(*attribute);
        for (auto& clash : words.add(one, "pack " + pack)) own.fault("attribute", std::move(clash));
    }
}

void check_words(const Vocabularies& words, const PackData& data, const std::vector<TableView>& views,
                 FaultList& faults) {
    enum class WordKind : std::uint8_t { unasked, yes, no };
    for (const auto& view : views)
        for (std::size_t i = 0; i < view.shape->columns.size(); ++i) {
            const auto word = view.shape->columns[i].word;
            if (word == WordOf::nothing) continue;
            std::vector<WordKind> known(data.names.size(), WordKind::unasked);
            for (std::size_t row = 0; row < view.rows; ++row) {
                const NameId name = view.names[i][row];
                if (name == 0) continue;
                const auto text = data.names.text(name);
                if (known[name] == WordKind::unasked)
                    known[name] = (word == WordOf::role ? words.role(text) != nullptr
                                                        : words.item_kind(text) != nullptr)
                                      ? WordKind::yes
                                      : WordKind::no;
                if (known[name] == WordKind::yes || faults.only_counted()) continue;
                faults.at(*view.shape, view.lines[row], i,
                          word == WordOf::role ? unknown_role(words, text)
                                               : unknown_word(words.item_kinds(), text, "an item kind"));
            }
        }
}

std::string unknown_role(const Vocabularies& words, std::string_view name) {
    return unknown_word(words.roles(), name, "a role");
}

std::string unknown_attribute(const Vocabularies& words, std::string_view name) {
    return unknown_word(words.attributes(), name, "an attribute");
}

void store_words(Database& catalog, const Vocabularies& words) {
    catalog.execute("DELETE FROM known_role; DELETE FROM known_item_kind; DELETE FROM known_attribute");
    Statement role(catalog, "INSERT INTO known_role VALUES (?,?,?,?,?)");
    for (const auto& [name, owned] : words.roles())
        role.bind(1, name)
            .bind(2, owned.word.title)
            .bind(3, owned.word.item_kind)
            .bind(4, std::int64_t{owned.word.exact_only()})
            .bind(5, owned.owner)
            .run();
    Statement kind(catalog, "INSERT INTO known_item_kind VALUES (?,?,?,?)");
    for (const auto& [name, owned] : words.item_kinds())
        kind.bind(1, name).bind(2, owned.word.title).bind(3, owned.word.unit).bind(4, owned.owner).run();
    Statement attribute(catalog, "INSERT INTO known_attribute VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)");
    for (const auto& [name, owned] : words.attributes()) {
        const auto& a = owned.word;
        attribute.bind(1, name)
            .bind(2, a.title)
            .bind(3, value_kind_name(a.kind))
            .bind(4, a.unit)
            .bind(5, a.tolerance)
            .bind(6, a.how)
            .bind(7, a.minutes);
        attribute.bind(8, std::int64_t{a.raised})
            .bind(9, std::int64_t{a.dismantling})
            .bind(10, std::int64_t{a.finding});
        attribute.bind(11, choices_text(a.choices))
            .bind(12, a.extent.least)
            .bind(13, a.extent.most)
            .bind(14, a.extent.usual_least)
            .bind(15, a.extent.usual_most);
        attribute.bind(16, std::int64_t{a.extent.whole})
            .bind(17, choices_text(a.words))
            .bind(18, std::int64_t{a.several})
            .bind(19, a.alone)
            .bind(20, owned.owner)
            .run();
    }
}

}  // namespace casebound
