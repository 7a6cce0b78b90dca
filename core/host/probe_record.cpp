#include "core/host/probe_record.h"

#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"

namespace casebound {

namespace {

// Raise the number when the probe checks more than it did, so that everything is looked at again.
constexpr std::string_view first_line = "casebound probed plugins 2";

// The whole text, "" when it cannot be read. Not a stream: that alone would take 0.1 ms of every start.
std::string text_of(const std::string& path) {
    const std::unique_ptr<FILE, int (*)(FILE*)> file(std::fopen(path.c_str(), "re"), &std::fclose);
    std::string text;
    std::array<char, 4096> part;
    while (file) {
        const auto count = std::fread(part.data(), 1, part.size(), file.get());
        if (count == 0) break;
        text.append(part.data(), count);
    }
    return text;
}

// What stands before the next `end`, which is taken off `text` with it.
std::string_view take(std::string_view& text, char end) {
    const auto taken = text.substr(0, text.find(end));
    text.remove_prefix(std::min(text.size(), taken.size() + 1));
    return taken;
}

template <class T> bool take_number(std::string_view& line, T& number) {
    const auto field = take(line, '\t');
    const auto [end, fault] = std::from_chars(field.data(), field.data() + field.size(), number);
    return fault == std::errc() && end == field.data() + field.size() && !field.empty();
}

bool is_sha256(std::string_view text) {
    return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

}  // namespace

std::optional<FileIdentity> identity_of(const std::string& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) return std::nullopt;
    return FileIdentity{static_cast<std::uint64_t>(status.st_size), status.st_ino,
                        std::int64_t{status.st_mtim.tv_sec} * 1'000'000'000 + status.st_mtim.tv_nsec};
}

std::string sha256_of_file(const std::string& path) {
    try {
        return stamp_file(std::filesystem::canonical(path).string()).sha256;  // a plugin may be a link to it
    } catch (const Error&) { return {}; } catch (const std::filesystem::filesystem_error&) {
        return {};
    }
}

ProbeRecord::ProbeRecord(std::string file) : file_(std::move(file)) {
    const std::string text = text_of(file_);
    std::string_view rest = text;
    if (take(rest, '\n') != first_line) return;
    while (!rest.empty()) read_line(take(rest, '\n'));
}

void ProbeRecord::read_line(std::string_view rest) {
    Entry entry;
    entry.sha256 = take(rest, '\t');
    const bool sound = is_sha256(entry.sha256) && take_number(rest, entry.identity.size) &&
                       take_number(rest, entry.identity.mtime_ns) && take_number(rest, entry.identity.inode) &&
                       !rest.empty();
    if (sound) entries_.insert_or_assign(std::string(rest), std::move(entry));
}

bool ProbeRecord::knows(const std::string& path, const FileIdentity& identity) const {
    const auto at = entries_.find(path);
    return at != entries_.end() && at->second.identity == identity;
}

bool ProbeRecord::knows_content(const std::string& sha256) const {
    return std::any_of(entries_.begin(), entries_.end(),
                       [&](const auto& entry) { return entry.second.sha256 == sha256; });
}

void ProbeRecord::add(const std::string& path, const FileIdentity& identity, const std::string& sha256) {
    if (!is_sha256(sha256) || path.find('\n') != std::string::npos) return;
    entries_.insert_or_assign(path, Entry{identity, sha256});
    changed_ = true;
}

std::string ProbeRecord::text() const {
    std::string all = fmt::format("{}\n", first_line);
    for (const auto& [path, entry] : entries_)
        all += fmt::format("{}\t{}\t{}\t{}\t{}\n", entry.sha256, entry.identity.size, entry.identity.mtime_ns,
                           entry.identity.inode, path);
    return all;
}

void ProbeRecord::save() {
    if (!std::exchange(changed_, false) || file_.empty()) return;
    std::erase_if(entries_, [](const auto& entry) { return !identity_of(entry.first); });
    try {
        replace_file(file_, text());
        forget_written(file_);
    } catch (const Error&) {  // not written: what is in it is only probed again
    }
}

}  // namespace casebound
