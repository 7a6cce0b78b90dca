// Plain text in columns: wrapping and tables. Counts code points, not bytes; needs no colour.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

inline constexpr std::size_t usual_width = 80, least_width = 40, most_width = 100;

std::size_t page_width();                  // usual_width until another is set
void use_page_width(std::size_t columns);  // taken as the least or the most where it lies outside them

std::size_t display_width(std::string_view text);

// `text` wrapped to the page, every line after the first indented by `hanging`; ends with a newline.
std::string wrapped(std::string_view text, std::size_t indent = 0, std::size_t hanging = 0,
                    std::size_t width = page_width());

// Rows of cells under a header line; the last column takes what is left and wraps. Cells are never cut.
class Table {
public:
    explicit Table(std::vector<std::string> header, std::size_t indent = 2)
        : header_(std::move(header)), indent_(indent) {}
    void row(std::vector<std::string> cells) { rows_.push_back({std::move(cells), {}}); }
    void under(std::string note) { rows_.back().notes.push_back(std::move(note)); }  // a line below the last row
    std::string text() const;

private:
    struct Entry {
        std::vector<std::string> cells, notes;
    };
    std::vector<std::string> header_;
    std::vector<Entry> rows_;
    std::size_t indent_;
};

// Left text and right text on one line of the page, or on two when they do not fit.
std::string spread(std::string_view left, std::string_view right);

// "pan filter, pan gasket"; of titles with a comma of their own "mount, left; mount, right".
std::string listed_titles(const std::vector<std::string>& titles);
std::string plural(std::size_t count, std::string_view one, std::string_view many = {});  // "1 line", "3 lines"
std::string dashed(std::string_view key);        // "left_over": "left-over", as it is typed
std::string spaced(std::string_view key);        // "pan_and_filter": "pan and filter"
std::string capitalised(std::string_view text);  // "CHECK FIRST"

}  // namespace casebound
