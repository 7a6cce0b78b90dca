#include "core/ground/replacement.h"

#include <sys/file.h>
#include <sys/stat.h>

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <new>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/outlet.h"

namespace casebound {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void cannot_write(const fs::path& path) {
    throw Error(Exit::cannot_write,
                fmt::format("{}: {}: check permissions and space", path.string(), std::strerror(errno)));
}

fs::path or_here(const fs::path& folder) { return folder.empty() ? fs::path(".") : folder; }

void write_all(int file, std::string_view text, const fs::path& path) {
    while (!text.empty()) {
        const auto written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) cannot_write(path);
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

// Closed at the end of the scope.
class OpenFile {
public:
    OpenFile(const fs::path& path, int flags, mode_t mode = 0)
        : path_(path), file_(::open(path.c_str(), flags | O_CLOEXEC, mode)) {
        if (file_ < 0) cannot_write(path);
    }
    ~OpenFile() { ::close(file_); }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;

    void write(std::string_view text) { write_all(file_, text, path_); }
    void sync() {
        if (::fsync(file_) != 0) cannot_write(path_);
    }
    void sync_as_folder() {  // EINVAL: a file system that has no such thing
        if (::fsync(file_) != 0 && errno != EINVAL) cannot_write(path_);
    }

private:
    fs::path path_;  // what is opened may be named by a path that does not outlive this
    int file_;
};

void sync_file(const fs::path& path) { OpenFile(path, O_RDONLY | O_NOFOLLOW).sync(); }

// What is inside first, then the names.
void sync_tree(const fs::path& folder) {
    for (const auto& entry : fs::directory_iterator(folder)) {
        if (entry.is_symlink()) continue;
        if (entry.is_directory()) sync_tree(entry.path());
        else if (entry.is_regular_file()) sync_file(entry.path());
    }
    sync_folder(folder);
}

void rename_synced(const std::string& from, const std::string& to) {
    if (::rename(from.c_str(), to.c_str()) != 0) cannot_write(to);
    sync_folder(fs::path(to).parent_path());
}

// Without links, "." and "..", and without a slash at the end.
fs::path plain(const fs::path& folder) {
    const auto whole = fs::weakly_canonical(fs::absolute(folder));
    return whole.has_filename() ? whole : whole.parent_path();
}

fs::path replaceable(const std::string& folder) {
    const auto whole = plain(folder), here = fs::current_path();
    if (std::mismatch(whole.begin(), whole.end(), here.begin(), here.end()).first == whole.end())
        throw Error(Exit::usage, fmt::format("{}: the folder you work in lies in it, and it would be put away under "
                                             "you: name a folder of its own, such as {}",
                                             folder, (here / "own").string()));
    if (fs::exists(whole) && !fs::is_directory(whole))
        throw Error(Exit::cannot_create, fmt::format("{}: this is not a folder: name another one", folder));
    return whole;
}

// What cannot be removed for want of memory lies beside until the next run, which removes it.
void remove_quietly(const fs::path& folder) noexcept {
    try {
        std::error_code ignored;
        fs::remove_all(folder, ignored);
    } catch (const std::bad_alloc&) {}
}

}  // namespace

void sync_folder(const fs::path& folder) { OpenFile(or_here(folder), O_RDONLY | O_DIRECTORY).sync_as_folder(); }

void put_in_place(const std::string& beside, const std::string& path) {
    sync_file(beside);
    rename_synced(beside, path);
    note_written(path);
}

void replace_file(const std::string& path, std::string_view text) {
    const std::string beside = fmt::format("{}.new-{}", path, ::getpid());
    try {
        {
            OpenFile file(beside, O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW, 0644);
            file.write(text);
            file.sync();
        }
        rename_synced(beside, path);
        note_written(path);
    } catch (...) {
        ::unlink(beside.c_str());
        throw;
    }
}

NewFile::NewFile(std::string beside)
    : beside_(std::move(beside)),
      file_(::open(beside_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW | O_CLOEXEC, 0644)) {
    if (file_ < 0) cannot_write(beside_);
}

NewFile::~NewFile() {
    ::close(file_);
    if (!beside_.empty()) ::unlink(beside_.c_str());
}

void NewFile::write(std::string_view text) { write_all(file_, text, beside_); }

void NewFile::put_in_place(const std::string& path) {
    if (::fsync(file_) != 0) cannot_write(beside_);
    rename_synced(beside_, path);
    beside_.clear();
    note_written(path);
}

PassingFile::PassingFile(const std::string& folder, std::string_view begin) {
    const auto where = folder.empty() ? fs::temp_directory_path().string() : folder;
    make_folder(where);
    path_ = fmt::format("{}/{}XXXXXX", where, begin);
    file_ = ::mkostemp(path_.data(), O_CLOEXEC);
    if (file_ < 0) cannot_write(where);
    ::flock(file_, LOCK_EX | LOCK_NB);
}

PassingFile::~PassingFile() {
    ::unlink(path_.c_str());
    ::close(file_);
}

void PassingFile::write(std::string_view text) { write_all(file_, text, path_); }

bool is_wanted(const fs::path& passing) {
    const int file = ::open(passing.c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
    if (file < 0) return false;
    const bool locked = ::flock(file, LOCK_EX | LOCK_NB) != 0;
    ::close(file);
    return locked;
}

void make_folder(const fs::path& folder) {
    if (folder.empty() || fs::is_directory(folder)) return;
    if (!folder.has_filename()) return make_folder(folder.parent_path());  // a slash at the end
    make_folder(folder.parent_path());
    if (::mkdir(folder.c_str(), 0777) != 0 && (errno != EEXIST || !fs::is_directory(folder)))
        throw Error(Exit::cannot_create,
                    fmt::format("{}: the folder cannot be made: {}", folder.string(), std::strerror(errno)));
    sync_folder(folder.parent_path());
}

FolderLock::FolderLock(const fs::path& folder) {
    const auto above = plain(folder).parent_path();
    make_folder(above);
    file_ = ::open(above.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file_ < 0) cannot_write(above);
    constexpr int tries = 500;
    constexpr useconds_t between_us = 20000;
    for (int n = 0; ::flock(file_, LOCK_EX | LOCK_NB) != 0; ++n) {
        if (n < tries && (errno == EWOULDBLOCK || errno == EINTR)) {
            ::usleep(between_us);
            continue;
        }
        ::close(file_);
        throw Error(Exit::busy, fmt::format("{}: another casebound is writing in {}: try again when it is done",
                                            folder.string(), above.string()));
    }
}

FolderLock::~FolderLock() { ::close(file_); }

NewFolder::NewFolder(const std::string& folder, Begin begin)
    : folder_(replaceable(folder)),
      beside_(folder_.parent_path() / fmt::format(".{}.new", folder_.filename().string())), lock_(folder_) {
    remove_quietly(beside_);  // of a run that was killed
    const bool there = fs::exists(folder_);
    std::error_code error;
    if (!(there ? fs::create_directory(beside_, folder_, error) : fs::create_directory(beside_, error)))
        throw Error(Exit::cannot_create,
                    fmt::format("{}: the folder cannot be made: {}", beside_.string(), error.message()));
    if (begin == Begin::copy && there) fs::copy(folder_, beside_, fs::copy_options::recursive, error);
    if (!error) return;
    remove_quietly(beside_);
    throw Error(Exit::cannot_write,
                fmt::format("{}: it cannot be copied: {}: check permissions and space", folder, error.message()));
}

NewFolder::~NewFolder() { remove_quietly(beside_); }

void NewFolder::write(const std::string& file, std::string_view text) {
    const auto path = beside_ / file;
    OpenFile(path, O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW, 0644).write(text);
}

void NewFolder::change_places() {
    sync_tree(beside_);
    const unsigned how = fs::exists(folder_) ? RENAME_EXCHANGE : RENAME_NOREPLACE;
    if (::renameat2(AT_FDCWD, beside_.c_str(), AT_FDCWD, folder_.c_str(), how) != 0)
        throw Error(Exit::cannot_write, fmt::format("{}: it cannot be replaced in one step here: {}: name a folder "
                                                    "that is not there yet, or one on a local disk",
                                                    folder_.string(), std::strerror(errno)));
    sync_folder(folder_.parent_path());
    note_written(folder_.string());
}

}  // namespace casebound
