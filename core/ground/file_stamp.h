// Files as a whole: their size and sha256, and small ones read at once. Symbolic links and anything but a regular file
// are refused. Writes nothing (replacement.h does), and knows nothing of what is in them.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace casebound {

struct FileStamp {
    std::uint64_t bytes{};
    std::string sha256;  // lower-case hex
    bool operator==(const FileStamp&) const = default;
};

std::string name_of_input(const std::string& path);  // "standard input" for "-", else the path

// A regular file opened for reading, closed at the end; "-" is standard input. Throws Error(no_input).
class InputFile {
public:
    explicit InputFile(const std::string& path);
    ~InputFile();
    InputFile(const InputFile&) = delete;
    InputFile& operator=(const InputFile&) = delete;

    std::uint64_t bytes() const { return bytes_; }   // when it was opened; 0 of standard input
    std::size_t read(char* into, std::size_t most);  // fills `into` unless the file ends; throws Error(no_input)

private:
    std::string path_;
    int file_ = -1;
    std::uint64_t bytes_{};
};

// The sha256 of what comes piece by piece.
class Sha256 {
public:
    Sha256();
    ~Sha256();
    Sha256(const Sha256&) = delete;
    Sha256& operator=(const Sha256&) = delete;
    void add(std::string_view text);
    std::string hex();  // once, at the end

private:
    struct Context;
    std::unique_ptr<Context> context_;
};

FileStamp stamp_file(const std::string& path);
std::string sha256_of(std::string_view text);

// Throws Error(bad_data) when it is larger than `most_bytes`.
std::string read_whole(const std::string& path, std::size_t most_bytes);

}  // namespace casebound
