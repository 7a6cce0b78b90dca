// The file that remembers probed plugins: what it knows, what it forgets, and that it can do no harm.
#include <catch2/catch.hpp>

#include <string>

#include "core/host/probe_record.h"
#include "tests/scratch_folder.h"

using namespace casebound;

namespace {
// FIPS 180-4 (2015), SHA-256 of "abc".
const std::string sha256_abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
}  // namespace

TEST_CASE("a file's content is named by its SHA-256 (FIPS 180-4)") {
    const ScratchFolder folder;
    CHECK(sha256_of_file(folder.write("abc", "abc")) == sha256_abc);
    CHECK(sha256_of_file(folder.file("none")).empty());
}

TEST_CASE("a saved record knows the same path, size, time and inode again, and the content under any path") {
    const ScratchFolder folder;
    const std::string plugin = folder.write("a b.so", "abc");
    const FileIdentity identity = identity_of(plugin).value();
    {
        ProbeRecord record(folder.file("record"));
        record.add(plugin, identity, sha256_abc);
        record.save();
    }
    const ProbeRecord record(folder.file("record"));
    CHECK(record.knows(plugin, identity));
    CHECK(record.knows_content(sha256_abc));
    CHECK_FALSE(record.knows(folder.file("other.so"), identity));
    CHECK_FALSE(record.knows(plugin, {identity.size + 1, identity.inode, identity.mtime_ns}));
    CHECK_FALSE(record.knows(plugin, {identity.size, identity.inode + 1, identity.mtime_ns}));
    CHECK_FALSE(record.knows(plugin, {identity.size, identity.inode, identity.mtime_ns + 1}));
}

TEST_CASE("damaged lines of a record are passed over, the sound ones count") {
    const ScratchFolder folder;
    folder.write("record", "casebound probed plugins 2\n" + sha256_abc + "\t3\t5\t7\t/p/a.so\nnonsense\n" + sha256_abc +
                               "\t3\tx\t7\t/p/b.so\n" + sha256_abc + "\t3\t5\t7\t\nABC\t3\t5\t7\t/p/c.so\n" +
                               sha256_abc + "\t\t5\t7\t/p/d.so\n\t\t\t\t\n");
    const ProbeRecord record(folder.file("record"));
    CHECK(record.knows("/p/a.so", {3, 7, 5}));
    for (const std::string path : {"/p/b.so", "/p/c.so", "/p/d.so", ""}) CHECK_FALSE(record.knows(path, {3, 7, 5}));
}

TEST_CASE("a record of another version, or a file that is no record, knows nothing") {
    const ScratchFolder folder;
    folder.write("record", "casebound probed plugins 1\n" + sha256_abc + "\t3\t5\t7\t/p/a.so\n");
    CHECK_FALSE(ProbeRecord(folder.file("record")).knows("/p/a.so", {3, 7, 5}));
    folder.write("record", std::string(100'000, '\0'));
    CHECK_FALSE(ProbeRecord(folder.file("record")).knows_content(sha256_abc));
}

TEST_CASE("saving drops files that are gone and leaves no draft behind") {
    const ScratchFolder folder;
    const std::string plugin = folder.write("a.so", "abc");
    folder.write("record", "casebound probed plugins 2\n" + sha256_abc + "\t3\t5\t7\t" + folder.file("gone.so") + "\n");
    ProbeRecord record(folder.file("record"));
    record.add(plugin, identity_of(plugin).value(), sha256_abc);
    record.save();
    const std::string text = ScratchFolder::read(folder.file("record"));
    CHECK(text.find("gone.so") == std::string::npos);
    CHECK(text.find(plugin) != std::string::npos);
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 2);
}

TEST_CASE("a record that cannot be written is no error and leaves nothing behind") {
    const ScratchFolder folder;
    const std::string plugin = folder.write("a.so", "abc");
    for (const auto& place : {folder.file("missing/record"), folder.path(), std::string()}) {
        ProbeRecord record(place);
        record.add(plugin, identity_of(plugin).value(), sha256_abc);
        CHECK_NOTHROW(record.save());
    }
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("a path with a line break is not recorded, so it cannot forge a line") {
    const ScratchFolder folder;
    const std::string plugin = folder.write("a\nb.so", "abc");
    ProbeRecord record(folder.file("record"));
    record.add(plugin, identity_of(plugin).value(), sha256_abc);
    CHECK_FALSE(record.knows(plugin, identity_of(plugin).value()));
}
