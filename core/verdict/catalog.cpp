#include "core/verdict/catalog.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/pack/catalog_file.h"
#include "core/pack/facts.h"
#include "core/reason/spelled_columns.h"

namespace casebound {

namespace {

struct SourceRow {
    std::string title;
    Evidence evidence = Evidence::invented;
};

Database open_catalog(const std::string& path) {
    if (!std::filesystem::exists(path))
        throw Error(Exit::no_input,
                    fmt::format("{}: there is no catalog yet: `casebound pack load --reference` loads what every "
                                "domain ships, `casebound pack load FOLDER` a pack of your own",
                                path));
    finish_interrupted_load(path);
    Database database = open_catalog_file(path, Database::Mode::read_only);
    database.execute("PRAGMA mmap_size=1073741824");
    require_catalog(database);
    return database;
}

std::vector<std::string> split_choices(std::string_view text) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const auto end = text.find('|');
        parts.emplace_back(text.substr(0, end));
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    }
    return parts;
}

Attribute attribute_from(const Statement& row) {
    Attribute a;
    a.name = row.str(0);
    a.title = row.str(1);
    a.kind = value_kind_from(row.text(2));
    a.unit = row.str(3);
    a.tolerance = row.real(4);
    a.how = row.str(5);
    a.minutes = row.real(6);
    a.raised = row.integer(7) != 0;
    a.dismantling = row.integer(8) != 0;
    a.finding = row.integer(9) != 0;
    a.choices = split_choices(row.text(10));
    a.extent = {row.real(11), row.real(12), row.real(13), row.real(14), row.integer(15) != 0};
    a.words = split_choices(row.text(16));
    a.several = row.integer(17) != 0;
    a.alone = row.str(18);
    return a;
}

}  // namespace

// Prepared statements and what has been read; names and sources are read once each.
struct Catalog::Reader {
    explicit Reader(const Database& db)
        : name(db, "SELECT text FROM name WHERE id = ?"), id(db, "SELECT id FROM name WHERE text = ?"),
          group(db,
                "SELECT n.text, k.text, g.title, g.source, g.origin FROM item_group g JOIN name n ON n.id = g.id JOIN "
                "name k ON k.id = g.kind WHERE g.id = ?"),
          item(db,
               "SELECT k.text, i.title, i.withdrawn, i.pack_quantity, i.source, i.origin FROM item i JOIN name k ON "
               "k.id = i.kind WHERE i.id = ?"),
          members(db,
                  "SELECT n.text, i.title, i.withdrawn, i.pack_quantity, m.basis, m.source, m.origin, "
                  "(SELECT count(*) FROM member o WHERE o.item = m.item) > 1 FROM member m JOIN item i ON i.id = "
                  "m.item JOIN name n ON n.id = m.item WHERE m.id BETWEEN ? AND ? ORDER BY m.id"),
          applications(db,
                       "SELECT role, says, item_group, condition, quantity, source, origin, note, withdrawn FROM "
                       "application WHERE id BETWEEN ? AND ? ORDER BY id"),
          source(db, "SELECT kind, title, edition FROM sources WHERE source = ?"),
          head(db,
               "SELECT l.title, l.note, n.id, l.origin, s.id FROM lines l JOIN name n ON n.text = l.line JOIN name s "
               "ON s.text = l.source WHERE l.line = ?"),
          configurations(db,
                         "SELECT c.attribute_values, c.share, c.origin, n.id FROM configurations c JOIN name n ON "
                         "n.text = c.source WHERE c.line = ? ORDER BY c.origin") {
        Statement packs(db, "SELECT id, folder FROM pack");
        while (packs.step()) read_from[packs.integer(0)] = packs.str(1);
    }

    const SourceRow& source_row(std::int64_t key, const Catalog& catalog) {
        const auto [found, fresh] = sources.try_emplace(key);
        if (fresh && source.reset().bind(1, catalog.name_of(key)).step())
            found->second = {
                source.text(2).empty() ? source.str(1) : fmt::format("{}, {}", source.text(1), source.text(2)),
                evidence_from(source.text(0))};
        return found->second;
    }

    Statement name, id, group, item, members, applications, source, head, configurations;
    std::unordered_map<std::int64_t, std::string> names;
    std::map<std::int64_t, std::string> read_from;  // the folder or the workbook of each pack
    std::unordered_map<std::int64_t, std::optional<Group>> groups;
    std::unordered_map<std::int64_t, std::vector<Member>> member_lists;
    std::unordered_map<std::int64_t, SourceRow> sources;
    std::unordered_map<std::int64_t, Condition> conditions;
    std::unordered_map<std::int64_t, std::vector<ApplicationRow>> application_lists;
    std::map<std::pair<std::int64_t, std::int64_t>, Bits> bits;
    std::map<std::string, std::unique_ptr<LineModel>, std::less<>> lines;
    std::int64_t last_open = 0;  // ids of readings of open lines count down
    std::unique_ptr<CatalogFacts> facts;
    std::map<std::string, std::unique_ptr<Facts>, std::less<>> domain_facts;
};

namespace {
constexpr int ordinal_bits = 20;
constexpr std::int64_t last_ordinal = (std::int64_t{1} << ordinal_bits) - 1;
}  // namespace

Catalog::Catalog(const std::string& path) : Catalog(open_catalog(path)) {}

Catalog::Catalog(Database open) : database_(std::move(open)) {
    const Transaction one_moment(database_, false);
    Statement rows(database_, "SELECT id, name, title, version, invented FROM pack ORDER BY id");
    while (rows.step()) packs_[rows.integer(0)] = {rows.str(1), rows.str(2), rows.str(3), rows.integer(4) != 0};
    read_vocabularies();
    reader_ = std::make_unique<Reader>(database_);
    reader_->facts = std::make_unique<CatalogFacts>(database_);
}

Catalog::~Catalog() = default;

void Catalog::read_vocabularies() {
    const auto grouped = [&](std::string_view sql, auto read) {
        std::map<std::string, Vocabulary> by_owner;
        Statement rows(database_, sql);
        while (rows.step()) read(rows, by_owner);
        for (const auto& [owner, words] : by_owner) vocabularies_.add(words, owner);
    };
    grouped(
        "SELECT attribute, title, kind, unit, tolerance, how, minutes, raised, dismantling, finding, choices, least, "
        "most, usual_least, usual_most, whole, words, several, alone, domain"
        " FROM known_attribute WHERE domain <> 'core' ORDER BY attribute",
        [](const Statement& row, auto& owners) { owners[row.str(19)].attributes.push_back(attribute_from(row)); });
    grouped("SELECT kind, title, unit, domain FROM known_item_kind WHERE domain <> 'core' ORDER BY kind",
            [](const Statement& row, auto& owners) {
                owners[row.str(3)].item_kinds.push_back({row.str(0), row.str(1), row.str(2)});
            });
    grouped("SELECT role, title, item_kind, exact_only, domain FROM known_role ORDER BY role", [](const Statement& row,
                                                                                                  auto& owners) {
        owners[row.str(4)].roles.push_back({row.str(0), row.str(1), row.str(2), stand_ins_from(row.integer(3) != 0)});
    });
}

const Facts& Catalog::facts() const { return *reader_->facts; }

const Facts& Catalog::facts_for(const GuardedDomain& domain) const {
    auto found = reader_->domain_facts.find(domain.name());
    if (found == reader_->domain_facts.end())
        found = reader_->domain_facts
                    .emplace(domain.name(), std::make_unique<CatalogFacts>(
                                                *reader_->facts, domain.name(),
                                                domain.reads().answer.value_or(std::vector<std::string>{}),
                                                [domain] { return domain.schema().answer.value_or(std::string()); }))
                    .first;
    return *found->second;
}

std::vector<std::string> Catalog::line_keys() const {
    std::vector<std::string> keys;
    Statement rows(database_, "SELECT line FROM lines ORDER BY line");
    while (rows.step()) keys.push_back(rows.str(0));
    return keys;
}

const LineModel* Catalog::line(std::string_view key, const std::vector<ToldFact>& told) const {
    auto found = reader_->lines.find(key);
    if (found == reader_->lines.end()) found = reader_->lines.emplace(std::string(key), read_line(key)).first;
    if (!found->second || !found->second->open || told.empty()) return found->second.get();
    std::string as_told(key);
    for (const auto& fact : told) as_told += fmt::format("\x1f{}={}", fact.attribute, fact.right_side.text());
    auto open = reader_->lines.find(as_told);
    if (open == reader_->lines.end()) {
        auto line = read_line(key);
        leave_open(*line, told);
        open = reader_->lines.emplace(std::move(as_told), std::move(line)).first;
    }
    return open->second.get();
}

std::unique_ptr<LineModel> Catalog::read_line(std::string_view key) const {
    auto& head = reader_->head;
    if (!head.reset().bind(1, key).step()) return nullptr;
    auto line = std::make_unique<LineModel>();
    line->key = key;
    line->title = head.str(0);
    line->note = head.str(1);
    line->id = line->row = head.integer(2);
    read_configurations(*line);
    if (line->set.size() > 0) return line;
    line->open = true;
    line->origins = {head.integer(3)};
    line->sources = {head.integer(4)};
    leave_open(*line, {});
    return line;
}

void Catalog::leave_open(LineModel& line, const std::vector<ToldFact>& told) const {
    std::vector<Condition> parsed;
    std::vector<const Condition*> said;
    for (const char* table : {"job_roles", "stays_behind"})
        for (const auto& row : facts().rows(table, "line", line.key))
            parsed.push_back(parse_condition(row.text("condition")));
    for (const auto& one : parsed) said.push_back(&one);
    auto& rows = reader_->applications;
    rows.reset().bind(1, line.row << ordinal_bits).bind(2, (line.row << ordinal_bits) + last_ordinal);
    while (rows.step()) said.push_back(&condition(rows.integer(3)));
    line.set = open_set(vocabularies_, line.key, said, told);
    line.origins.assign(line.set.size(), line.origins.front());
    line.sources.assign(line.set.size(), line.sources.front());
    line.id = --reader_->last_open;
}

void Catalog::read_configurations(LineModel& line) const {
    SpelledColumns columns(vocabularies_);
    auto& rows = reader_->configurations;
    rows.reset().bind(1, line.key);
    while (rows.step()) {
        const auto count = columns.add(parse_condition(rows.text(0)), rows.is_null(1) ? 1.0 : rows.real(1));
        line.origins.insert(line.origins.end(), count, rows.integer(2));
        line.sources.insert(line.sources.end(), count, rows.integer(3));
    }
    line.set = columns.possibilities();
}

const std::vector<ApplicationRow>& Catalog::applications(const LineModel& line) const {
    const auto [found, fresh] = reader_->application_lists.try_emplace(line.id);
    if (!fresh) return found->second;
    auto& rows = reader_->applications;
    rows.reset().bind(1, line.row << ordinal_bits).bind(2, (line.row << ordinal_bits) + last_ordinal);
    while (rows.step()) {
        ApplicationRow row;
        row.role = rows.integer(0);
        row.says = static_cast<Says>(rows.integer(1));
        row.group = rows.integer(2);
        row.condition = rows.integer(3);
        row.quantity_stated = !rows.is_null(4);
        if (row.quantity_stated) row.quantity = rows.real(4);
        row.source = rows.integer(5);
        row.origin = rows.integer(6);
        row.note = rows.text(7);
        row.withdrawn = rows.text(8);
        row.evidence = evidence(row.source);
        row.when = &condition(row.condition);
        row.on = &condition_bits(line, row.condition);
        found->second.push_back(std::move(row));
    }
    return found->second;
}

const Condition& Catalog::condition(std::int64_t id) const {
    const auto [found, fresh] = reader_->conditions.try_emplace(id);
    if (fresh && id != 0) found->second = parse_condition(name_of(id));
    return found->second;
}

const Bits& Catalog::condition_bits(const LineModel& line, std::int64_t id) const {
    const auto [found, fresh] = reader_->bits.try_emplace({line.id, id});
    if (fresh) found->second = line.set.where(condition(id));
    return found->second;
}

std::optional<std::int64_t> Catalog::id_of(std::string_view name) const {
    auto& rows = reader_->id;
    return rows.reset().bind(1, name).step() ? std::optional(rows.integer(0)) : std::nullopt;
}

const std::string& Catalog::name_of(std::int64_t id) const {
    const auto [found, fresh] = reader_->names.try_emplace(id);
    if (fresh && reader_->name.reset().bind(1, id).step()) found->second = reader_->name.text(0);
    return found->second;
}

const Group* Catalog::group(std::int64_t id) const {
    const auto [found, fresh] = reader_->groups.try_emplace(id);
    auto& row = reader_->group;
    if (fresh && row.reset().bind(1, id).step())
        found->second = Group{id, row.str(0), row.str(1), row.str(2), origin(row.integer(4), "groups", row.integer(3))};
    return found->second ? &*found->second : nullptr;
}

std::optional<Group> Catalog::group(std::string_view key) const {
    const auto id = id_of(key);
    const Group* found = id ? group(*id) : nullptr;
    return found ? std::optional(*found) : std::nullopt;
}

std::optional<Item> Catalog::item(std::string_view key) const {
    const auto id = id_of(key);
    auto& row = reader_->item;
    if (!id || !row.reset().bind(1, *id).step()) return std::nullopt;
    return Item{std::string(key), row.str(0),  row.str(1),
                row.str(2),       row.real(3), origin(row.integer(5), "items", row.integer(4))};
}

const std::vector<Member>& Catalog::members(std::int64_t group) const {
    const auto [found, fresh] = reader_->member_lists.try_emplace(group);
    if (!fresh) return found->second;
    auto& row = reader_->members;
    row.reset().bind(1, group << ordinal_bits).bind(2, (group << ordinal_bits) + last_ordinal);
    while (row.step())
        found->second.push_back({row.str(0), row.str(1), row.str(2), row.real(3), static_cast<Basis>(row.integer(4)),
                                 origin(row.integer(6), "group_members", row.integer(5)), row.integer(7) != 0});
    return found->second;
}

std::vector<std::string> Catalog::groups_of(std::string_view item) const {
    std::vector<std::string> keys;
    const auto id = id_of(item);
    if (!id) return keys;
    Statement rows(database_,
                   "SELECT n.text FROM member m JOIN name n ON n.id = m.id >> 20 WHERE m.item = ? ORDER BY m.origin");
    rows.bind(1, *id);
    while (rows.step()) keys.push_back(rows.str(0));
    return keys;
}

std::vector<std::string> Catalog::near(std::string_view word, std::string_view table) const {
    std::vector<std::string> words;
    const char* sql = table == "items"    ? "SELECT n.text FROM item i JOIN name n ON n.id = i.id"
                      : table == "groups" ? "SELECT n.text FROM item_group g JOIN name n ON n.id = g.id"
                      : table == "jobs"   ? "SELECT job FROM jobs"
                                          : "SELECT line FROM lines";
    Statement rows(database_, fmt::format("{} LIMIT 20000", sql));
    while (rows.step()) words.push_back(rows.str(0));
    const auto best = nearest(word, words);
    return best.empty() ? std::vector<std::string>{} : std::vector<std::string>{best};
}

Evidence Catalog::evidence(std::int64_t source) const { return reader_->source_row(source, *this).evidence; }

Origin Catalog::origin(std::int64_t origin, std::string_view table, std::int64_t source) const {
    const auto& said = reader_->source_row(source, *this);
    const auto pack = packs_.find(origin >> 32);
    const auto read_from = reader_->read_from.find(origin >> 32);
    return {pack == packs_.end() ? "" : pack->second.name,
            cited_file(read_from == reader_->read_from.end() ? "" : read_from->second, table),
            static_cast<std::uint32_t>(origin & 0xffffffff), said.title, said.evidence};
}

bool Catalog::invented(std::int64_t origin) const {
    const auto pack = packs_.find(origin >> 32);
    return pack != packs_.end() && pack->second.invented;
}

}  // namespace casebound
