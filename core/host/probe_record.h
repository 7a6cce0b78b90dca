// Remembers which plugin files have been probed, in a text file: one line a plugin,
//   sha256 TAB size TAB mtime in ns TAB inode TAB path
// An unchanged file (path, size, time, inode) is not even hashed; known content is not probed again.
// Only what passed is remembered. A record that cannot be read or written is no error: it costs a probe.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace casebound {

struct FileIdentity {
    std::uint64_t size{}, inode{};
    std::int64_t mtime_ns{};
    bool operator==(const FileIdentity&) const = default;
};

std::optional<FileIdentity> identity_of(const std::string& path);  // nothing when there is no such file
std::string sha256_of_file(const std::string& path);               // lower-case hex; "" when it cannot be read

class ProbeRecord {
public:
    explicit ProbeRecord(std::string file);  // damaged lines are passed over

    bool knows(const std::string& path, const FileIdentity& identity) const;
    bool knows_content(const std::string& sha256) const;
    void add(const std::string& path, const FileIdentity& identity, const std::string& sha256);

    // Rewrites the file by a rename when something was added; drops lines of files that are gone.
    void save();

private:
    struct Entry {
        FileIdentity identity;
        std::string sha256;
    };
    void read_line(std::string_view line);
    std::string text() const;

    std::string file_;
    std::map<std::string, Entry> entries_;  // by path
    bool changed_ = false;
};

}  // namespace casebound
