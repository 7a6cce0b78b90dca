#include "core/host/trusted_path.h"

#include <sys/stat.h>

#include <cerrno>
#include <cstring>

#include <fmt/format.h>

namespace casebound {

namespace {

constexpr mode_t written_by_others = S_IWGRP | S_IWOTH;

std::string fault_of(const std::string& path, const struct stat& status, uid_t user) {
    if (status.st_uid != 0 && status.st_uid != user)
        return fmt::format("{} belongs to user {}, who is neither root nor you: install it as your own, or as root",
                           path, status.st_uid);
    if (status.st_mode & written_by_others)
        return fmt::format("{} can be changed by others (mode {:o}): run `chmod go-w {}`", path,
                           status.st_mode & 07777U, path);
    return {};
}

std::string unseen(const std::string& path) {
    return fmt::format("{} cannot be looked at ({}): make it readable, or take it out", path, std::strerror(errno));
}

}  // namespace

std::string folder_fault(const std::string& folder, uid_t user) {
    struct stat status {};
    if (::stat(folder.c_str(), &status) != 0) return unseen(folder);
    if (!S_ISDIR(status.st_mode))
        return fmt::format("{} is not a folder: name the folder that holds the plugins", folder);
    if (auto fault = fault_of(folder, status, user); !fault.empty()) return fault;
    for (auto end = folder.rfind('/'); end != std::string::npos && folder.size() > 1;
         end = end == 0 ? std::string::npos : folder.rfind('/', end - 1)) {
        const std::string parent = end == 0 ? "/" : folder.substr(0, end);
        if (::stat(parent.c_str(), &status) != 0) return unseen(parent);
        if (status.st_mode & S_ISVTX)
            status.st_mode &= ~written_by_others;  // sticky: others cannot rename what is not theirs
        if (auto fault = fault_of(parent, status, user); !fault.empty()) return fault;
    }
    return {};
}

std::string file_fault(const std::string& file, uid_t user) {
    struct stat status {};
    if (::stat(file.c_str(), &status) != 0) return unseen(file);
    if (!S_ISREG(status.st_mode)) return fmt::format("{} is not a file: take it out of the folder", file);
    return fault_of(file, status, user);
}

}  // namespace casebound
