#include "core/pack/pack_files.h"

#include <algorithm>
#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/utf8.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

bool belongs(std::string_view table, std::string_view domain) {
    return table.size() > domain.size() && table.substr(0, domain.size()) == domain && table[domain.size()] == '_';
}

// Why a path may not be opened, "" when it may.
std::string wrong_path(const std::string& folder, const std::string& path, const std::string& table) {
    if (path.empty()) return "missing";
    if (path.find('\0') != std::string::npos) return "a NUL byte in a path: write the name of a file of this folder";
    if (path[0] == '/' || path.find("://") != std::string::npos || path.find('\\') != std::string::npos)
        return fmt::format("`{}`: a pack's files lie in its own folder: write {}.csv", shown(path), table);
    if (path.find("..") != std::string::npos)
        return fmt::format("`{}` leads out of the folder: write {}.csv", shown(path), table);
    if (path != table + ".csv")
        return fmt::format("`{}`: the file of table {} is called {}.csv and lies in the folder itself", shown(path),
                           table, table);
    std::error_code error;
    const auto state = fs::symlink_status(fs::path(folder) / path, error);
    if (state.type() == fs::file_type::not_found)
        return fmt::format("{} is not in the folder: put it there, or take it out of the descriptor", path);
    if (state.type() == fs::file_type::symlink)
        return fmt::format("{} is a symbolic link: put the file itself there", path);
    if (state.type() != fs::file_type::regular) return fmt::format("{} is not a regular file", path);
    return {};
}

}  // namespace

std::string unknown_table(const std::string& table, const PackShape& shape,
                          const std::vector<std::string>& known_domains) {
    for (const auto& domain : known_domains)
        if (belongs(table, domain) && !shape.has_domain(domain))
            return fmt::format("domain {} is not loaded: `casebound plugin list` says why", domain);
    const auto near = nearest(table, shape.table_names());
    if (!near.empty()) return fmt::format("`{}` is not a table of a pack: did you mean {}?", shown(table), near);
    for (const auto& domain : shape.domains())
        if (belongs(table, domain))
            return fmt::format("domain {} has no table `{}`: {}", domain, shown(table),
                               "see its columns with `casebound pack new`");
    if (table.find('_') != std::string::npos)
        return fmt::format(
            "`{}` is not a table of core, and no domain that is loaded has it: the domain is not loaded, or the name "
            "is wrong; see `casebound plugin list`",
            shown(table));
    return fmt::format("`{}` is not a table of a pack: write one of {}", shown(table),
                       fmt::join(shape.table_names(), ", "));
}

std::vector<std::string> csv_files_in(const std::string& folder) {
    std::vector<std::string> names;
    std::error_code error;
    fs::directory_iterator at(folder, fs::directory_options::skip_permission_denied, error), end;
    if (error) throw Error(Exit::no_input, fmt::format("{}: {}: name the folder of a pack", folder, error.message()));
    for (; at != end; at.increment(error)) {
        auto extension = at->path().extension().string();
        for (auto& c : extension) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
        if (extension == ".csv") names.push_back(at->path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

std::vector<PackFile> files_of(const std::string& folder, const Descriptor& descriptor, const PackShape& shape,
                               const std::vector<std::string>& known_domains, FaultList& faults) {
    std::vector<PackFile> files;
    std::set<std::string> tables, paths;
    const auto fault = [&](const DescribedFile& file, const char* what_of, std::string what) {
        faults.add({descriptor_file, 0, 0, fmt::format("{}.{}", file.place, what_of), std::move(what)});
    };
    for (const auto& file : descriptor.files) {
        paths.insert(file.path);
        if (file.table.empty()) continue;
        if (!tables.insert(file.table).second) {
            fault(file, "name", fmt::format("`{}` is listed twice: take one out", shown(file.table)));
            continue;
        }
        const auto* table = shape.find(file.table);
        if (!table) fault(file, "name", unknown_table(file.table, shape, known_domains));
        const auto wrong = wrong_path(folder, file.path, file.table);
        if (!wrong.empty() && !file.path.empty()) fault(file, "path", wrong);
        if (table && wrong.empty()) files.push_back({table, &file, folder + "/" + file.path});
    }
    for (const auto& name : csv_files_in(folder))
        if (!paths.contains(name))
            faults.add({name, 0, 0, "",
                        "it lies in the folder but the descriptor does not list it: run `casebound pack new` on the "
                        "folder, or take the file out"});
    return files;
}

void check_stamp(const PackFile& file, const FileStamp& stamp, FaultList& faults) {
    const auto& described = *file.described;
    const bool bytes_differ = described.bytes && *described.bytes != stamp.bytes;
    const bool hash_differs = !described.sha256.empty() && described.sha256 != stamp.sha256;
    if (bytes_differ || hash_differs)
        faults.add(
            {described.path, 0, 0, "",
             fmt::format("changed since it was sealed ({}): run `casebound pack check --seal` if the change is meant",
                         bytes_differ ? fmt::format("{} bytes, {} are recorded", stamp.bytes, *described.bytes)
                                      : "its sha256 is another")});
}

void check_declared(const std::vector<PackFile>& files, FaultList& faults) {
    for (const auto& file : files) {
        const auto names = file.table->column_names();
        if (!file.described->columns.empty() && file.described->columns != names)
            faults.warn({descriptor_file, 0, 0, file.described->place + ".schema",
                         "its fields are not those of the table: bring it up to date with `casebound pack new`"});
    }
}

}  // namespace casebound
