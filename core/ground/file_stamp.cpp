#include "core/ground/file_stamp.h"

#include <sys/stat.h>
#include <sys/types.h>

#include <sha2.h>

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <vector>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

[[noreturn]] void cannot_read(const std::string& path, std::string_view why) {
    throw Error(Exit::no_input, fmt::format("{}: {}: check that the file is there and may be read", path, why));
}

[[noreturn]] void cannot_write(const std::string& path) {
    throw Error(Exit::cannot_write, fmt::format("{}: {}: check permissions and space", path, std::strerror(errno)));
}

std::string finished(SHA2_CTX& context) {
    std::array<char, SHA256_DIGEST_STRING_LENGTH> hex{};
    SHA256End(&context, hex.data());
    return hex.data();
}

void write_all(int file, std::string_view text, const std::string& path) {
    while (!text.empty()) {
        const auto written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) cannot_write(path);
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

// The rename itself reaches the disk only with its folder.
void sync_folder_of(const std::string& path) {
    const auto slash = path.rfind('/');
    const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
    const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0) return;
    ::fsync(file);
    ::close(file);
}

}  // namespace

InputFile::InputFile(const std::string& path) : path_(path) {
    file_ = ::open(path.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);  // a pipe must not hang the open
    if (file_ < 0) cannot_read(path, errno == ELOOP ? "a symbolic link, not a file" : std::strerror(errno));
    struct stat state {};
    if (::fstat(file_, &state) != 0 || !S_ISREG(state.st_mode)) {
        ::close(file_);
        cannot_read(path, "not a regular file");
    }
    bytes_ = static_cast<std::uint64_t>(state.st_size);
    ::posix_fadvise(file_, 0, 0, POSIX_FADV_SEQUENTIAL);
}

InputFile::~InputFile() { ::close(file_); }

std::size_t InputFile::read(char* into, std::size_t most) {
    std::size_t have = 0;
    while (have < most) {
        const auto got = ::read(file_, into + have, most - have);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) cannot_read(path_, std::strerror(errno));
        if (got == 0) break;
        have += static_cast<std::size_t>(got);
    }
    return have;
}

FileStamp stamp_file(const std::string& path) {
    InputFile file(path);
    std::vector<char> buffer(std::size_t{1} << 18);
    SHA2_CTX context;
    SHA256Init(&context);
    FileStamp stamp;
    while (const auto got = file.read(buffer.data(), buffer.size())) {
        SHA256Update(&context, reinterpret_cast<const std::uint8_t*>(buffer.data()), got);
        stamp.bytes += got;
    }
    stamp.sha256 = finished(context);
    return stamp;
}

std::string sha256_of(std::string_view text) {
    SHA2_CTX context;
    SHA256Init(&context);
    SHA256Update(&context, reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
    return finished(context);
}

std::string read_whole(const std::string& path, std::size_t most_bytes) {
    InputFile file(path);
    std::string text(most_bytes + 1, '\0');
    text.resize(file.read(text.data(), text.size()));
    if (text.size() > most_bytes)
        throw Error(Exit::bad_data,
                    fmt::format("{}: larger than {} bytes: this is not what it should be", path, most_bytes));
    return text;
}

void replace_file(const std::string& path, std::string_view text) {
    const std::string beside = fmt::format("{}.new-{}", path, ::getpid());
    const int file = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
    if (file < 0) cannot_write(beside);
    try {
        write_all(file, text, beside);
        if (::fsync(file) != 0) cannot_write(beside);
        if (::rename(beside.c_str(), path.c_str()) != 0) cannot_write(path);
    } catch (...) {
        ::close(file);
        ::unlink(beside.c_str());
        throw;
    }
    ::close(file);
    sync_folder_of(path);
}

}  // namespace casebound
