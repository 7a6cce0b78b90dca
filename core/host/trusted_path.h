// Says whether a folder or file can be changed only by root and this user, so that its code may be run.
// Looks at owner and write bits (an access list shows in the group's bits). Changes nothing.
#pragma once

#include <sys/types.h>

#include <string>

namespace casebound {

// "" when trusted; else what is wrong and what to do, without the path itself. `folder` is absolute and real
// (no links); its parents count too, since who can rename a parent can exchange the folder.
std::string folder_fault(const std::string& folder, uid_t user);

// The same for a file in a trusted folder, which must be a regular file.
std::string file_fault(const std::string& file, uid_t user);

}  // namespace casebound
