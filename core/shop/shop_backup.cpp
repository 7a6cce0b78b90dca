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
#include "core/shop/shop_photos.h"

namespace casebound {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_bytes = std::size_t{1} << 30;  // of the shop file and the packs, which are held in memory
constexpr std::string_view list_name = "casebound-backup.txt", first_line = "casebound backup 1",
                           shop_name = "shop.sqlite", packs_part = "packs/", photos_part = "photos/";

std::string note_of(const std::string& shop) { return shop + ".last-backup"; }

// One moment of it, checked by SQLite, and the photos that it names.
struct ShopCopy {
    std::string text;
    std::vector<Photo> photos;
};

ShopCopy copy_of(const Database& shop, const std::string& folder) {
    const auto beside = folder + "/.casebound-shop-copy";
    shop.copy_to(beside);
    ShopCopy copy{read_whole(beside, most_bytes),
                  photo_files(Database(beside, Database::Mode::read_only), photos_folder(shop.path()))};
    fs::remove(beside);
    forget_written(beside);
    return copy;
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

std::string list_line(std::string_view hash, std::string_view name) { return fmt::format("{}  {}\n", hash, name); }

// "casebound backup 1", the day, and a line "hash  name" for each file, as sha256sum writes and checks it. The hash of a
// photo is its name.
std::string list_of(const std::vector<TarFile>& files, const std::vector<Photo>& photos) {
    std::string list = fmt::format("{}\n{}\n", first_line, today());
    for (const auto& file : files) list += list_line(sha256_of(file.text), file.name);
    for (const auto& photo : photos) list += list_line(photo.sha256, std::string(photos_part) + photo_file_name(photo));
    return list;
}

// A file written piece by piece, with the hash of the whole.
class BackupFile {
public:
    explicit BackupFile(const std::string& folder) : file_(folder + "/.casebound-backup.new") {}
    void add(const std::string& name, std::string_view text) {
        write(tar_head(name, text.size()));
        write(text);
        write(tar_filling(text.size()));
    }
    std::string end() {
        write(tar_end());
        return sha_.hex();
    }
    void put_in_place(const std::string& path) { file_.put_in_place(path); }

private:
    void write(std::string_view text) {
        sha_.add(text);
        file_.write(text);
    }
    NewFile file_;
    Sha256 sha_;
};

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

// `found`: of each file that is in it, its hash.
void check_hashes(const std::vector<std::pair<std::string, std::string>>& found, const Listed& listed,
                  const std::string& path) {
    std::vector<std::string> faults;
    auto left = listed.hashes;
    for (const auto& [name, hash] : found) {
        const auto at = left.find(name);
        if (at == left.end() || at->second != hash)
            faults.push_back(fmt::format("{}: {} in it is not what was backed up: take another backup", path, name));
        if (at != left.end()) left.erase(at);
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

bool is_photo(const std::string& name) {
    return name.starts_with(photos_part) && names_photo_file(std::string_view(name).substr(photos_part.size()));
}

// What is in a backup, every hash checked: the photos are read and only counted, one at a time.
struct InBackup {
    std::string date;
    std::vector<TarFile> files{};
    std::size_t photos{};
};

InBackup looked_through(const std::string& file) {
    TarReader tar(file, most_bytes);
    const auto first = tar.next();
    if (!first) throw Error(Exit::bad_data, fmt::format("{}: nothing is in it: take another backup", file));
    const auto listed = list_in(*first, file);
    InBackup in_it{listed.date};
    std::vector<std::pair<std::string, std::string>> hashes;
    while (auto one = tar.next()) {
        hashes.emplace_back(one->name, sha256_of(one->text));
        if (is_photo(one->name)) ++in_it.photos;
        else in_it.files.push_back(std::move(*one));
    }
    check_hashes(hashes, listed, file);
    return in_it;
}

void put_photos(const std::string& file, const std::string& folder) {
    make_folder(folder);
    TarReader tar(file, most_bytes);
    while (const auto one = tar.next()) {
        if (!is_photo(one->name)) continue;
        const auto path = folder + "/" + one->name.substr(photos_part.size());
        replace_file(path, one->text);
        forget_written(path);
    }
}

// A backup that comes through standard input, which can be read once only, is kept beside the shop file meanwhile.
class Received {
public:
    Received(const std::string& from, const std::string& shop) : path_(from) {
        if (from != "-") return;
        path_ = shop + ".restored.tar";
        InputFile in(from);
        file_.emplace(path_);
        std::string piece(std::size_t{1} << 18, '\0');
        while (const auto got = in.read(piece.data(), piece.size())) file_->write({piece.data(), got});
    }
    const std::string& path() const { return path_; }

private:
    std::string path_;
    std::optional<NewFile> file_;
};

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
    auto [text, photos] = copy_of(shop, folder);
    std::vector<TarFile> files{{std::string(shop_name), std::move(text)}};
    Backup backup{{}, today(), {}, {}, {}};
    for (const auto& pack : packs) {
        if (fs::is_directory(pack.folder) || is_workbook(pack)) add_pack(files, pack);
        else backup.missing.push_back(fmt::format("pack {}: {}", pack.name, pack.folder));
    }
    std::erase_if(photos, [&backup](const Photo& photo) {
        if (is_there(photo)) return false;
        backup.missing.push_back(fmt::format("photo {}: {}", photo.number, photo.path));
        return true;
    });
    BackupFile tar(folder);
    tar.add(std::string(list_name), list_of(files, photos));
    for (auto& file : files) {
        tar.add(file.name, file.text);
        file.text = {};
        backup.files.push_back(file.name);
    }
    for (const auto& photo : photos) {
        backup.files.push_back(std::string(photos_part) + photo_file_name(photo));
        tar.add(backup.files.back(), photo_bytes(photo));
    }
    backup.sha256 = tar.end();
    constexpr std::size_t of_hash = 12;
    backup.path = (fs::absolute(folder) /
                   fmt::format("casebound-backup-{}-{}.tar", backup.date, backup.sha256.substr(0, of_hash)))
                      .lexically_normal()
                      .string();
    tar.put_in_place(backup.path);
    replace_file(note_of(shop.path()), fmt::format("{}\n{}\n", backup.date, backup.path));
    forget_written(note_of(shop.path()));
    return backup;
}

Restored restore_shop(const std::string& from, const std::string& shop, const std::string& packs_in) {
    const Received received(from, shop);
    const auto& file = received.path();
    auto in_it = looked_through(file);
    std::map<std::string, std::vector<TarFile>> packs;
    std::string shop_text;
    for (auto& one : in_it.files) {
        if (one.name == shop_name) {
            shop_text = std::move(one.text);
            continue;
        }
        const auto [pack, name] = pack_and_file(one.name, file);
        packs[pack].push_back({name, std::move(one.text)});
    }
    if (fs::exists(fs::symlink_status(shop))) refuse_restoring_into(shop);
    for (const auto& [pack, files] : packs) already_there(fs::path(packs_in) / pack, files);
    Restored restored{in_it.date, shop, {}};
    for (const auto& [pack, files] : packs) {  // the shop last: without it nothing was restored
        const auto folder = (fs::path(packs_in) / pack).string();
        const bool workbook = files.size() == 1 && names_workbook(files.front().name);
        restored.packs.push_back(workbook ? folder + "/" + files.front().name : folder);
        if (already_there(folder, files)) continue;
        NewFolder made(folder, NewFolder::Begin::empty);
        for (const auto& one : files) made.write(one.name, one.text);
        made.change_places();
    }
    if (in_it.photos > 0) put_photos(file, photos_folder(shop));
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
