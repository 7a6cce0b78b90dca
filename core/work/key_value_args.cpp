#include "core/work/key_value_args.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/vocabulary.h"
#include "core/shop/shop_offers.h"

namespace casebound {

namespace {

[[noreturn]] void refuse(const std::string& what) { throw Error(Exit::usage, what); }

}  // namespace

std::vector<std::string> as_typed(std::vector<std::string> keys) {
    for (auto& key : keys) key = dashed(key);
    return keys;
}

std::pair<std::string, std::string> key_value_arg(const std::string& word) {
    const auto at = word.find('=');
    if (at == std::string::npos || at == 0 || at + 1 == word.size()) refuse(fmt::format("{}: write KEY=VALUE", word));
    return {word.substr(0, at), word.substr(at + 1)};
}

KeyValueArgs::KeyValueArgs(const std::vector<std::string>& words, std::size_t from,
                           const std::vector<std::string>& allowed, bool others_too) {
    for (std::size_t i = from; i < words.size(); ++i) {
        const auto [as_typed, value] = key_value_arg(words[i]);
        auto key = as_typed;
        std::replace(key.begin(), key.end(), '-', '_');
        if (std::find(allowed.begin(), allowed.end(), key) == allowed.end()) {
            if (!others_too) {
                const auto near = nearest(key, allowed);
                refuse(fmt::format("{}: no such key: {}", as_typed,
                                   near.empty() ? fmt::format("use {}", fmt::join(casebound::as_typed(allowed), ", "))
                                                : fmt::format("did you mean {}?", dashed(near))));
            }
            others_.emplace_back(as_typed, value);
            continue;
        }
        if (has(key)) refuse(fmt::format("{}: given twice: give it once", dashed(key)));
        given_.emplace_back(key, value);
    }
}

bool KeyValueArgs::has(std::string_view key) const {
    return std::any_of(given_.begin(), given_.end(), [&](const auto& one) { return one.first == key; });
}

std::string KeyValueArgs::text(std::string_view key, std::string_view fallback) const {
    for (const auto& [name, value] : given_)
        if (name == key) return value;
    return std::string(fallback);
}

std::string KeyValueArgs::need(std::string_view key) const {
    if (!has(key)) refuse(fmt::format("{0}: it is needed here: write {0}=...", dashed(key)));
    return text(key);
}

std::optional<double> KeyValueArgs::number(std::string_view key, std::string_view unit) const {
    if (!has(key)) return std::nullopt;
    try {
        return quantity_in(text(key), unit);
    } catch (const UnitFault& fault) { refuse(fmt::format("{}: {}", dashed(key), fault.what())); }
}

std::optional<std::int64_t> KeyValueArgs::whole(std::string_view key) const {
    if (!has(key)) return std::nullopt;
    const auto word = text(key);
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (error != std::errc{} || end != word.data() + word.size() || value < 0 || value > 1'000'000'000)
        refuse(fmt::format("{}: \"{}\": write a whole number from 0 up", dashed(key), word));
    return value;
}

std::optional<std::int64_t> KeyValueArgs::cents(std::string_view key) const {
    return has(key) ? std::optional(cents_from(dashed(key), text(key))) : std::nullopt;
}

bool KeyValueArgs::yes(std::string_view key) const {
    const auto word = text(key, "no");
    if (word != "yes" && word != "no") refuse(fmt::format("{}: \"{}\": write yes or no", dashed(key), word));
    return word == "yes";
}

std::optional<double> KeyValueArgs::share(std::string_view key) const {
    if (!has(key)) return std::nullopt;
    auto word = text(key);
    const bool percent = word.ends_with('%');
    if (percent) word.pop_back();
    double value = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (percent) value /= 100;
    if (error != std::errc{} || end != word.data() + word.size() || !(value >= 0 && value <= 1))
        refuse(fmt::format("{}: \"{}\": write a share from 0% to 100%", dashed(key), text(key)));
    return value;
}

}  // namespace casebound
