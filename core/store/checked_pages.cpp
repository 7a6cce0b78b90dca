#include "core/store/checked_pages.h"

#include <sqlite3.h>

#include <array>
#include <bit>
#include <cstring>
#include <memory>
#include <new>
#include <vector>

namespace casebound {

namespace {

constexpr int page_bytes = 4096;          // SQLite's own, which is never changed here
constexpr int reserved_bytes_place = 20;  // of the file header, sqlite.org/fileformat2.html, 1.3

// What SQLite itself reads at the start of every transaction, to see whether another process has written.
constexpr sqlite3_int64 change_counter_place = 24;
constexpr int change_counter_bytes = 16;

// The file as SQLite sees it; behind it in memory lies the one of the system.
struct CheckedFile {
    sqlite3_file seen;
    bool checked;
    std::array<char, change_counter_bytes> counter;
    std::vector<bool> sound;  // pages in mapped memory that were checked since the counter changed
    sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

CheckedFile& of(sqlite3_file* file) { return *reinterpret_cast<CheckedFile*>(file); }
sqlite3_file* real(sqlite3_file* file) { return of(file).real(); }
const sqlite3_io_methods& methods(sqlite3_file* file) { return *real(file)->pMethods; }

sqlite3_vfs& system_files() {
    static sqlite3_vfs* const found = sqlite3_vfs_find(nullptr);
    return *found;
}

bool is_page(int bytes, sqlite3_int64 place) { return bytes == page_bytes && place % page_bytes == 0; }

std::uint64_t checksum_of(const void* page, sqlite3_int64 place) {
    return page_checksum({static_cast<const char*>(page), page_bytes - checksum_bytes},
                         static_cast<std::uint64_t>(place));
}

bool is_sound(const void* page, sqlite3_int64 place) {
    std::uint64_t kept = 0;
    std::memcpy(&kept, static_cast<const char*>(page) + page_bytes - checksum_bytes, sizeof kept);
    return kept == checksum_of(page, place);
}

int close_file(sqlite3_file* file) {
    const int code = methods(file).xClose(real(file));
    std::destroy_at(&of(file));
    return code;
}

void forget_when_changed(CheckedFile& file, const void* counter) {
    if (std::memcmp(file.counter.data(), counter, change_counter_bytes) == 0) return;
    std::memcpy(file.counter.data(), counter, change_counter_bytes);
    file.sound.clear();
}

int read_file(sqlite3_file* file, void* into, int bytes, sqlite3_int64 place) {
    const int code = methods(file).xRead(real(file), into, bytes, place);
    if (code == SQLITE_OK && place == change_counter_place && bytes == change_counter_bytes)
        forget_when_changed(of(file), into);
    constexpr int least_page_bytes = 512;  // less: the header, or the counter in it; page 1 is then read whole
    if (code != SQLITE_OK || !of(file).checked || bytes < least_page_bytes) return code;
    if (!is_page(bytes, place)) return SQLITE_IOERR_DATA;  // its header says another size
    return is_sound(into, place) ? SQLITE_OK : SQLITE_IOERR_DATA;
}

// A page in mapped memory is checked when it is first fetched, and again after another process has written.
int fetch(sqlite3_file* file, sqlite3_int64 place, int bytes, void** page) {
    *page = nullptr;  // it is then read
    if (methods(file).iVersion < 3 || !methods(file).xFetch) return SQLITE_OK;
    const int code = methods(file).xFetch(real(file), place, bytes, page);
    if (code != SQLITE_OK || !*page || !of(file).checked) return code;
    auto& sound = of(file).sound;
    const auto number = static_cast<std::size_t>(place / page_bytes);
    if (number < sound.size() && sound[number]) return SQLITE_OK;
    if (!is_page(bytes, place) || !is_sound(*page, place)) {
        methods(file).xUnfetch(real(file), place, *page);
        *page = nullptr;
        return SQLITE_IOERR_DATA;
    }
    if (number >= sound.size()) sound.resize(number + 1);
    sound[number] = true;
    return SQLITE_OK;
}

int unfetch(sqlite3_file* file, sqlite3_int64 place, void* page) {
    if (methods(file).iVersion < 3 || !methods(file).xUnfetch) return SQLITE_OK;
    return methods(file).xUnfetch(real(file), place, page);
}

// Into the page itself, which is SQLite's: so the journal has it too, and a rollback by any program restores it.
int write_file(sqlite3_file* file, const void* from, int bytes, sqlite3_int64 place) {
    if (of(file).checked && is_page(bytes, place)) {
        const auto checksum = checksum_of(from, place);
        std::memcpy(static_cast<char*>(const_cast<void*>(from)) + page_bytes - checksum_bytes, &checksum,
                    sizeof checksum);
    }
    return methods(file).xWrite(real(file), from, bytes, place);
}

int truncate(sqlite3_file* file, sqlite3_int64 size) { return methods(file).xTruncate(real(file), size); }
int sync(sqlite3_file* file, int flags) { return methods(file).xSync(real(file), flags); }
int size_of(sqlite3_file* file, sqlite3_int64* size) { return methods(file).xFileSize(real(file), size); }
int lock(sqlite3_file* file, int level) { return methods(file).xLock(real(file), level); }
int unlock(sqlite3_file* file, int level) { return methods(file).xUnlock(real(file), level); }
int is_reserved(sqlite3_file* file, int* out) { return methods(file).xCheckReservedLock(real(file), out); }
int control(sqlite3_file* file, int what, void* with) { return methods(file).xFileControl(real(file), what, with); }
int sector_size(sqlite3_file* file) { return methods(file).xSectorSize(real(file)); }
int traits(sqlite3_file* file) { return methods(file).xDeviceCharacteristics(real(file)); }

const sqlite3_io_methods checked_methods = [] {
    sqlite3_io_methods all{};
    all.iVersion = 3;  // with memory mapping; no write-ahead log: it has no xShmMap
    all.xClose = close_file;
    all.xRead = read_file;
    all.xWrite = write_file;
    all.xTruncate = truncate;
    all.xSync = sync;
    all.xFileSize = size_of;
    all.xLock = lock;
    all.xUnlock = unlock;
    all.xCheckReservedLock = is_reserved;
    all.xFileControl = control;
    all.xSectorSize = sector_size;
    all.xDeviceCharacteristics = traits;
    all.xFetch = fetch;
    all.xUnfetch = unfetch;
    return all;
}();

// A file that is still empty gets checksums; one that has no room for them does not.
bool has_room(sqlite3_file* file) {
    unsigned char reserved = 0;
    sqlite3_int64 size = 0;
    const auto& real_methods = *file->pMethods;
    if (real_methods.xFileSize(file, &size) != SQLITE_OK || size == 0) return true;
    return real_methods.xRead(file, &reserved, 1, reserved_bytes_place) == SQLITE_OK && reserved == checksum_bytes;
}

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* flags_out) {
    if ((flags & SQLITE_OPEN_MAIN_DB) == 0) return system_files().xOpen(&system_files(), name, file, flags, flags_out);
    auto& opened = *new (file) CheckedFile{};
    auto* const under = opened.real();
    const int code = system_files().xOpen(&system_files(), name, under, flags, flags_out);
    opened.checked = code == SQLITE_OK && has_room(under);
    opened.seen.pMethods = under->pMethods ? &checked_methods : nullptr;
    if (!under->pMethods) std::destroy_at(&opened);
    return code;
}

}  // namespace

std::uint64_t page_checksum(std::string_view page, std::uint64_t place) {
    constexpr std::uint64_t factor = 0x9e3779b97f4a7c15;  // odd, so that multiplying loses nothing
    constexpr std::size_t lanes = 4, word = sizeof(std::uint64_t);
    const auto mixed = [](std::uint64_t sum, std::uint64_t value) { return std::rotl(sum ^ value, 29) * factor; };
    const auto value_at = [&](std::size_t place_of_it) {
        std::uint64_t value = 0;
        std::memcpy(&value, page.data() + place_of_it, word);
        return value;
    };
    std::uint64_t a = place + 1, b = 2, c = 3, d = 4;  // each in a register of its own: in an array they went to memory
    std::size_t at = 0;
    for (; at + lanes * word <= page.size(); at += lanes * word) {
        a = mixed(a, value_at(at));
        b = mixed(b, value_at(at + word));
        c = mixed(c, value_at(at + 2 * word));
        d = mixed(d, value_at(at + 3 * word));
    }
    std::array<std::uint64_t, lanes> sums{a, b, c, d};
    for (std::size_t lane = 0; at + word <= page.size(); at += word, ++lane)
        sums[lane] = mixed(sums[lane], value_at(at));
    std::uint64_t whole = page.size();
    for (const auto sum : sums) whole = std::rotl(whole, 17) ^ (sum * factor);
    for (; at < page.size(); ++at) whole = std::rotl(whole ^ static_cast<unsigned char>(page[at]), 29) * factor;
    return whole ^ (whole >> 32);
}

bool has_checked_pages(sqlite3* database) {
    sqlite3_file* file = nullptr;
    return sqlite3_file_control(database, "main", SQLITE_FCNTL_FILE_POINTER, &file) == SQLITE_OK && file &&
           file->pMethods == &checked_methods && of(file).checked;
}

const char* checked_pages() {
    static constexpr const char* name = "casebound-checked";
    static sqlite3_vfs checked = [] {
        auto files = system_files();
        files.zName = name;
        files.szOsFile += static_cast<int>(sizeof(CheckedFile));
        files.xOpen = open_file;
        files.pNext = nullptr;
        return files;
    }();
    static const bool registered = sqlite3_vfs_register(&checked, 0) == SQLITE_OK;
    return registered ? name : nullptr;
}

}  // namespace casebound
