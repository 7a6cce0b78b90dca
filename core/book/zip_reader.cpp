#include "core/book/zip_reader.h"

#include <minizip/unzip.h>

#include <algorithm>
#include <array>
#include <cstring>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

// The archive as minizip reads it: a place in memory.
struct Memory {
    std::string_view bytes;
    std::uint64_t at{};
};

Memory& memory_of(voidpf stream) { return *static_cast<Memory*>(stream); }

voidpf open_memory(voidpf opaque, const void*, int) { return opaque; }
int close_memory(voidpf, voidpf) { return 0; }
int no_error(voidpf, voidpf) { return 0; }
ZPOS64_T tell_memory(voidpf, voidpf stream) { return memory_of(stream).at; }

uLong read_memory(voidpf, voidpf stream, void* into, uLong most) {
    auto& memory = memory_of(stream);
    const auto left = memory.bytes.size() - std::min<std::uint64_t>(memory.at, memory.bytes.size());
    const auto size = std::min<std::uint64_t>(most, left);
    std::memcpy(into, memory.bytes.data() + memory.at, size);
    memory.at += size;
    return size;
}

long seek_memory(voidpf, voidpf stream, ZPOS64_T offset, int from) {
    auto& memory = memory_of(stream);
    const std::uint64_t start = from == ZLIB_FILEFUNC_SEEK_SET   ? 0
                                : from == ZLIB_FILEFUNC_SEEK_CUR ? memory.at
                                                                 : memory.bytes.size();
    const std::uint64_t target = start + offset;  // unsigned: a negative offset wraps as it should
    if (target > memory.bytes.size()) return -1;
    memory.at = target;
    return 0;
}

}  // namespace

struct ZipReader::Archive {
    Memory memory;
    unzFile file = nullptr;
};

ZipReader::ZipReader(std::string_view bytes, std::string path)
    : path_(std::move(path)), archive_(std::make_unique<Archive>()) {
    archive_->memory.bytes = bytes;
    zlib_filefunc64_def calls{open_memory, read_memory,  nullptr,  tell_memory,
                              seek_memory, close_memory, no_error, &archive_->memory};
    archive_->file = unzOpen2_64(path_.c_str(), &calls);
    if (!archive_->file) damaged("it is not a workbook, or it is cut short");
    try {
        unz_global_info64 all{};
        if (unzGetGlobalInfo64(archive_->file, &all) != UNZ_OK || all.number_entry > most_files)
            damaged(fmt::format("more than {} files in it: this is not a workbook", most_files));
        for (int at = unzGoToFirstFile(archive_->file); at == UNZ_OK && names_.size() <= most_files;
             at = unzGoToNextFile(archive_->file)) {
            std::array<char, 512> name{};
            unz_file_info64 info{};
            if (unzGetCurrentFileInfo64(archive_->file, &info, name.data(), name.size() - 1, nullptr, 0, nullptr, 0) !=
                UNZ_OK)
                damaged("its list of files is damaged");
            names_.emplace_back(name.data());
        }
    } catch (...) {
        unzClose(archive_->file);
        throw;
    }
}

ZipReader::~ZipReader() { unzClose(archive_->file); }

void ZipReader::damaged(std::string_view what) const {
    throw Error(Exit::bad_data, fmt::format("{}: {}", path_, what));
}

bool ZipReader::has(std::string_view name) const {
    return std::find(names_.begin(), names_.end(), name) != names_.end();
}

void ZipReader::read(std::string_view name, const std::function<bool(std::string_view)>& take) const {
    auto* const file = archive_->file;
    constexpr int as_written = 1;  // upper and lower case differ
    if (unzLocateFile(file, std::string(name).c_str(), as_written) != UNZ_OK)
        damaged(fmt::format("{} is not in it: save it again as .xlsx or .ods", name));
    if (unzOpenCurrentFile(file) != UNZ_OK)
        damaged(fmt::format("{} in it is damaged or locked by a password: save it again without one", name));
    std::vector<char> piece(std::size_t{64} << 10);
    std::uint64_t all = 0;
    bool more = true;
    int got = 0;
    try {
        while (more && (got = unzReadCurrentFile(file, piece.data(), static_cast<unsigned>(piece.size()))) > 0) {
            all += static_cast<std::uint64_t>(got);
            if (all > most_unpacked_bytes)
                damaged(fmt::format("{} in it unpacks to more than {} MB: this is not a list of parts", name,
                                    most_unpacked_bytes >> 20));
            more = take({piece.data(), static_cast<std::size_t>(got)});
        }
    } catch (...) {
        unzCloseCurrentFile(file);
        throw;
    }
    const bool checksum_differs = unzCloseCurrentFile(file) == UNZ_CRCERROR && more;
    if (got < 0 || checksum_differs) damaged(fmt::format("{} in it is damaged: get the file again", name));
}

}  // namespace casebound
