// The printable sheets as HTML: black on white, A4 or US Letter, the vehicle, the date, the catalog and "page x of y"
// on every page. The same markup stands alone as a file (the style inside) or is served (the style linked).
// Renders only; every text is escaped.
#pragma once

#include <string>
#include <vector>

#include "core/sheets/bench_sheet.h"
#include "core/sheets/order_sheet.h"
#include "core/sheets/sheets.h"

namespace casebound {

enum class Paper : std::uint8_t { a4, letter };

Paper paper_from(std::string_view word);  // "a4", "letter"; throws Error(usage)

struct PrintFigure {
    Photo photo;
    std::string caption;
};

struct PrintTable {
    std::string title, lead;  // lead: a sentence between title and rows
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows;
    std::string if_empty;
    std::string tick{};                  // title of a first column of boxes; empty: none
    std::size_t room = 0;                // so many last columns are left for the pen
    bool list = false;                   // what and a sentence: a line each, without a grid
    bool kept = false;                   // on the page of what stands before it
    std::vector<PrintFigure> figures{};  // instead of rows
};

struct PrintSheet {
    std::string kind;  // "bench-match"
    SheetHead head;
    std::string catalog;  // "demo-fleet 1.0.0, ..."
    std::vector<PrintTable> tables;
    bool dense = false;  // in small type, so that one page takes it
};

// Any sheet by the word that names it: job, order, bench-match, history, disclosure. Throws Error(usage).
PrintSheet print_sheet(Session& session, const Situation& situation, const std::string& kind,
                       const std::vector<std::string>& jobs, std::optional<double> gross_weight_kg = {},
                       bool with_photos = false);

PrintSheet printed(const Sheet& sheet, const std::string& catalog);
PrintSheet printed(const OrderSheet& sheet, const std::string& catalog);
PrintSheet printed(const BenchSheet& sheet, const std::string& catalog);

std::string catalog_words(const Catalog& catalog);  // every loaded pack with its version

// `style_link` empty: the style stands in the page, and the photos with it.
std::string sheet_html(const PrintSheet& sheet, Paper paper, const std::string& style_link = {});
extern const char* const sheet_css;  // core/sheets/sheet.css, put into the program by the build

}  // namespace casebound
