#include "core/commands/pack_making.h"

#include <filesystem>

#include <fmt/format.h>

#include "core/ground/replacement.h"
#include "core/ground/text_layout.h"
#include "core/pack/pack.h"
#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_workbook.h"
#include "core/say/json_of.h"

namespace casebound {

namespace {

// What a parts list for one vehicle needs; a domain's own tables only on request.
std::vector<std::string> tables_for(const Args& args) {
    if (args.has("all")) return {};
    return {"sources", "lines", "configurations", "items", "groups", "group_members", "applications", "stays_behind"};
}

void refuse_what_is_there(const std::string& path) {
    if (std::filesystem::exists(std::filesystem::symlink_status(path)))
        throw Error(Exit::cannot_create, fmt::format("{}: it is there already, and nothing is written over it: name "
                                                     "another, or move it away",
                                                     path));
}

PackContents contents_for(const Args& args, const PackShape& shape, const std::string& own_name) {
    const auto from = args.option("from", "");
    auto contents = from.empty() ? empty_contents(own_name, shape, tables_for(args)) : contents_of(from, shape);
    contents.name = args.option("name", contents.name);
    if (!is_pack_name(contents.name))
        throw Error(Exit::usage,
                    fmt::format("pack name `{}`: write at most 64 lower-case letters, digits, . _ -, with --name",
                                contents.name));
    return contents;
}

Result new_workbook(Session& session, const Args& args, const std::string& path) {
    refuse_what_is_there(path);
    const PackShape shape(session.plugins());
    const auto contents = contents_for(args, shape, std::filesystem::path(path).stem().string());
    Vocabularies words;
    for (const auto& domain : session.plugins().domains) words.add(domain.vocabulary, domain.name);
    write_pack_workbook(path, contents, words);
    if (session.json()) {
        auto json = document("pack-new");
        json["folder"] = path;
        json["files"] = Json::array({path});
        return {Exit::yes, json_text(json)};
    }
    return {Exit::yes, fmt::format("{} written: {} to fill in, and the words they may use. Its first sheet says how.\n"
                                   "Then: casebound pack check {}, and casebound pack load {}\n",
                                   path, plural(contents.edition.tables.size(), "sheet"), path, path)};
}

std::vector<std::string> write_folder(Session& session, const Args& args, const std::string& folder,
                                      const std::string& own_name) {
    NewFolder made(folder, NewFolder::Begin::empty);  // whole or not at all
    std::vector<std::string> files;
    if (args.option("from", "").empty()) {
        files = new_pack(made.path(), args.option("name", own_name), session.plugins(), tables_for(args));
    } else {
        const PackShape shape(session.plugins());
        const auto contents = contents_for(args, shape, own_name);
        write_pack_tables(made.path(), contents);
        new_pack(made.path(), contents.name, session.plugins());
        for (const auto& table : contents.edition.tables) files.push_back(table.shape->file());
        files.emplace_back(descriptor_file);
    }
    made.change_places();
    return files;
}

}  // namespace

Result run_pack_new(Session& session, const Args& args) {
    const auto& folder = args.words.at(0);
    if (names_workbook(folder)) {
        if (!folder.ends_with(".xlsx"))
            throw Error(Exit::usage,
                        fmt::format("{}: a new workbook is an .xlsx; any spreadsheet saves it as .ods, which "
                                    "is read as well",
                                    folder));
        return new_workbook(session, args, folder);
    }
    const auto own_name = std::filesystem::weakly_canonical(folder).filename().string();
    const bool there = std::filesystem::exists(folder);
    if (there && !args.option("from", "").empty()) refuse_what_is_there(folder);
    std::vector<std::string> files;
    if (there) {
        const FolderLock lock(folder);
        files = new_pack(folder, args.option("name", own_name), session.plugins(), tables_for(args));
    } else {
        files = write_folder(session, args, folder, own_name);
    }
    if (session.json()) {
        auto json = document("pack-new");
        json["folder"] = folder;
        json["files"] = files;
        return {Exit::yes, json_text(json)};
    }
    std::string out;
    for (const auto& file : files) out += fmt::format("  {}/{}\n", folder, file);
    return {Exit::yes,
            fmt::format("{} written; fill them in a spreadsheet, every cell as text:\n", plural(files.size(), "file")) +
                out +
                fmt::format("The words they may use: casebound pack words\nThen: casebound pack load {}\n", folder)};
}

}  // namespace casebound
