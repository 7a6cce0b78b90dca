// What the fuzz targets share. A target takes any bytes at all: what is refused is refused by an Error, what is taken
// holds what is promised of it. Anything else ends the process, which is what a fuzzer looks for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include "tests/scratch_folder.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace fuzz {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

inline void promised(bool kept, const char* what) {
    if (kept) return;
    std::fprintf(stderr, "not kept: %s\n", what);
    std::abort();
}

// The pieces between two of `mark`.
inline std::vector<std::string> pieces(std::string_view text, char mark) {
    std::vector<std::string> all;
    for (std::size_t at = 0; at <= text.size();) {
        const auto end = std::min(text.find(mark, at), text.size());
        all.emplace_back(text.substr(at, end - at));
        at = end + 1;
    }
    return all;
}

// A folder that is emptied for each input.
class Folder {
public:
    std::string file(const std::string& name) const { return folder_.file(name); }
    std::string fresh(const std::string& name) const {
        std::filesystem::remove_all(file(name));
        return file(name);
    }
    std::string write(const std::string& name, std::string_view bytes) const {
        const auto path = file(name);
        std::filesystem::create_directories(std::filesystem::path(path).parent_path());
        std::ofstream(path, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        return path;
    }

private:
    ScratchFolder folder_;
};

}  // namespace fuzz
