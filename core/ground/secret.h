// Tokens nobody can guess, and comparing them without telling how far they agree. The bytes come from the kernel;
// nothing here is cryptography of its own.
#pragma once

#include <string>
#include <string_view>

namespace casebound {

std::string new_secret();  // 32 hexadecimal digits, 128 bits of getrandom(2); throws Error(bug) when there are none

// In a time that hangs on the length of `given` alone.
bool same_secret(std::string_view given, std::string_view kept);

}  // namespace casebound
