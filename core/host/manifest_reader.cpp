#include "core/host/manifest_reader.h"

#include <elf.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "core/contract/plugin.h"
#include "core/ground/error.h"

// This program's own ELF header, put there by the linker: the machine a plugin must be built for.
extern const Elf64_Ehdr __ehdr_start __attribute__((visibility("hidden")));

namespace casebound {

namespace {

[[noreturn]] void refuse_file(const std::string& what) { throw Error(Exit::refused, what); }

[[noreturn]] void damaged(std::string_view what) {
    refuse_file(fmt::format("damaged or cut short ({}): copy it again, or build it again", what));
}

class ElfFile {
public:
    explicit ElfFile(const std::string& path)
        : descriptor_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY)) {
        if (descriptor_ < 0)
            refuse_file(fmt::format("cannot be opened ({}): make it readable, or take it out of the folder",
                                    std::strerror(errno)));
        struct stat status {};
        if (::fstat(descriptor_, &status) == 0 && S_ISREG(status.st_mode))
            size_ = static_cast<std::uint64_t>(status.st_size);
    }
    ~ElfFile() { ::close(descriptor_); }
    ElfFile(const ElfFile&) = delete;
    ElfFile& operator=(const ElfFile&) = delete;

    std::uint64_t size() const { return size_; }

    // `count` objects at `offset`; nothing outside the file is ever asked for.
    template <class T> std::vector<T> read(std::uint64_t offset, std::uint64_t count, std::string_view what) const {
        if (offset > size_ || count > (size_ - offset) / sizeof(T)) damaged(fmt::format("{} outside the file", what));
        std::vector<T> objects(count);
        const auto wanted = static_cast<ssize_t>(count * sizeof(T));
        if (::pread(descriptor_, objects.data(), count * sizeof(T), static_cast<off_t>(offset)) != wanted)
            damaged(fmt::format("{} cannot be read", what));
        return objects;
    }

private:
    int descriptor_;
    std::uint64_t size_ = 0;
};

Elf64_Ehdr read_header(const ElfFile& file) {
    constexpr std::string_view not_a_library =
        "not a shared library for a computer of this kind: take it out of the folder";
    if (file.size() < SELFMAG || std::memcmp(file.read<char>(0, SELFMAG, "ELF mark").data(), ELFMAG, SELFMAG) != 0)
        refuse_file(std::string(not_a_library));
    if (file.size() < sizeof(Elf64_Ehdr)) damaged("ELF header outside the file");
    const auto header = file.read<Elf64_Ehdr>(0, 1, "ELF header").front();
    const bool same_form = std::memcmp(header.e_ident, __ehdr_start.e_ident, EI_VERSION) == 0;  // class and byte order
    if (!same_form || header.e_machine != __ehdr_start.e_machine)
        refuse_file(
            fmt::format("built for another machine ({}-bit, ELF machine {}; this program: 64-bit, ELF machine {}): "
                        "build it on this machine",
                        header.e_ident[EI_CLASS] == ELFCLASS32 ? 32 : 64, header.e_machine, __ehdr_start.e_machine));
    if (header.e_type != ET_DYN) refuse_file(std::string(not_a_library));
    return header;
}

// The loader trusts these: a segment beyond the file's end, or two that overlap, would bring this program down.
void check_segments(const ElfFile& file, const Elf64_Ehdr& header) {
    if (header.e_phentsize != sizeof(Elf64_Phdr) || header.e_phnum == 0 || header.e_phnum > 64)
        damaged("no program headers");
    std::uint64_t reached = 0;
    for (const auto& segment : file.read<Elf64_Phdr>(header.e_phoff, header.e_phnum, "program headers")) {
        if (segment.p_offset > file.size() || segment.p_filesz > file.size() - segment.p_offset)
            damaged("segment outside the file");
        if (segment.p_type != PT_LOAD) continue;
        const bool ordered = segment.p_vaddr >= reached && segment.p_memsz >= segment.p_filesz &&
                             segment.p_memsz < (1ULL << 40) && segment.p_vaddr < (1ULL << 40);
        if (!ordered) damaged("segments overlap");
        reached = segment.p_vaddr + segment.p_memsz;
    }
}

bool is_named(const std::vector<char>& names, std::uint32_t at, std::string_view name) {
    return at < names.size() && names.size() - at > name.size() && std::string_view(&names[at], name.size()) == name &&
           names[at + name.size()] == '\0';
}

Elf64_Shdr find_section(const ElfFile& file, const Elf64_Ehdr& header) {
    if (header.e_shentsize != sizeof(Elf64_Shdr) || header.e_shnum == 0 || header.e_shstrndx >= header.e_shnum)
        damaged("no section headers");
    const auto sections = file.read<Elf64_Shdr>(header.e_shoff, header.e_shnum, "section headers");
    const auto& table = sections[header.e_shstrndx];
    const auto names = file.read<char>(table.sh_offset, table.sh_size, "section names");
    for (const auto& section : sections)
        if (section.sh_type == SHT_PROGBITS && is_named(names, section.sh_name, manifest_section)) return section;
    refuse_file(
        fmt::format("no manifest (section {}): not a casebound plugin; take it out of the folder, or build it with "
                    "CASEBOUND_MANIFEST",
                    manifest_section));
}

// Text of a fixed field, with what a terminal would act on shown as `?`.
std::string field(const char* bytes, std::size_t size) {
    const std::size_t length = ::strnlen(bytes, size);
    if (length == size) damaged("the manifest's text does not end");
    std::string text(bytes, length);
    std::replace_if(
        text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c > 0x7e; }, '?');
    return text;
}

}  // namespace

ManifestText read_manifest(const std::string& path) {
    const ElfFile file(path);
    const Elf64_Ehdr header = read_header(file);
    const Elf64_Shdr section = find_section(file, header);
    check_segments(file, header);
    if (section.sh_size < sizeof(Manifest)) damaged("the manifest is too short");
    const auto bytes = file.read<char>(section.sh_offset, sizeof(Manifest), "manifest");
    if (std::memcmp(bytes.data() + offsetof(Manifest, magic), manifest_magic, sizeof manifest_magic) != 0)
        damaged("the manifest does not begin with its mark");
    return {field(bytes.data() + offsetof(Manifest, stamp), sizeof Manifest::stamp),
            field(bytes.data() + offsetof(Manifest, domain), sizeof Manifest::domain)};
}

}  // namespace casebound
