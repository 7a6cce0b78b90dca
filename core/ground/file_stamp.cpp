#include "core/ground/file_stamp.h"

#include <sys/stat.h>
#include <sys/types.h>

#include <nettle/base16.h>
#include <nettle/sha2.h>

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

}  // namespace

struct Sha256::Context {
    sha256_ctx is{};
};

Sha256::Sha256() : context_(std::make_unique<Context>()) { sha256_init(&context_->is); }
Sha256::~Sha256() = default;

void Sha256::add(std::string_view text) {
    sha256_update(&context_->is, text.size(), reinterpret_cast<const std::uint8_t*>(text.data()));
}

std::string Sha256::hex() {
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
    sha256_digest(&context_->is, digest.size(), digest.data());
    std::string hex(BASE16_ENCODE_LENGTH(digest.size()), '0');
    base16_encode_update(hex.data(), digest.size(), digest.data());
    return hex;
}

std::string sha256_of(std::string_view text) {
    Sha256 hash;
    hash.add(text);
    return hash.hex();
}

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
    Sha256 hash;
    FileStamp stamp;
    while (const auto got = file.read(buffer.data(), buffer.size())) {
        hash.add({buffer.data(), got});
        stamp.bytes += got;
    }
    stamp.sha256 = hash.hex();
    return stamp;
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
