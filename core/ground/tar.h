// Files as one file: the ustar format of POSIX.1-2017 (pax), which every system unpacks. Plain files with short relative
// names only; what is read is refused unless it is just that.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/ground/file_stamp.h"

namespace casebound {

struct TarFile {
    std::string name, text;  // name: at most 100 bytes, parts joined by '/'
};

// Throws Error(usage) for a name that it has no room for.
std::string tar_of(const std::vector<TarFile>& files);

// The same piece by piece, for what is never held in memory together: the head of each file, its bytes, what fills them
// up; and the end.
std::string tar_head(const std::string& name, std::uint64_t bytes);
std::string tar_filling(std::uint64_t bytes);
std::string tar_end();

// Reads one file after the other from the disk. Throws as files_in_tar, and for a file of more than `most_bytes`.
class TarReader {
public:
    TarReader(std::string path, std::uint64_t most_bytes)
        : path_(std::move(path)), most_bytes_(most_bytes), in_(path_) {}
    std::optional<TarFile> next();

private:
    std::string block();
    std::string path_;
    std::uint64_t most_bytes_;
    InputFile in_;
};

// Throws Error(bad_data), naming `path`, for what is damaged, ends early, or leads out of the folder it is unpacked in.
std::vector<TarFile> files_in_tar(std::string_view tar, const std::string& path);

}  // namespace casebound
