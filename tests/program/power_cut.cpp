// Loaded before a program (LD_PRELOAD): writes to the folder POWER_CUT_DISK what each sync makes sure of, and nothing
// else reaches it. After the sync whose number is POWER_CUT_AFTER the power is cut: the program is killed there.
// POWER_CUT_FORGETS is the control: such a sync says done and makes sure of nothing. "files"; "folders"; "later folders":
// all but the first, as SQLite does with synchronous=FULL, which syncs that a journal is there and not that it is gone.
#include <signal.h>

#include <cstdlib>
#include <string_view>

#include "tests/program/power_cut_disk.h"

namespace {

int synced(int file) {
    static int count = 0;
    const char* const disk = std::getenv("POWER_CUT_DISK");
    const char* const after = std::getenv("POWER_CUT_AFTER");
    const char* const forgets = std::getenv("POWER_CUT_FORGETS");
    struct stat found {};
    if (!disk || ::fstat(file, &found) != 0) return -1;
    static int folders = 0;
    const bool folder = S_ISDIR(found.st_mode);
    folders += folder;
    const std::string_view forgotten = forgets ? forgets : "";
    const bool forget = folder ? forgotten == "folders" || (forgotten == "later folders" && folders > 1)
                               : forgotten == "files";
    if (!forget) power_cut::record(disk, file);
    if (after && ++count == std::atoi(after)) ::kill(::getpid(), SIGKILL);
    return 0;
}

}  // namespace

extern "C" {
__attribute__((visibility("default"))) int fsync(int file) { return synced(file); }
__attribute__((visibility("default"))) int fdatasync(int file) { return synced(file); }
}
