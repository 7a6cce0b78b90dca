#include "core/pack/pack.h"

#include <filesystem>
#include <map>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/utf8.h"
#include "core/pack/catalog_file.h"
#include "core/pack/condition_check.h"
#include "core/pack/loaded_packs.h"
#include "core/pack/pack_check.h"
#include "core/pack/pack_dependents.h"
#include "core/pack/pack_run.h"
#include "core/pack/pack_store.h"
#include "core/pack/pack_words.h"

namespace casebound {

namespace {

// The four tables that are views, and the others as they are: name in a pack, name in the catalog.
std::vector<std::pair<std::string, std::string>> row_tables(const Database& catalog) {
    std::vector<std::pair<std::string, std::string>> tables;
    for (const char* table : {"items", "groups", "group_members", "applications"})
        tables.emplace_back(table, stored_as(table));
    for (const auto& table : plain_tables(catalog)) tables.emplace_back(table, table);
    return tables;
}

std::map<std::int64_t, PackSummary> packs_in(const Database& catalog) {
    std::map<std::int64_t, PackSummary> packs;
    Statement rows(catalog, "SELECT id, name, title, version, folder, invented FROM pack");
    while (rows.step())
        packs[rows.integer(0)] = {rows.str(1), rows.str(2), rows.str(3), rows.str(4), rows.integer(5) != 0, {}, false};
    for (const auto& [table, stored] : row_tables(catalog)) {
        Statement counts(catalog, fmt::format("SELECT origin >> 32, count(*) FROM {} GROUP BY 1", sql_name(stored)));
        while (counts.step())
            if (const auto pack = packs.find(counts.integer(0)); pack != packs.end())
                pack->second.rows.emplace_back(table, static_cast<std::size_t>(counts.integer(1)));
    }
    return packs;
}

std::int64_t find_pack(const std::map<std::int64_t, PackSummary>& packs, const std::string& name) {
    std::vector<std::string> names;
    for (const auto& [id, pack] : packs) {
        if (pack.name == name) return id;
        names.push_back(pack.name);
    }
    const auto near = nearest(name, names);
    throw Error(Exit::no_input,
                fmt::format("pack {}: it is not loaded: {}", shown(name),
                            near.empty() ? "see `casebound pack list`" : fmt::format("did you mean {}?", near)));
}

// What would be left without ground, as lines for a person.
std::vector<std::string> needed_elsewhere(Database& catalog, LoadedPacks& others) {
    const Plugins none;
    const PackShape shape(none);
    PackData data;
    FaultList faults;
    const auto words = words_without(none, others);
    PackKeys keys(shape, data, others, faults);
    ItemKinds kinds(data, others);
    ConditionCheck conditions(data, others, keys, words, faults);
    DependentsContext context{catalog, shape, data, others, keys, kinds, words, conditions};
    std::vector<std::string> lines;
    for (const auto& dependent : dependents_of(context))
        lines.push_back(fmt::format("{}: {}: drop or change that pack first", dependent.table, dependent.what));
    return lines;
}

}  // namespace

PackReport check_pack(const std::string& folder, const std::string& catalog_path, const Plugins& plugins,
                      bool about_to_seal) {
    return run_pack(folder, catalog_path, plugins, about_to_seal ? PackGoal::seal : PackGoal::check);
}

PackReport load_pack(const std::string& folder, const std::string& catalog_path, const Plugins& plugins) {
    return run_pack(folder, catalog_path, plugins, PackGoal::load);
}

PackSummary drop_pack(const std::string& name, const std::string& catalog_path) {
    auto catalog = open_catalog_to_write(catalog_path, false);
    Transaction transaction(catalog);
    const auto packs = packs_in(catalog);
    const auto id = find_pack(packs, name);
    LoadedPacks others(catalog, id);
    if (auto needed = needed_elsewhere(catalog, others); !needed.empty()) {
        needed.insert(needed.begin(), fmt::format("pack {}: not dropped: other packs need it", name));
        throw Error(Exit::bad_data, std::move(needed));
    }
    delete_rows(catalog, others);
    Statement(catalog, "DELETE FROM pack WHERE id = ?1").bind(1, id).run();
    if (!others.empty()) delete_stale_names(catalog);
    store_words(catalog, words_without({}, others));
    transaction.commit();
    return packs.at(id);
}

std::vector<PackSummary> list_packs(const std::string& catalog_path) {
    if (!std::filesystem::exists(catalog_path)) return {};
    finish_interrupted_load(catalog_path);
    const Database catalog = open_catalog_file(catalog_path, Database::Mode::read_only);
    require_catalog(catalog);
    std::vector<PackSummary> listed;
    for (auto& [id, pack] : packs_in(catalog)) listed.push_back(std::move(pack));
    return listed;
}

}  // namespace casebound
