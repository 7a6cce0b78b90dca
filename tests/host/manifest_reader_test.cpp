// Reading a manifest from a file that may be anything at all.
#include <catch2/catch.hpp>

#include <elf.h>
#include <sys/stat.h>

#include <cstring>
#include <filesystem>
#include <random>
#include <string>

#include "core/ground/error.h"
#include "core/host/manifest_reader.h"
#include "core/host/plugin_host.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Contains;

namespace {

const std::string good_plugin = CASEBOUND_BINARY_DIR "/toy/plugins/door_seals.so";

std::string refusal(const std::string& path) {
    try {
        read_manifest(path);
    } catch (const Error& error) {
        REQUIRE(error.exit() == Exit::refused);
        return error.what();
    }
    return "read";
}

Elf64_Ehdr header_of(const std::string& bytes) {
    Elf64_Ehdr header;
    std::memcpy(&header, bytes.data(), sizeof header);
    return header;
}

std::string with_header(std::string bytes, const Elf64_Ehdr& header) {
    std::memcpy(bytes.data(), &header, sizeof header);
    return bytes;
}

}  // namespace

TEST_CASE("a good plugin's manifest is read without loading it") {
    const ManifestText manifest = read_manifest(good_plugin);
    CHECK(manifest.domain == "door_seals");
    CHECK(manifest.stamp == build_stamp());
}

TEST_CASE("a file that is no shared library is refused as such") {
    const ScratchFolder folder;
    for (const auto& bytes :
         {std::string(), std::string("\x7f"), std::string("#!/bin/sh\necho hello\n"), std::string(4096, '\0')})
        CHECK_THAT(refusal(folder.write("a.so", bytes)), Contains("not a shared library"));
    CHECK_THAT(refusal(folder.write("a.so",
                                    "\x7f"
                                    "ELF")),
               Contains("damaged or cut short (ELF header outside the file)"));
    CHECK_THAT(refusal(folder.file("none.so")), Contains("cannot be opened (No such file or directory)"));
    CHECK_THAT(refusal(folder.path()), Contains("not a shared library"));
}

TEST_CASE("a pipe in place of a plugin is refused and does not block") {
    const ScratchFolder folder;
    REQUIRE(::mkfifo(folder.file("pipe.so").c_str(), 0600) == 0);
    CHECK_THAT(refusal(folder.file("pipe.so")), Contains("not a shared library"));
}

TEST_CASE("a plugin for another machine is refused with both machines named") {
    const ScratchFolder folder;
    const std::string bytes = ScratchFolder::read(good_plugin);
    Elf64_Ehdr header = header_of(bytes);
    const auto own = header.e_machine;
    header.e_machine = EM_PARISC;
    CHECK_THAT(refusal(folder.write("a.so", with_header(bytes, header))),
               Contains("built for another machine (64-bit, ELF machine 15; this program: 64-bit, ELF machine " +
                        std::to_string(own) + ")"));
    header = header_of(bytes);
    header.e_ident[EI_CLASS] = ELFCLASS32;
    CHECK_THAT(refusal(folder.write("a.so", with_header(bytes, header))),
               Contains("built for another machine (32-bit"));
    header = header_of(bytes);
    header.e_ident[EI_DATA] = ELFDATA2MSB;
    CHECK_THAT(refusal(folder.write("a.so", with_header(bytes, header))), Contains("built for another machine"));
    header = header_of(bytes);
    header.e_type = ET_REL;
    CHECK_THAT(refusal(folder.write("a.so", with_header(bytes, header))), Contains("not a shared library"));
}

TEST_CASE("section and program headers that point outside the file are refused") {
    const ScratchFolder folder;
    const std::string bytes = ScratchFolder::read(good_plugin);
    const auto spoilt = [&](auto spoil) {
        Elf64_Ehdr header = header_of(bytes);
        spoil(header);
        return refusal(folder.write("a.so", with_header(bytes, header)));
    };
    CHECK_THAT(spoilt([](auto& h) { h.e_shoff = ~0ULL; }), Contains("section headers outside the file"));
    CHECK_THAT(spoilt([](auto& h) { h.e_shoff = ~0ULL - 63; }), Contains("section headers outside the file"));
    CHECK_THAT(spoilt([](auto& h) { h.e_shnum = 0xfeff; }), Contains("section headers outside the file"));
    CHECK_THAT(spoilt([](auto& h) { h.e_shentsize = 1; }), Contains("no section headers"));
    CHECK_THAT(spoilt([](auto& h) { h.e_shstrndx = 0xffff; }), Contains("no section headers"));
    CHECK_THAT(spoilt([](auto& h) { h.e_phoff = ~0ULL; }), Contains("program headers outside the file"));
    CHECK_THAT(spoilt([](auto& h) { h.e_phnum = 0; }), Contains("no program headers"));
}

TEST_CASE("segments that the loader would stumble over are refused") {
    const ScratchFolder folder;
    const std::string bytes = ScratchFolder::read(good_plugin);
    const auto at = header_of(bytes).e_phoff;
    const auto spoilt = [&](auto spoil) {
        std::string changed = bytes;
        for (auto place = at;; place += sizeof(Elf64_Phdr)) {  // the second segment to be mapped
            Elf64_Phdr segment;
            std::memcpy(&segment, &changed[place], sizeof segment);
            if (segment.p_type != PT_LOAD || segment.p_vaddr == 0) continue;
            spoil(segment);
            std::memcpy(&changed[place], &segment, sizeof segment);
            return refusal(folder.write("a.so", changed));
        }
    };
    CHECK(spoilt([](auto&) {}) == "read");
    CHECK_THAT(spoilt([&](auto& s) {
                   s.p_filesz = bytes.size();
                   s.p_memsz = 2 * bytes.size();
               }),
               Contains("segment outside the file"));
    CHECK_THAT(spoilt([](auto& s) { s.p_offset = ~0ULL; }), Contains("segment outside the file"));
    CHECK_THAT(spoilt([](auto& s) { s.p_vaddr = 0; }), Contains("segments overlap"));
    CHECK_THAT(spoilt([](auto& s) { s.p_memsz = s.p_filesz - 1; }), Contains("segments overlap"));
    CHECK_THAT(spoilt([](auto& s) { s.p_memsz = ~0ULL; }), Contains("segments overlap"));
}

TEST_CASE("a library without the section is no plugin") {
    CHECK_THAT(refusal(CASEBOUND_BINARY_DIR "/hostile/no_manifest.so"),
               Contains("no manifest (section .casebound): not a casebound plugin"));
}

TEST_CASE("control characters of a damaged stamp never reach the terminal") {
    const ScratchFolder folder;
    std::string bytes = ScratchFolder::read(good_plugin);
    const auto at = bytes.find("CASEBND");
    REQUIRE(at != std::string::npos);
    bytes.replace(at + 8, 4, "\x1b[2J");
    CHECK(read_manifest(folder.write("a.so", bytes)).stamp.substr(0, 4) == "?[2J");
    bytes.replace(at + 8, 80, 80, 'x');
    CHECK_THAT(refusal(folder.write("a.so", bytes)), Contains("the manifest's text does not end"));
    bytes[at] = 'X';
    CHECK_THAT(refusal(folder.write("a.so", bytes)), Contains("the manifest does not begin with its mark"));
}

TEST_CASE("a plugin cut short anywhere is refused") {
    const ScratchFolder folder;
    const std::string file = folder.copy(good_plugin, "a.so");
    const std::size_t whole = std::filesystem::file_size(file);
    for (std::size_t lost = 1; lost < whole; lost += 97) {  // ever shorter
        std::filesystem::resize_file(file, whole - lost);
        const std::string said = refusal(file);
        if (said.find("damaged or cut short") == std::string::npos &&
            said.find("not a shared library") == std::string::npos)
            FAIL(lost << ": " << said);
    }
}

TEST_CASE("any bytes in the headers are either read or refused") {
    const ScratchFolder folder;
    const std::string bytes = ScratchFolder::read(good_plugin);
    std::mt19937 random(20261125);
    const std::size_t sections = header_of(bytes).e_shoff;
    int refused = 0;
    for (int turn = 0; turn < 3000; ++turn) {
        std::string flipped = bytes;
        const bool low = random() % 2 == 0;
        for (auto flips = 1 + random() % 4; flips > 0; --flips)
            flipped[low ? random() % 1024 : sections + random() % (bytes.size() - sections)] = static_cast<char>(
                random());
        refused += refusal(folder.write("a.so", flipped)) != "read";
    }
    CHECK(refused > 300);
}
