#include "core/ground/paths.h"

#include <sys/stat.h>

#include <cstdlib>
#include <filesystem>
#include <system_error>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/replacement.h"

namespace casebound {

namespace {

std::filesystem::path variable(const char* name) {
    const char* text = std::getenv(name);
    return text ? text : "";
}

std::filesystem::path home_folder() {
    if (const auto own = variable("CASEBOUND_HOME"); !own.empty())
        return std::filesystem::absolute(own).lexically_normal();
    if (const auto data = variable("XDG_DATA_HOME"); data.is_absolute()) return data / "casebound";
    const auto home = variable("HOME");
    if (home.is_absolute()) return home / ".local" / "share" / "casebound";
    throw Error(Exit::cannot_create,
                "data folder: none of CASEBOUND_HOME, XDG_DATA_HOME and HOME names a folder: set CASEBOUND_HOME");
}

// The specification asks for 0700 on every folder that has to be made on the way.
void make(const std::filesystem::path& folder) {
    if (std::filesystem::is_directory(folder)) return;
    if (folder.has_parent_path() && folder.parent_path() != folder) make(folder.parent_path());
    if (::mkdir(folder.c_str(), 0700) == 0) return sync_folder(folder.parent_path());
    if (errno == EEXIST) return;
    throw Error(Exit::cannot_create,
                fmt::format("{}: the data folder cannot be made ({}): set CASEBOUND_HOME to a folder of your own",
                            folder.string(), std::generic_category().message(errno)));
}

}  // namespace

Paths data_paths() {
    const auto home = home_folder();
    make(home);
    if (!std::filesystem::is_directory(home))
        throw Error(Exit::cannot_create,
                    fmt::format("{}: this is not a folder: set CASEBOUND_HOME to a folder of your own", home.string()));
    return {home.string(), (home / "catalog.sqlite").string(), (home / "shop.sqlite").string(),
            (home / "plugins.probed").string(), (home / "plugins").string()};
}

}  // namespace casebound
