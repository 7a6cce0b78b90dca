#include "core/ground/file_stamp.h"

#include <sys/stat.h>
#include <sys/types.h>

#include <sha2.h>

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <vector>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

[[noreturn]] void cannot_read(const std::string& path, std::string_view why) {
    throw Error(Exit::no_input, fmt::format("{}: {}: check that the file is there and may be read", path, why));
}

std::string finished(SHA2_CTX& context) {
    std::array<char, SHA256_DIGEST_STRING_LENGTH> hex{};
    SHA256End(&context, hex.data());
    return hex.data();
}

}  // namespace

InputFile::InputFile(const std::string& path) : path_(name_of_input(path)) {
    if (path == "-") {
        file_ = ::fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, 0);
        if (file_ < 0) cannot_read(path_, std::strerror(errno));
        return;
    }
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

std::string name_of_input(const std::string& path) { return path == "-" ? "standard input" : path; }

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

struct Sha256::Context {
    SHA2_CTX is{};
};

Sha256::Sha256() : context_(std::make_unique<Context>()) { SHA256Init(&context_->is); }
Sha256::~Sha256() = default;

void Sha256::add(std::string_view text) {
    SHA256Update(&context_->is, reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

std::string Sha256::hex() { return finished(context_->is); }

std::string sha256_of(std::string_view text) {
    SHA2_CTX context;
    SHA256Init(&context);
    SHA256Update(&context, reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
    return finished(context);
}

std::string read_whole(const std::string& path, std::size_t most_bytes) {
    InputFile file(path);
    std::string text;
    constexpr std::size_t least = 64 << 10;
    for (std::size_t read = 1; read > 0 && text.size() <= most_bytes;) {
        const auto had = text.size();
        text.resize(std::min(had + std::max(least, had), most_bytes + 1));
        read = file.read(text.data() + had, text.size() - had);
        text.resize(had + read);
    }
    if (text.size() > most_bytes)
        throw Error(Exit::bad_data,
                    fmt::format("{}: larger than {} bytes: this is not what it should be", path, most_bytes));
    return text;
}

}  // namespace casebound
