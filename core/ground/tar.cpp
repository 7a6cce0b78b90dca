#include "core/ground/tar.h"

#include <algorithm>
#include <charconv>
#include <cstdint>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/utf8.h"

namespace casebound {

namespace {

// Fields of a header, POSIX.1-2017, pax, "ustar Interchange Format": where and how long.
constexpr std::size_t block_bytes = 512, block = block_bytes, name_bytes = 100, sum_at = 148, sum_bytes = 8,
                      size_at = 124, size_bytes = 12, kind_at = 156, magic_at = 257;

std::size_t padded(std::size_t bytes) { return (bytes + block - 1) / block * block; }

std::uint64_t sum_of(std::string_view header) {
    std::uint64_t sum = 0;
    for (std::size_t at = 0; at < block; ++at)
        sum += at >= sum_at && at < sum_at + sum_bytes ? ' ' : static_cast<unsigned char>(header[at]);
    return sum;
}

bool stays_inside(std::string_view name) {
    if (name.empty() || name.front() == '/' || name.back() == '/' || bad_utf8(name) != std::string_view::npos)
        return false;
    for (std::size_t at = 0; at <= name.size();) {
        const auto part = name.substr(at, std::min(name.find('/', at), name.size()) - at);
        if (part.empty() || part == "." || part == "..") return false;
        at += part.size() + 1;
    }
    return std::none_of(name.begin(), name.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; });
}

std::string header_of(std::string_view name, std::uint64_t bytes) {
    std::string header(block, '\0');
    const auto put = [&](std::size_t at, std::string_view text) { header.replace(at, text.size(), text); };
    put(0, name);
    put(name_bytes, "0000644");
    put(108, "0000000");
    put(116, "0000000");
    put(size_at, fmt::format("{:011o}", bytes));
    put(136, "00000000000");
    header[kind_at] = '0';
    put(magic_at, std::string_view("ustar\0"
                                   "00",
                                   8));
    put(sum_at, fmt::format("{:06o}", sum_of(header)));
    header[sum_at + sum_bytes - 1] = ' ';
    return header;
}

std::uint64_t octal(std::string_view field) {
    std::uint64_t value = 0;
    std::from_chars(field.data(), field.data() + field.size(), value, 8);
    return value;
}

std::string_view until_nul(std::string_view field) { return field.substr(0, field.find('\0')); }

[[noreturn]] void damaged(const std::string& path, std::string_view what) {
    throw Error(Exit::bad_data, fmt::format("{}: {}: take another backup", path, what));
}

struct Head {
    std::string name;
    std::uint64_t bytes{};
};

// Nothing at the end.
std::optional<Head> head_in(std::string_view header, const std::string& path) {
    if (header.find_first_not_of('\0') == std::string_view::npos) return std::nullopt;
    if (header.substr(magic_at, 5) != "ustar" || octal(header.substr(sum_at, sum_bytes)) != sum_of(header))
        damaged(path, "it is no tar file, or damaged");
    Head head{std::string(until_nul(header.substr(0, name_bytes))), octal(header.substr(size_at, size_bytes - 1))};
    if (header[kind_at] != '0' || !stays_inside(head.name))
        damaged(path, fmt::format("`{}` in it is no file of a backup", shown(head.name)));
    return head;
}

}  // namespace

std::string tar_head(const std::string& name, std::uint64_t bytes) {
    if (name.size() > name_bytes || !stays_inside(name))
        throw Error(Exit::usage, fmt::format("{}: a name for a file in a tar has at most {} bytes, and leads "
                                             "nowhere else: give it a shorter one",
                                             shown(name), name_bytes));
    return header_of(name, bytes);
}

std::string tar_filling(std::uint64_t bytes) { return std::string(padded(bytes) - bytes, '\0'); }

std::string tar_end() { return std::string(2 * block, '\0'); }

std::string tar_of(const std::vector<TarFile>& files) {
    std::string tar;
    for (const auto& file : files)
        tar += tar_head(file.name, file.text.size()) + file.text + tar_filling(file.text.size());
    return tar + tar_end();
}

std::vector<TarFile> files_in_tar(std::string_view tar, const std::string& path) {
    std::vector<TarFile> files;
    for (std::size_t at = 0;; at += block) {
        if (at + block > tar.size()) damaged(path, "it ends early");
        const auto head = head_in(tar.substr(at, block), path);
        if (!head) return files;
        if (head->bytes > tar.size() - at - block) damaged(path, "it ends early");
        files.push_back({head->name, std::string(tar.substr(at + block, head->bytes))});
        at += padded(head->bytes);
    }
}

std::string TarReader::block() {
    std::string bytes(block_bytes, '\0');
    if (in_.read(bytes.data(), bytes.size()) != bytes.size()) damaged(path_, "it ends early");
    return bytes;
}

std::optional<TarFile> TarReader::next() {
    const auto head = head_in(block(), path_);
    if (!head) return std::nullopt;
    if (head->bytes > most_bytes_) damaged(path_, fmt::format("`{}` in it is too large", shown(head->name)));
    if (in_.bytes() > 0 && head->bytes > in_.bytes()) damaged(path_, "it ends early");  // before room is made for it
    TarFile file{head->name, std::string(padded(head->bytes), '\0')};
    if (in_.read(file.text.data(), file.text.size()) != file.text.size()) damaged(path_, "it ends early");
    file.text.resize(head->bytes);
    return file;
}

}  // namespace casebound
