// The files in a ZIP archive that is held in memory, unpacked piece by piece within bounds: a small archive can name a
// thousand files and unpack to any size. Never trusts a size that the archive states, writes nothing.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

class ZipReader {
public:
    static constexpr std::size_t most_files = 4096;
    static constexpr std::uint64_t most_unpacked_bytes = std::uint64_t{1} << 30;  // of one file in it

    // `bytes` must outlive it; `path` is for messages. Throws Error(bad_data) for what is no sound archive.
    ZipReader(std::string_view bytes, std::string path);
    ~ZipReader();
    ZipReader(const ZipReader&) = delete;
    ZipReader& operator=(const ZipReader&) = delete;

    const std::vector<std::string>& names() const { return names_; }
    bool has(std::string_view name) const;
    // Hands on the bytes of a file until `take` returns false. Throws Error(bad_data) for a missing, damaged or too large one.
    void read(std::string_view name, const std::function<bool(std::string_view)>& take) const;

private:
    struct Archive;
    [[noreturn]] void damaged(std::string_view what) const;

    std::string path_;
    std::unique_ptr<Archive> archive_;
    std::vector<std::string> names_;
};

}  // namespace casebound
