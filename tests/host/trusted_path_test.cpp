// Whose folders and files may be run from. Write bits are tried with whole plugins in plugin_host_test.
#include <catch2/catch.hpp>

#include <unistd.h>

#include <string>

#include "core/host/trusted_path.h"
#include "tests/scratch_folder.h"

using casebound::file_fault;
using casebound::folder_fault;
using Catch::Contains;

namespace {

// Someone who owns neither: root's own files are trusted by everybody, so as root they are given away.
uid_t stranger_to(const ScratchFolder& folder, const std::string& file) {
    if (::geteuid() != 0) return ::geteuid() + 1;
    REQUIRE(::chown(file.c_str(), 12345, 0) == 0);
    REQUIRE(::chown(folder.path().c_str(), 12345, 0) == 0);
    return 12346;
}

}  // namespace

TEST_CASE("root's and the user's own folders and files are trusted") {
    const ScratchFolder folder;
    const std::string file = folder.write("a.so", "x");
    CHECK(folder_fault(folder.path(), ::geteuid()).empty());
    CHECK(file_fault(file, ::geteuid()).empty());
    CHECK(folder_fault("/", 12345).empty());
    CHECK(file_fault("/etc/passwd", 12345).empty());
}

TEST_CASE("a folder or file of another user is not trusted, and the message says whose it is") {
    const ScratchFolder folder;
    const std::string file = folder.write("a.so", "x");
    const uid_t stranger = stranger_to(folder, file);
    CHECK_THAT(folder_fault(folder.path(), stranger),
               Contains(folder.path() + " belongs to user ") &&
                   Contains("neither root nor you: install it as your own, or as root"));
    CHECK_THAT(file_fault(file, stranger), Contains(file + " belongs to user "));
}

TEST_CASE("what is not there is not trusted") {
    const ScratchFolder folder;
    CHECK_THAT(folder_fault(folder.file("none"), ::geteuid()),
               Contains("cannot be looked at (No such file or directory)"));
    CHECK_THAT(file_fault(folder.file("none"), ::geteuid()), Contains("cannot be looked at"));
}
