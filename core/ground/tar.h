// Files as one file: the ustar format of POSIX.1-2017 (pax), which every system unpacks. Plain files with short relative
// names only; what is read is refused unless it is just that. Touches no disk.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

struct TarFile {
    std::string name, text;  // name: at most 100 bytes, parts joined by '/'
};

// Throws Error(usage) for a name that it has no room for.
std::string tar_of(const std::vector<TarFile>& files);

// Throws Error(bad_data), naming `path`, for what is damaged, ends early, or leads out of the folder it is unpacked in.
std::vector<TarFile> files_in_tar(std::string_view tar, const std::string& path);

}  // namespace casebound
