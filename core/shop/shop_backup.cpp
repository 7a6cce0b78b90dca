#include "core/shop/shop_backup.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <sstream>

#include <fmt/format.h>

#include "core/book/workbook.h"
#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"
#include "core/ground/tar.h"
#include "core/shop/shop_file.h"

namespace casebound {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_bytes = std::size_t{1} << 30;  // it is held in memory
constexpr std::string_view list_name = "casebound-backup.txt", first_line = "casebound backup 1",
                           shop_name = "shop.sqlite", packs_part = "packs/";

std::string note_of(const std::string& shop) { return shop + ".last-backup"; }

// One moment of it, checked by SQLite.
std::string copy_of(const Database& shop, const std::string& folder) {
    const auto beside = folder + "/.casebound-shop-copy";
    shop.copy_to(beside);
    auto text = read_whole(beside, most_bytes);
    fs::remove(beside);
    forget_written(beside);
    return text;
}

bool is_workbook(const OwnPack& pack) {
    return names_workbook(pack.folder) && fs::is_regular_file(fs::symlink_status(pack.folder));
}

void add_pack(std::vector<TarFile>& files, const OwnPack& pack) {
    if (is_workbook(pack)) {
        files.push_back(
            {fmt::format("{}{}/{}{}", packs_part, pack.name, pack.name, fs::path(pack.folder).extension().string()),
             read_whole(pack.folder, most_bytes)});
        return;
    }
    std::vector<fs::path> found;
    for (const auto& entry : fs::directory_iterator(pack.folder))
        if (entry.is_regular_file() && !entry.is_symlink()) found.push_back(entry.path());
    std::sort(found.begin(), found.end());
    for (const auto& path : found)
        files.push_back({fmt::format("{}{}/{}", packs_part, pack.name, path.filename().string()),
                         read_whole(path.string(), most_bytes)});
}

// "casebound backup 1", the day, and a line "hash  name" for each file, as sha256sum writes and checks it.
std::string list_of(const std::vector<TarFile>& files) {
    std::string list = fmt::format("{}\n{}\n", first_line, today());
    for (const auto& file : files) list += fmt::format("{}  {}\n", sha256_of(std::string_view(file.text)), file.name);
    return list;
}

struct Listed {
    std::string date;
    std::map<std::string, std::string> hashes;  // by name
};

Listed list_in(const TarFile& file, const std::string& path) {
    std::istringstream lines(file.text);
    std::string first, hash, name;
    Listed listed;
    std::getline(lines, first);
    std::getline(lines, listed.date);
    if (file.name != list_name || first != first_line || !is_date(listed.date))
        throw Error(Exit::bad_data,
                    fmt::format("{}: not a backup of casebound: name a file that `casebound shop backup` wrote", path));
    while (lines >> hash && std::getline(lines.ignore(2), name)) listed.hashes[name] = hash;
    return listed;
}

void check_hashes(const std::vector<TarFile>& files, const Listed& listed, const std::string& path) {
    std::vector<std::string> faults;
    auto left = listed.hashes;
    for (const auto& file : files) {
        const auto found = left.find(file.name);
        if (found == left.end() || found->second != sha256_of(std::string_view(file.text)))
            faults.push_back(
                fmt::format("{}: {} in it is not what was backed up: take another backup", path, file.name));
        if (found != left.end()) left.erase(found);
    }
    for (const auto& [name, hash] : left) faults.push_back(fmt::format("{}: {} is missing in it", path, name));
    if (!listed.hashes.contains(std::string(shop_name))) faults.push_back(fmt::format("{}: no shop is in it", path));
    if (!faults.empty()) throw Error(Exit::bad_data, faults);
}

// Of "packs/own/items.csv": "own" and "items.csv".
std::pair<std::string, std::string> pack_and_file(const std::string& name, const std::string& path) {
    const auto rest = name.substr(std::min(packs_part.size(), name.size()));
    const auto slash = rest.find('/');
    if (!name.starts_with(packs_part) || slash == std::string::npos || rest.find('/', slash + 1) != std::string::npos)
        throw Error(Exit::bad_data, fmt::format("{}: {} in it is no file of a backup", path, name));
    return {rest.substr(0, slash), rest.substr(slash + 1)};
}

[[noreturn]] void refuse_restoring_into(const fs::path& there) {
    throw Error(Exit::usage, fmt::format("{}: it is there already, and a backup is put back into an empty place only: "
                                         "move it away, or set CASEBOUND_HOME to another folder",
                                         there.string()));
}

// What a restoring that was killed has already put there is no hindrance.
bool already_there(const fs::path& folder, const std::vector<TarFile>& files) {
    if (!fs::exists(fs::symlink_status(folder))) return false;
    const auto count = fs::is_directory(folder) ? std::distance(fs::directory_iterator(folder), {}) : 0;
    if (count != static_cast<std::ptrdiff_t>(files.size())) refuse_restoring_into(folder);
    for (const auto& file : files)
        if (!fs::is_regular_file(folder / file.name) ||
            read_whole((folder / file.name).string(), most_bytes) != file.text)
            refuse_restoring_into(folder);
    return true;
}

// Opened once, so that it is sound and of a version that is known, before it has its name.
void put_shop(const std::string& text, const std::string& shop) {
    const auto beside = shop + ".restored";
    replace_file(beside, text);
    forget_written(beside);
    try {
        open_shop(beside);
    } catch (...) {
        fs::remove(beside);
        throw;
    }
    put_in_place(beside, shop);
}

}  // namespace

Backup back_up_shop(const Database& shop, const std::vector<OwnPack>& packs, const std::string& folder) {
    make_folder(folder);
    std::vector<TarFile> files{{std::string(shop_name), copy_of(shop, folder)}};
    Backup backup{{}, today(), {}, {}, {}};
    for (const auto& pack : packs) {
        if (fs::is_directory(pack.folder) || is_workbook(pack)) add_pack(files, pack);
        else backup.missing.push_back(fmt::format("pack {}: {}", pack.name, pack.folder));
    }
    for (const auto& file : files) backup.files.push_back(file.name);
    files.insert(files.begin(), {std::string(list_name), list_of(files)});
    const auto tar = tar_of(files);
    constexpr std::size_t of_hash = 12;
    backup.sha256 = sha256_of(std::string_view(tar));
    backup.path = (fs::absolute(folder) /
                   fmt::format("casebound-backup-{}-{}.tar", backup.date, backup.sha256.substr(0, of_hash)))
                      .lexically_normal()
                      .string();
    replace_file(backup.path, tar);
    replace_file(note_of(shop.path()), fmt::format("{}\n{}\n", backup.date, backup.path));
    forget_written(note_of(shop.path()));
    return backup;
}

Restored restore_shop(const std::string& file, const std::string& shop, const std::string& packs_in) {
    auto files = files_in_tar(read_whole(file, most_bytes), file);
    if (files.empty()) throw Error(Exit::bad_data, fmt::format("{}: nothing is in it: take another backup", file));
    const auto listed = list_in(files.front(), file);
    files.erase(files.begin());
    check_hashes(files, listed, file);
    std::map<std::string, std::vector<TarFile>> packs;
    std::string shop_text;
    for (auto& one : files) {
        if (one.name == shop_name) {
            shop_text = std::move(one.text);
            continue;
        }
        const auto [pack, name] = pack_and_file(one.name, file);
        packs[pack].push_back({name, std::move(one.text)});
    }
    if (fs::exists(fs::symlink_status(shop))) refuse_restoring_into(shop);
    for (const auto& [pack, in_it] : packs) already_there(fs::path(packs_in) / pack, in_it);
    Restored restored{listed.date, shop, {}};
    for (const auto& [pack, in_it] : packs) {  // the shop last: without it nothing was restored
        const auto folder = (fs::path(packs_in) / pack).string();
        const bool workbook = in_it.size() == 1 && names_workbook(in_it.front().name);
        restored.packs.push_back(workbook ? folder + "/" + in_it.front().name : folder);
        if (already_there(folder, in_it)) continue;
        NewFolder made(folder, NewFolder::Begin::empty);
        for (const auto& one : in_it) made.write(one.name, one.text);
        made.change_places();
    }
    put_shop(shop_text, shop);
    return restored;
}

std::optional<LastBackup> last_backup(const std::string& shop) {
    if (!fs::exists(note_of(shop))) return std::nullopt;
    std::istringstream lines(read_whole(note_of(shop), 1 << 16));
    LastBackup last;
    std::getline(lines, last.date);
    std::getline(lines, last.path);
    return is_date(last.date) ? std::optional(last) : std::nullopt;
}

}  // namespace casebound
