#include "core/serve/form_parts.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "core/serve/form_fields.h"

namespace casebound {

namespace {

constexpr std::size_t most_name_bytes = 255, most_head_bytes = 2048;

std::string small(std::string_view text) {
    std::string out(text);
    for (auto& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return out;
}

// "x" of: name="x"; browsers write a quote within as %22.
std::optional<std::string> parameter(std::string_view line, std::string_view name) {
    const auto mark = fmt::format("; {}=\"", name);
    const auto at = small(line).find(mark);
    if (at == std::string::npos) return std::nullopt;
    const auto from = at + mark.size();
    const auto end = line.find('"', from);
    if (end == std::string_view::npos || end - from > most_name_bytes) return std::nullopt;
    return std::string(line.substr(from, end - from));
}

// The line of the part's head that says what it is; "" when there is none.
std::string_view disposition(std::string_view head) {
    while (!head.empty()) {
        const auto end = std::min(head.find("\r\n"), head.size());
        const auto line = head.substr(0, end);
        if (small(line).rfind("content-disposition: form-data;", 0) == 0) return line;
        head.remove_prefix(std::min(end + 2, head.size()));
    }
    return {};
}

bool add_part(FormParts& parts, std::string_view part) {
    const auto blank = part.find("\r\n\r\n");
    if (blank == std::string_view::npos || blank > most_head_bytes) return false;
    const auto line = disposition(part.substr(0, blank));
    const auto name = parameter(line, "name");
    if (!name || !is_form_text(*name, false)) return false;
    std::string bytes(part.substr(blank + 4));
    if (const auto file = parameter(line, "filename")) {
        if (!is_form_text(*file, false)) return false;
        if (!file->empty()) parts.files.push_back({*name, *file, std::move(bytes)});
        return true;
    }
    if (!is_form_text(bytes, true)) return false;
    parts.fields.emplace_back(*name, std::move(bytes));
    return parts.fields.size() <= most_fields;
}

}  // namespace

std::string boundary_in(std::string_view content_type) {
    constexpr std::size_t most = 70;
    const auto all = small(content_type);
    if (all.rfind("multipart/form-data", 0) != 0) return {};
    const auto at = all.find("boundary=");
    if (at == std::string::npos) return {};
    auto boundary = content_type.substr(at + 9);
    boundary = boundary.substr(0, boundary.find(';'));
    if (boundary.size() > 1 && boundary.front() == '"' && boundary.back() == '"')
        boundary = boundary.substr(1, boundary.size() - 2);
    const bool sound = !boundary.empty() && boundary.size() <= most &&
                       std::all_of(boundary.begin(), boundary.end(), [](char c) { return c > ' ' && c < 0x7f; });
    return sound ? std::string(boundary) : std::string();
}

std::optional<FormParts> parts_of(std::string_view body, std::string_view boundary) {
    FormParts parts;
    const auto mark = fmt::format("\r\n--{}", boundary);
    if (body.substr(0, mark.size() - 2) != std::string_view(mark).substr(2)) return std::nullopt;
    body.remove_prefix(mark.size() - 2);
    while (body.substr(0, 2) == "\r\n") {
        body.remove_prefix(2);
        const auto end = body.find(mark);
        if (end == std::string_view::npos || !add_part(parts, body.substr(0, end))) return std::nullopt;
        body.remove_prefix(end + mark.size());
    }
    return body.substr(0, 2) == "--" ? std::optional(std::move(parts)) : std::nullopt;
}

}  // namespace casebound
