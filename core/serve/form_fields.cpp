#include "core/serve/form_fields.h"

#include <algorithm>

#include "core/ground/utf8.h"

namespace casebound {

namespace {

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

std::optional<std::string> decoded(std::string_view raw, bool plus_is_space) {
    std::string text;
    for (std::size_t i = 0; i < raw.size(); ++i) {
        if (raw[i] == '+' && plus_is_space) text += ' ';
        else if (raw[i] != '%') text += raw[i];
        else {
            const int high = i + 2 < raw.size() ? hex_digit(raw[i + 1]) : -1,
                      low = i + 2 < raw.size() ? hex_digit(raw[i + 2]) : -1;
            if (high < 0 || low < 0) return std::nullopt;
            text += static_cast<char>(high * 16 + low);
            i += 2;
        }
    }
    return is_form_text(text, plus_is_space) ? std::optional(text) : std::nullopt;
}

}  // namespace

bool is_form_text(const std::string& text, bool lines) {
    const auto control = [&](char c) {
        return (static_cast<unsigned char>(c) < 0x20 && !(lines && (c == '\t' || c == '\n' || c == '\r'))) || c == 0x7f;
    };
    return std::none_of(text.begin(), text.end(), control) && bad_utf8(text) == std::string_view::npos;
}

std::optional<Fields> form_of(std::string_view body) {
    Fields fields;
    while (!body.empty()) {
        const auto end = std::min(body.find('&'), body.size());
        const auto pair = body.substr(0, end);
        body.remove_prefix(std::min(end + 1, body.size()));
        if (pair.empty()) continue;
        const auto equals = std::min(pair.find('='), pair.size());
        auto name = decoded(pair.substr(0, equals), true),
             value = decoded(pair.substr(std::min(equals + 1, pair.size())), true);
        if (!name || !value || fields.size() == most_fields) return std::nullopt;
        fields.emplace_back(std::move(*name), std::move(*value));
    }
    return fields;
}

std::optional<Target> target_of(std::string_view target) {
    if (target.empty() || target.front() != '/' || target.substr(0, 2) == "//") return std::nullopt;
    const auto mark = std::min(target.find('?'), target.size());
    auto path = decoded(target.substr(0, mark), false);
    auto query = form_of(target.substr(std::min(mark + 1, target.size())));
    if (!path || !query || path->substr(0, 2) == "//") return std::nullopt;
    return Target{std::move(*path), std::move(*query)};
}

std::string_view cookie_of(std::string_view field, std::string_view name) {
    while (!field.empty()) {
        const auto end = std::min(field.find(';'), field.size());
        auto pair = field.substr(0, end);
        field.remove_prefix(std::min(end + 1, field.size()));
        while (!pair.empty() && pair.front() == ' ') pair.remove_prefix(1);
        if (pair.substr(0, name.size()) == name && pair.substr(name.size(), 1) == "=")
            return pair.substr(name.size() + 1);
    }
    return {};
}

}  // namespace casebound
