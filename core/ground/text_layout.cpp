#include "core/ground/text_layout.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace casebound {

namespace {

std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> words;
    while (!text.empty()) {
        const auto start = text.find_first_not_of(' ');
        if (start == std::string_view::npos) break;
        const auto end = text.find(' ', start);
        words.push_back(text.substr(start, end == std::string_view::npos ? end : end - start));
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end);
    }
    return words;
}

std::vector<std::string> lines_of(std::string_view text, std::size_t first_width, std::size_t width) {
    std::vector<std::string> lines(1);
    std::size_t room = first_width;
    for (const auto word : words_of(text)) {
        const auto need = display_width(word);
        const bool fresh = lines.back().empty();
        if (!fresh && display_width(lines.back()) + 1 + need > room) {
            lines.emplace_back(word);
            room = width;
            continue;
        }
        lines.back() += (fresh ? "" : " ");
        lines.back() += word;
    }
    return lines;
}

}  // namespace

namespace {

std::size_t& width_set() {
    static std::size_t width = usual_width;
    return width;
}

}  // namespace

std::size_t page_width() { return width_set(); }

void use_page_width(std::size_t columns) { width_set() = std::clamp(columns, least_width, most_width); }

std::size_t display_width(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

std::string wrapped(std::string_view text, std::size_t indent, std::size_t hanging, std::size_t width) {
    std::string out;
    std::size_t margin = indent;
    for (const auto& line : lines_of(text, width - indent, width - indent - hanging)) {
        out += std::string(line.empty() ? 0 : margin, ' ') + line + "\n";
        margin = indent + hanging;
    }
    return out;
}

std::string Table::text() const {
    std::vector<std::size_t> widths(header_.size());
    for (std::size_t c = 0; c < header_.size(); ++c) widths[c] = display_width(header_[c]);
    for (const auto& entry : rows_)
        for (std::size_t c = 0; c < entry.cells.size(); ++c)
            widths[c] = std::max(widths[c], display_width(entry.cells[c]));
    std::size_t taken = indent_;
    for (std::size_t c = 0; c + 1 < widths.size(); ++c) taken += widths[c] + 2;
    const std::size_t least_last = 16,
                      last = std::max(least_last, page_width() > taken ? page_width() - taken : least_last);
    std::string out;
    const auto put = [&](const std::vector<std::string>& cells) {
        std::string line(indent_, ' ');
        for (std::size_t c = 0; c + 1 < cells.size(); ++c)
            line += cells[c] + std::string(widths[c] + 2 - display_width(cells[c]), ' ');
        const auto tail = lines_of(cells.back(), last, last);
        line += tail.front();
        out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
        for (std::size_t i = 1; i < tail.size(); ++i) out += std::string(taken, ' ') + tail[i] + "\n";
    };
    if (std::any_of(header_.begin(), header_.end(), [](const std::string& title) { return !title.empty(); }))
        put(header_);
    for (const auto& entry : rows_) {
        put(entry.cells);
        for (const auto& note : entry.notes) out += wrapped(note, indent_ + 4, 2);
    }
    return out;
}

std::string spread(std::string_view left, std::string_view right) {
    const auto used = display_width(left) + display_width(right);
    if (right.empty()) return wrapped(left, 0, 2);
    if (used + 2 <= page_width()) return fmt::format("{}{}{}\n", left, std::string(page_width() - used, ' '), right);
    return wrapped(left, 0, 2) + fmt::format("  {}\n", right);
}

std::string listed_titles(const std::vector<std::string>& titles) {
    const bool commas = std::any_of(titles.begin(), titles.end(),
                                    [](const std::string& one) { return one.find(',') != std::string::npos; });
    return fmt::format("{}", fmt::join(titles, commas ? "; " : ", "));
}

std::string plural(std::size_t count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count,
                       count == 1     ? std::string(one)
                       : many.empty() ? std::string(one) + "s"
                                      : std::string(many));
}

std::string dashed(std::string_view key) {
    std::string out{key};
    std::replace(out.begin(), out.end(), '_', '-');
    return out;
}

std::string spaced(std::string_view key) {
    std::string out{key};
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

std::string capitalised(std::string_view text) {
    std::string out{text};
    std::transform(out.begin(), out.end(), out.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
    return out;
}

}  // namespace casebound
