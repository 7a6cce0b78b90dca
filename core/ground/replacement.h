// Files and folders made anew or put in the place of others: a kill or a power cut at any moment leaves the old or the
// new, whole, and what was said to be done stays done. There is one order of steps: written whole beside it, the
// contents synced, the names exchanged, the folder that holds the name synced; only then is the old one removed.
// Everything that this program replaces goes through here, except the pages within an SQLite file.
// Never looks at what is in them. Throws Error(cannot_write or cannot_create).
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace casebound {

void replace_file(const std::string& path, std::string_view text);

// A file written piece by piece under a name beside its own, taken away again unless it was put in its place.
class NewFile {
public:
    explicit NewFile(std::string beside);
    ~NewFile();
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;
    void write(std::string_view text);
    void put_in_place(const std::string& path);  // in the same folder

private:
    std::string beside_;
    int file_ = -1;
};

// A file that is wanted for a while, under a name that nobody else has, for its owner alone. It is gone at the end of the
// scope; it is locked (flock) until then, so that what a kill has left behind can be told from what is wanted.
class PassingFile {
public:
    // In `folder`, which is made; the system's temporary one when it is "". `begin`: of its name.
    PassingFile(const std::string& folder, std::string_view begin);
    ~PassingFile();
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;
    const std::string& path() const { return path_; }
    void write(std::string_view text);

private:
    std::string path_;
    int file_ = -1;
};
bool is_wanted(const std::filesystem::path& passing);  // locked by somebody

// `beside` is a whole file in the same folder.
void put_in_place(const std::string& beside, const std::string& path);

// With the folders above it; nothing when it is there.
void make_folder(const std::filesystem::path& folder);

// A name made, changed or removed in a folder reaches the disk only with it. "" is the working folder.
void sync_folder(const std::filesystem::path& folder);

// One process at a time works on a folder, until the end of the scope. What is locked is the folder above it, because
// the folder itself may be put in the place of another; nothing is left behind. Not again within one process.
// Throws Error(busy) when another one does not end.
class FolderLock {
public:
    explicit FolderLock(const std::filesystem::path& folder);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;

private:
    int file_ = -1;
};

// A folder made beside the one that it is to replace, locked meanwhile, and taken away again unless it was put in its
// place. Refuses (Error 64) the working folder and those above it: who stands there would be left in a removed one.
class NewFolder {
public:
    enum class Begin : std::uint8_t { empty, copy };  // copy: of the folder as it is
    NewFolder(const std::string& folder, Begin begin);
    ~NewFolder();
    NewFolder(const NewFolder&) = delete;
    NewFolder& operator=(const NewFolder&) = delete;

    std::string path() const { return beside_.string(); }
    std::string name() const { return folder_.filename().string(); }
    void write(const std::string& file, std::string_view text);  // synced when they change places
    void change_places();                                        // one step; what was there before then lies at path()

private:
    std::filesystem::path folder_, beside_;
    FolderLock lock_;
};

}  // namespace casebound
