// Tokens nobody can guess, and comparing them without telling how far they agree. The bytes come from the kernel;
// nothing here is cryptography of its own.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace casebound {

constexpr std::size_t secret_letters = 32;
std::string new_secret();  // 32 hexadecimal digits, 128 bits of getrandom(2); throws Error(bug) when there are none

// One after the other, as many as `count`, asked of the kernel at once.
std::string new_secrets(std::size_t count);

// In a time that hangs on the length of `given` alone.
bool same_secret(std::string_view given, std::string_view kept);

}  // namespace casebound
