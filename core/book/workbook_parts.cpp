#include "core/book/workbook_parts.h"

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

void RowMaker::begin(unsigned long line) {
    if (line <= line_ || line > BookLimits::most_rows)
        throw Error(Exit::bad_data, fmt::format("{}: row {} is not where it belongs, or beyond row {}: save it again",
                                                place_, line, BookLimits::most_rows));
    line_ = line;
    kept_.clear();
}

void RowMaker::put(std::size_t column, CellIs is, std::string text) {
    if (is == CellIs::empty || text.empty()) return;
    if (column >= BookLimits::most_columns)
        throw Error(Exit::bad_data, fmt::format("{}: row {}: more than {} columns: this is not a list of parts", place_,
                                                line_, BookLimits::most_columns));
    if (text.size() > BookLimits::most_cell_bytes)
        throw Error(Exit::bad_data, fmt::format("{}: {}: a cell of more than 64 KB: shorten it", place_,
                                                cell_name(line_, static_cast<unsigned>(column + 1))));
    constexpr std::size_t most_handed_on = std::size_t{1} << 30;
    if ((bytes_ += text.size()) > most_handed_on)
        throw Error(Exit::bad_data, fmt::format("{}: more than 1 GB of cells: this is not a list of parts", place_));
    if (kept_.size() <= column) kept_.resize(column + 1, {CellIs::empty, {}});
    kept_[column] = {is, std::move(text)};
}

bool RowMaker::deliver() {
    if (kept_.empty()) return true;
    cells_.clear();
    for (const auto& [is, text] : kept_) cells_.push_back({is, text});
    return rows_.row(line_, cells_);
}

void read_part(const ZipReader& zip, std::string_view name, XmlEvents& events, const std::string& path) {
    const auto place = fmt::format("{}: {}", path, name);
    read_xml([&](const std::function<bool(std::string_view)>& take) { zip.read(name, take); }, events, place);
}

}  // namespace casebound
