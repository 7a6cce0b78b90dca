#include "core/pack/pack_run.h"

#include <exception>
#include <filesystem>
#include <future>
#include <map>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/pack/catalog_file.h"
#include "core/pack/condition_check.h"
#include "core/pack/facts.h"
#include "core/pack/loaded_packs.h"
#include "core/pack/pack_check.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_dependents.h"
#include "core/pack/pack_files.h"
#include "core/pack/pack_keys.h"
#include "core/pack/pack_loops.h"
#include "core/pack/pack_store.h"
#include "core/pack/pack_words.h"
#include "core/pack/pack_workbook.h"
#include "core/pack/table_reader.h"
#include "core/pack/workbook_seal.h"

namespace casebound {

namespace {

// What a pack was checked against: another version of a domain means another check.
std::string fingerprint(const Plugins& plugins) {
    std::string text;
    for (const auto& loaded : plugins.domains) {
        text += fmt::format("{}\n{}\n", loaded.name, loaded.domain.schema().answer.value_or(""));
        for (const auto& a : loaded.vocabulary.attributes)
            text += fmt::format("{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}|{}\n", a.name, a.title,
                                value_kind_name(a.kind), a.unit, a.tolerance, a.how, a.minutes, a.raised, a.dismantling,
                                a.finding, fmt::join(a.choices, ";"), a.extent.least, a.extent.most,
                                a.extent.usual_least, a.extent.usual_most, a.extent.whole, fmt::join(a.words, ";"),
                                a.several, a.alone);
        for (const auto& kind : loaded.vocabulary.item_kinds)
            text += fmt::format("{}|{}|{}\n", kind.name, kind.title, kind.unit);
        for (const auto& role : loaded.vocabulary.roles)
            text += fmt::format("{}|{}|{}|{}\n", role.name, role.title, role.item_kind, role.exact_only());
    }
    return sha256_of(text);
}

class PackRun {
public:
    PackRun(const std::string& folder, const std::string& catalog_path, const Plugins& plugins, PackGoal goal)
        : folder_(folder), plugins_(plugins), goal_(goal), shape_(plugins),
          catalog_(open_catalog_to_write(catalog_path, true)) {
        if (is_pack_workbook(folder)) book_.emplace(folder);
    }

    PackReport run() {
        Transaction transaction(catalog_);
        add_domain_tables(catalog_, shape_);
        const auto descriptor = book_ ? book_->descriptor(faults_) : read_descriptor(folder_, faults_);
        if (!descriptor) return report();
        describe(*descriptor);
        const auto files = book_ ? book_->files(*descriptor, shape_, known_domains(), faults_)
                                 : files_of(folder_, *descriptor, shape_, known_domains(), faults_);
        check_declared(files, faults_);
        start_stamps(files);
        find_old(descriptor->name);
        if (goal_ == PackGoal::load && old_ != 0 && faults_.empty() && unchanged(*descriptor, files))
            return unchanged_report(transaction);
        read(files);
        const auto digest = finish_stamps(*descriptor, files);
        check(*descriptor);
        if (faults_.empty()) store(digest);
        if (faults_.empty() && goal_ == PackGoal::load) transaction.commit();
        return report();
    }

private:
    PackReport report() {
        for (const auto& table : shape_.tables())
            if (const auto rows = data_.rows(table); rows > 0) summary_.rows.emplace_back(table.name, rows);
        PackReport report{summary_, faults_.faults(), faults_.warnings()};
        if (!book_) return report;
        place_in_workbook(report.faults, folder_);
        place_in_workbook(report.warnings, folder_);
        return report;
    }

    void describe(const Descriptor& descriptor) {
        summary_.name = descriptor.name;
        summary_.title = descriptor.title;
        summary_.version = descriptor.version;
        summary_.invented = descriptor.invented;
        summary_.folder = std::filesystem::absolute(folder_).lexically_normal().string();
        while (summary_.folder.size() > 1 && summary_.folder.back() == '/') summary_.folder.pop_back();
    }

    // ---- the files as a whole

    // Domains that the catalog has met, and those whose plugins were refused today.
    std::vector<std::string> known_domains() const {
        auto domains = domains_in(catalog_);
        for (const auto& refused : plugins_.refused)
            domains.push_back(std::filesystem::path(refused.path).stem().string());
        return domains;
    }

    void start_stamps(const std::vector<PackFile>& files) {
        if (book_) {
            if (goal_ != PackGoal::seal) check_workbook_seal(folder_, book_->stamp(), faults_);
            return stamps_.assign(files.size(), book_->stamp());
        }
        std::vector<std::string> paths;
        for (const auto& file : files) paths.push_back(file.path);
        pending_ = std::async(std::launch::async, [paths] {
            std::vector<FileStamp> stamps;
            for (const auto& path : paths) stamps.push_back(stamp_file(path));
            return stamps;
        });
    }

    const std::vector<FileStamp>& stamps() {
        if (pending_.valid()) stamps_ = pending_.get();
        return stamps_;
    }

    void find_old(const std::string& name) {
        Statement row(catalog_, "SELECT id, digest, folder FROM pack WHERE name = ?1");
        if (!row.bind(1, name).step()) return;
        old_ = row.integer(0);
        old_digest_ = row.str(1);
        old_folder_ = row.str(2);
    }

    std::string digest(const Descriptor& descriptor, const std::vector<PackFile>& files) {
        std::map<std::string, std::string> by_table;
        for (std::size_t i = 0; i < files.size(); ++i) by_table[files[i].table->name] = stamps()[i].sha256;
        std::string text = fmt::format("{}\n{}\n", descriptor.sha256, fingerprint(plugins_));
        for (const auto& [table, sha256] : by_table) text += fmt::format("{} {}\n", table, sha256);
        return sha256_of(text);
    }

    bool unchanged(const Descriptor& descriptor, const std::vector<PackFile>& files) {
        return digest(descriptor, files) == old_digest_;
    }

    PackReport unchanged_report(Transaction& transaction) {
        summary_.unchanged = true;
        if (old_folder_ != summary_.folder) {
            Statement(catalog_, "UPDATE pack SET folder = ?1 WHERE id = ?2")
                .bind(1, summary_.folder)
                .bind(2, old_)
                .run();
            transaction.commit();
        }
        return {summary_, {}, faults_.warnings()};
    }

    std::string finish_stamps(const Descriptor& descriptor, const std::vector<PackFile>& files) {
        for (std::size_t i = 0; i < files.size(); ++i) {
            if (goal_ != PackGoal::seal) check_stamp(files[i], stamps()[i], faults_);
            if (bytes_read_[i] != stamps()[i].bytes)
                faults_.add({files[i].described->path, 0, 0, "", "it changed while it was read: try again"});
        }
        return digest(descriptor, files);
    }

    // ---- the rows

    void read(const std::vector<PackFile>& files) {
        for (const auto& file : files) {
            if (book_) book_->read(*file.table, data_, faults_);
            bytes_read_.push_back(book_ ? book_->stamp().bytes : read_table(file.path, *file.table, data_, faults_));
        }
    }

    void check(const Descriptor& descriptor) {
        others_.emplace(catalog_, old_);
        words_ = words_without(plugins_, *others_);
        add_own_words(words_, data_, descriptor.name, faults_);
        const auto views = data_.views(shape_);
        PackKeys keys(shape_, data_, *others_, faults_);
        keys.check_unique(views);
        keys.check_references(views);
        check_words(words_, data_, views, faults_);
        ConditionCheck conditions(data_, *others_, keys, words_, faults_);
        conditions.check_configurations();
        conditions.check_conditions(views);
        conditions.warn_of_empty_lines();
        ItemKinds kinds(data_, *others_);
        RuleContext rules{shape_, data_, keys, words_, kinds, faults_};
        check_core_rules(rules);
        check_invented(data_, descriptor.invented, faults_);
        check_supersedes_loops(data_, *others_, faults_);
        check_kit_loops(shape_, data_, *others_, kinds, faults_);
        check_references_declared(descriptor, keys);
        DependentsContext context{catalog_, shape_, data_, *others_, keys, kinds, words_, conditions};
        for (auto& dependent : dependents_of(context))
            faults_.add({dependent.table + ".csv", 0, 0, "", dependent.what + ": keep it, or change that pack first"});
    }

    void check_references_declared(const Descriptor& descriptor, const PackKeys& keys) {
        for (const auto& file : descriptor.files)
            for (const auto& reference : file.inside_references)
                if (keys.met_outside().contains(file.table + "." + reference.column))
                    faults_.warn({descriptor_file, 0, 0, fmt::format("{}.schema.foreignKeys", file.place),
                                  fmt::format("{} is declared to be met inside the pack, but another pack meets it: "
                                              "bring it up to date with `casebound pack new`",
                                              reference.column)});
    }

    // ---- the catalog

    void store(const std::string& digest) {
        const auto id = old_ != 0 ? old_ : catalog_.integer("SELECT max(id) FROM pack") + 1;
        PackRecord record{id,     summary_.name,   summary_.title,   summary_.version,
                          digest, summary_.folder, summary_.invented};
        store_pack(catalog_, record, data_, shape_, *others_, faults_);
        store_words(catalog_, words_);
        if (!faults_.empty()) return;
        for (const auto& loaded : plugins_.domains) ask_domain(loaded);
    }

    void ask_domain(const LoadedDomain& loaded) {
        const CatalogFacts every(catalog_),
            facts(every, loaded.name, loaded.domain.reads().answer.value_or(std::vector<std::string>{}));
        const auto faults = loaded.domain.check(facts, summary_.name);
        if (!faults)
            return faults_.add({descriptor_file, 0, 0, "",
                                fmt::format("{}: nothing was loaded; tell whoever made the domain", faults.failure)});
        for (const auto& fault : *faults) take(fault);
    }

    void take(const RowFault& fault) {
        const auto name = table_of(fault.origin);
        const auto* table = shape_.find(name);
        const auto column = table ? table->find(fault.column) : 0;
        const unsigned cell = table && column < table->columns.size() ? static_cast<unsigned>(column + 1) : 0;
        const bool elsewhere = !fault.origin.pack.empty() && fault.origin.pack != summary_.name;
        faults_.add({name.empty() ? "" : fmt::format("{}.csv", name), fault.origin.line, cell, fault.column,
                     elsewhere ? fmt::format("of pack {}: {}", fault.origin.pack, fault.what) : fault.what});
    }

    std::string folder_;  // or the workbook
    std::optional<PackBook> book_;
    const Plugins& plugins_;
    PackGoal goal_;
    PackShape shape_;
    Database catalog_;
    FaultList faults_;
    PackData data_;
    PackSummary summary_;
    std::optional<LoadedPacks> others_;
    Vocabularies words_;
    std::future<std::vector<FileStamp>> pending_;
    std::vector<FileStamp> stamps_;
    std::vector<std::uint64_t> bytes_read_;
    std::int64_t old_ = 0;  // this pack in the catalog, 0 when it is new
    std::string old_digest_, old_folder_;
};

}  // namespace

PackReport run_pack(const std::string& folder, const std::string& catalog_path, const Plugins& plugins, PackGoal goal) {
    std::error_code error;
    if (!is_pack_workbook(folder) && !std::filesystem::is_directory(folder, error))
        throw Error(Exit::no_input,
                    fmt::format("{}: no such folder: name the folder of a pack, or its workbook", folder));
    return PackRun(folder, catalog_path, plugins, goal).run();
}

}  // namespace casebound
