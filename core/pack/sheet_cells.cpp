#include "core/pack/sheet_cells.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/utf8.h"

namespace casebound {

namespace {

constexpr const char* as_text = "format the column as text and type it as it stands on the label or in the book";

// What no text may hold, as in a CSV file.
std::string wrong_bytes(std::string_view text) {
    if (text.find('\n') != std::string_view::npos) return "a line break inside the cell: write it on one line";
    const auto bad = std::find_if(text.begin(), text.end(), [](char c) {
        const auto b = static_cast<unsigned char>(c);
        return (b < 0x20 && b != '\t') || b == 0x7F;
    });
    if (bad == text.end()) return {};
    return fmt::format("a control character \\x{:02X}: delete it", static_cast<unsigned char>(*bad));
}

}  // namespace

std::string wrong_in_sheet(const Column& column, const BookCell& cell) {
    const auto now = shown(cell.text);
    switch (cell.is) {
        case CellIs::date: return fmt::format("`{}` is a date here, not a text: {}", now, as_text);
        case CellIs::truth: return fmt::format("`{}` is true or false here, not a text: {}", now, as_text);
        case CellIs::error:
            return fmt::format("`{}` is what a spreadsheet leaves of a broken formula: write the value", now);
        case CellIs::number:
            if (column.kind != CellKind::key && column.kind != CellKind::word) return {};
            return fmt::format("`{}` is a number here, and a key is text: zeros, a point or digits may be lost: {}",
                               now, as_text);
        case CellIs::empty: return {};
        case CellIs::text: break;
    }
    return wrong_bytes(cell.text);
}

}  // namespace casebound
