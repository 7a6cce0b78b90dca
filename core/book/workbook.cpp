#include "core/book/workbook.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/book/workbook_parts.h"
#include "core/ground/error.h"

namespace casebound {

struct Workbook::Contents {
    Contents(std::string all, const std::string& path)
        : bytes(std::move(all)), stamp{bytes.size(), sha256_of(bytes)}, zip(bytes, path),
          format(zip.has("content.xml") ? ods_in(zip, path) : xlsx_in(zip, path)) {}

    std::string bytes;
    FileStamp stamp;
    ZipReader zip;
    std::unique_ptr<BookFormat> format;
};

namespace {

// Said before it is taken for damage.
void refuse_other_kinds(std::string_view bytes, const std::string& path) {
    if (bytes.starts_with("\xD0\xCF\x11\xE0"))
        throw Error(Exit::bad_data,
                    fmt::format("{}: an .xls of the old kind, or a workbook with a password: save it as .xlsx or .ods, "
                                "without a password",
                                path));
    if (!bytes.starts_with("PK"))
        throw Error(Exit::bad_data, fmt::format("{}: this is no workbook: save it as .xlsx or .ods", path));
}

}  // namespace

Workbook::Workbook(const std::string& path) : Workbook(read_whole(path, most_bytes), path) {}

Workbook::Workbook(std::string bytes, const std::string& path) {
    refuse_other_kinds(bytes, path);
    contents_ = std::make_unique<Contents>(std::move(bytes), path);
    if (sheets().empty()) throw Error(Exit::bad_data, fmt::format("{}: no sheet is in it: save it again", path));
}

Workbook::~Workbook() = default;
Workbook::Workbook(Workbook&&) noexcept = default;

const std::vector<std::string>& Workbook::sheets() const { return contents_->format->sheets; }
const FileStamp& Workbook::stamp() const { return contents_->stamp; }
void Workbook::read(std::size_t sheet, BookRows& rows) const { contents_->format->read(sheet, rows); }

bool names_workbook(std::string_view path) {
    for (const std::string_view end : {".xlsx", ".ods"}) {
        if (path.size() <= end.size()) continue;
        const auto tail = path.substr(path.size() - end.size());
        if (std::equal(tail.begin(), tail.end(), end.begin(),
                       [](char a, char b) { return (a >= 'A' && a <= 'Z' ? a - 'A' + 'a' : a) == b; }))
            return true;
    }
    return false;
}

}  // namespace casebound
