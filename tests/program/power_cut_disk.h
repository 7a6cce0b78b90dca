// What a disk is sure to hold: the contents of a file when it was last synced, and the names in a folder when that was.
// A file or folder is known by its inode and the moment it was made, so that a name exchanged for another takes the
// contents along. The stand-in library (power_cut.cpp) writes it at every sync of a program; a test reads it.
#pragma once

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <fstream>
#include <sstream>
#include <string>

namespace power_cut {

// "" when it is not there.
inline std::string key_of(int folder, const char* name) {
    struct statx found {};
    const int flags = AT_SYMLINK_NOFOLLOW | (*name == '\0' ? AT_EMPTY_PATH : 0);
    if (::statx(folder, name, flags, STATX_INO | STATX_BTIME, &found) != 0) return "";
    return std::to_string(found.stx_ino) + "-" + std::to_string(found.stx_btime.tv_sec) + "-" +
           std::to_string(found.stx_btime.tv_nsec);
}

// Through the open file where it can be read: to open and close it again would drop SQLite's locks on it.
inline std::string contents_of(int file) {
    std::array<char, 65536> part{};
    std::string text;
    const int flags = ::fcntl(file, F_GETFL);
    const bool readable = (flags & O_ACCMODE) != O_WRONLY;
    const int from = readable ? file : ::open(("/proc/self/fd/" + std::to_string(file)).c_str(), O_RDONLY | O_CLOEXEC);
    for (ssize_t got = 0; (got = ::pread(from, part.data(), part.size(), static_cast<off_t>(text.size()))) > 0;)
        text.append(part.data(), static_cast<std::size_t>(got));
    if (!readable) ::close(from);
    return text;
}

// A line for each name: key, blank, name.
inline std::string names_in(int folder) {
    std::string text;
    DIR* const entries = ::fdopendir(::openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (!entries) return text;
    while (const dirent* const entry = ::readdir(entries)) {
        const std::string name = entry->d_name;
        if (name == "." || name == "..") continue;
        if (const auto key = key_of(folder, entry->d_name); !key.empty()) text += key + " " + name + "\n";
    }
    ::closedir(entries);
    return text;
}

inline void record(const std::string& disk, int file) {
    struct stat found {};
    if (::fstat(file, &found) != 0) return;
    const bool folder = S_ISDIR(found.st_mode);
    std::ofstream(disk + (folder ? "/names-" : "/contents-") + key_of(file, ""), std::ios::binary)
        << (folder ? names_in(file) : contents_of(file));
}

}  // namespace power_cut
