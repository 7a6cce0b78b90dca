// KEY=VALUE words of a command as typed values. Every key is one of those allowed, or an error names the nearest.
// Knows no command; throws Error(usage) that names the key.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace casebound {

class KeyValueArgs {
public:
    // `others_too`: words with other keys are kept for others() instead of being refused.
    KeyValueArgs(const std::vector<std::string>& words, std::size_t from, const std::vector<std::string>& allowed,
                 bool others_too = false);

    bool has(std::string_view key) const;
    std::string text(std::string_view key, std::string_view fallback = {}) const;
    std::string need(std::string_view key) const;  // Error when it is not given
    std::optional<double> number(std::string_view key, std::string_view unit) const;
    std::optional<std::int64_t> whole(std::string_view key) const;  // from 0 up
    std::optional<std::int64_t> cents(std::string_view key) const;  // "12.50"
    bool yes(std::string_view key) const;                           // yes or no; no when not given
    std::optional<double> share(std::string_view key) const;        // "15%" or "0.15"
    const std::vector<std::pair<std::string, std::string>>& others() const { return others_; }

private:
    std::vector<std::pair<std::string, std::string>> given_, others_;
};

// Keys as help and errors show them, with dashes; both ways of writing are taken.
std::vector<std::string> as_typed(std::vector<std::string> keys);

// "a=b" cut at the first "="; Error(usage) when there is none.
std::pair<std::string, std::string> key_value_arg(const std::string& word);

}  // namespace casebound
