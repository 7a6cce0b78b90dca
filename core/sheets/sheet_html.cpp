#include "core/sheets/sheet_html.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/base64.h"
#include "core/html/html.h"
#include "core/say/report.h"
#include "core/shop/shop_photos.h"

namespace casebound {

namespace {

std::string title_of(const std::string& kind) {
    auto title = kind + " sheet";
    title.front() = static_cast<char>(title.front() - 'a' + 'A');
    return title;
}

std::string joined(const std::vector<std::string>& parts, const char* with = ", ") {
    return fmt::format("{}", fmt::join(parts, with));
}

PrintTable cells_table(const SheetSection& section, bool tick) {
    PrintTable table{section.title, {}, section.columns, {}, section.if_empty};
    if (tick && !section.rows.empty()) table.tick = "done";
    for (const auto& row : section.rows) table.rows.push_back(row.cells);
    return table;
}

// Columns that no row fills are left out.
PrintTable rows_table(const SheetSection& section, bool tick) {
    if (!section.columns.empty()) return cells_table(section, tick);
    const auto any = [&](auto has) { return std::any_of(section.rows.begin(), section.rows.end(), has); };
    const bool entries = any([](const SheetRow&row) { return row.entry.has_value(); }),
               dates = any([](const SheetRow&row) { return !row.date.empty(); });
    const bool subjects = any([](const SheetRow&row) { return !row.subject.empty(); }),
               sources = any([](const SheetRow&row) { return !row.source.empty(); });
    PrintTable table{section.title, {}, {}, {}, section.if_empty};
    if (tick && !section.rows.empty()) table.tick = "done";
    for (const auto& [shown, title] :
         {std::pair{entries, "entry"}, {dates, "date"}, {subjects, "what"}, {true, "on record"}, {sources, "source"}})
        if (shown) table.columns.emplace_back(title);
    table.list = !entries && !dates && !sources;
    for (const auto& row : section.rows) {
        for (const auto& photo : row.photos)
            table.figures.push_back({photo, fmt::format("{}: {}", row.subject, row.text)});
        std::vector<std::string> cells;
        if (entries) cells.push_back(row.entry ? std::to_string(*row.entry) : "");
        if (dates) cells.push_back(row.date);
        if (subjects) cells.push_back(row.subject);
        cells.push_back(row.text + (row.corrects ? fmt::format("; corrects entry {}", *row.corrects) : "") +
                        (row.stands ? "" : " (no longer stands)"));
        if (sources) cells.push_back(row.source);
        table.rows.push_back(std::move(cells));
    }
    return table;
}

PrintTable plain_table(std::string title, const SheetRows& rows, const std::string& first, const std::string& second) {
    PrintTable table{std::move(title), {}, {first, second}, {}, "nothing"};
    for (const auto& row : rows) table.rows.push_back({row.subject, row.text});
    return table;
}

PrintTable seller_table(const OrderSheetSeller& seller, const std::string& currency) {
    auto lead = seller.seller == here_name ? std::string("Not to be bought again.")
                : seller.own_shelf         ? std::string("Off the own shelf.")
                                   : fmt::format("Goods {}, carriage {}, {}.", money_text(seller.goods_cents, currency),
                                                 money_text(seller.carriage_cents, currency), here_text(seller.days));
    PrintTable table{seller.seller,
                     std::move(lead),
                     {"packs", "item", "price", "for", "instead", "terms"},
                     {},
                     {},
                     seller.own_shelf ? "taken" : "ordered"};
    for (const auto& line : seller.lines)
        table.rows.push_back({line.packs, line.title.empty() ? line.item : fmt::format("{}: {}", line.item, line.title),
                              money_text(line.cents, currency), joined(line.serves),
                              line.instead.empty() ? "nothing on record" : joined(line.instead, "; "), line.terms});
    return table;
}

// How wide a column is: what is left for the pen has room, what is never broken is tight.
std::string column_kind(const PrintTable& table, std::size_t column) {
    if (column + table.room >= table.columns.size()) return "room";
    const auto& title = table.columns[column];
    if (title == "part" || title == "number") return title;
    return title == "date" || title == "entry" || title == "packs" || title == "price" || title == "count" ||
                   title == "counted"
               ? "tight"
               : "";
}

void head_cell(Html& html, const std::string& title, const std::string& kind) {
    HtmlAttributes attributes{{"scope", "col"}};
    if (!kind.empty()) attributes.emplace_back("class", kind);
    html.element("th", title, attributes);
}

void write_row(Html& html, const PrintTable& table, const std::vector<std::string>& cells) {
    const auto row = html.in("tr");
    if (!table.tick.empty()) {
        const auto cell = html.in("td", {{"class", "tick"}, {"data-column", table.tick + ": "}});
        html.element("span", "", {{"class", "box"}});
    }
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        HtmlAttributes attributes{{"data-column", table.columns[i] + ": "}};
        if (const auto kind = column_kind(table, i); !kind.empty()) attributes.emplace_back("class", kind);
        html.element("td", i < cells.size() ? cells[i] : "", attributes);
    }
}

// "[ ] pan bolts: 16 x M6x20, 9 N m".
void write_rows_as_lines(Html& html, const PrintTable& table) {
    const auto list = html.in("ul", {{"class", "rows"}});
    for (const auto& cells : table.rows) {
        const auto item = html.in("li");
        if (!table.tick.empty()) html.element("span", "", {{"class", "box"}});
        if (cells.size() > 1 && !cells[0].empty()) html.element("strong", cells[0] + ": ");
        html.text(cells.back());
    }
}

// Served, it is fetched; in a file that stands alone, it stands in the file.
std::string photo_source(const Photo& photo, bool served) {
    if (served) return "/photo/" + photo_file_name(photo);
    return fmt::format("data:{};base64,{}", media_type(photo.type), base64_of(photo_bytes(photo)));
}

void write_figures(Html& html, const std::vector<PrintFigure>& figures, bool served) {
    for (const auto& [photo, caption] : figures) {
        const auto figure = html.in("figure");
        if (is_there(photo))
            html.empty("img", {{"src", photo_source(photo, served)},
                               {"alt", caption},
                               {"width", std::to_string(photo.width)},
                               {"height", std::to_string(photo.height)}});
        html.element("figcaption", caption + (is_there(photo) ? "" : " (its file is gone)"));
    }
}

void write_table(Html& html, const PrintTable& table, bool served) {
    const auto section = html.in("section", table.kept ? HtmlAttributes{{"class", "kept"}} : HtmlAttributes{});
    html.element("h2", table.title);
    if (!table.lead.empty()) html.element("p", table.lead);
    if (table.rows.empty()) {
        html.element("p", table.if_empty);
        return;
    }
    if (!table.figures.empty()) return write_figures(html, table.figures, served);
    if (table.list) return write_rows_as_lines(html, table);
    const auto element = html.in("table");
    {
        const auto head = html.in("thead");
        const auto row = html.in("tr");
        if (!table.tick.empty()) head_cell(html, table.tick, "tick");
        for (std::size_t i = 0; i < table.columns.size(); ++i) head_cell(html, table.columns[i], column_kind(table, i));
    }
    const auto body = html.in("tbody");
    for (const auto& row : table.rows) write_row(html, table, row);
}

void write_head(Html& html, const PrintSheet& sheet, const std::string& style_link) {
    const auto head = html.in("head");
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    html.element("title", fmt::format("{}, {}, {}", title_of(sheet.kind), sheet.head.vehicle, sheet.head.date));
    if (style_link.empty()) html.element("style", sheet_css);
    if (style_link.empty()) return;
    html.empty("link", {{"rel", "stylesheet"}, {"href", style_link}});
    html.empty("link", {{"rel", "icon"}, {"href", "/icon.svg"}, {"type", "image/svg+xml"}});
}

}  // namespace

Paper paper_from(std::string_view word) {
    if (word == "a4") return Paper::a4;
    if (word == "letter") return Paper::letter;
    throw Error(Exit::usage, fmt::format("{}: no such paper: a4 or letter", word));
}

std::string catalog_words(const Catalog& catalog) {
    std::vector<std::string> packs;
    for (const auto& [id, pack] : catalog.packs()) packs.push_back(fmt::format("{} {}", pack.name, pack.version));
    std::sort(packs.begin(), packs.end());
    return joined(packs);
}

PrintSheet printed(const Sheet& sheet, const std::string& catalog) {
    PrintSheet made{sheet.kind, sheet.head, catalog, {}};
    for (const auto& section : sheet.sections)
        if (!section.takes_no_room()) {
            made.tables.push_back(
                rows_table(section, sheet.kind == "job" && (section.name == "work" || section.name == "parts" ||
                                                            section.name == "stays" || section.name == "torques")));
            made.tables.back().kept = section.name == "reminders" || section.name == "signatures" ||
                                      section.name == "stays";
        }
    return made;
}

PrintSheet printed(const OrderSheet& sheet, const std::string& catalog) {
    PrintSheet made{"order", sheet.head, catalog, {}};
    PrintTable jobs{"For", {}, {"job"}, {}, {}};
    for (const auto& title : sheet.jobs) jobs.rows.push_back({title});
    made.tables.push_back(std::move(jobs));
    made.tables.push_back(plain_table("Right for a vehicle with", sheet.right_for, "what", "as told"));
    made.tables.back().if_empty = "nothing is told of it";
    if (!sheet.right_only_if.empty())
        made.tables.push_back(
            plain_table("RIGHT ONLY IF THIS IS TRUE", sheet.right_only_if, "what", "look for yourself"));
    if (!sheet.not_ready.empty())
        made.tables.push_back(plain_table("NOT READY TO ORDER", sheet.not_ready, "place", "in the way"));
    for (const auto& seller : sheet.sellers) made.tables.push_back(seller_table(seller, sheet.currency));
    if (!sheet.sums.empty()) made.tables.push_back(plain_table("Sums", sheet.sums, "what", "amount"));
    if (!sheet.left_over.empty())
        made.tables.push_back(plain_table("Left over for the shelf", sheet.left_over, "place", "quantity"));
    return made;
}

PrintSheet printed(const BenchSheet& sheet, const std::string& catalog) {
    PrintSheet made{"bench-match", sheet.head, catalog, {}};
    PrintTable jobs{"For",
                    "Lay old and new part side by side before anything is opened. Tick the part that was handed over.",
                    {"job"},
                    {},
                    {}};
    for (const auto& title : sheet.jobs) jobs.rows.push_back({title});
    made.tables.push_back(std::move(jobs));
    for (const auto& line : sheet.lines) {
        PrintTable parts{
            fmt::format("{}, {}", line.title, line.need), {}, {"part", "what it is", "for", "here"}, {}, {}, "this"};
        for (const auto& part : line.parts)
            parts.rows.push_back(
                {part.items.empty() ? "no item on record" : part.items, part.title, part.where, part.verdict});
        made.tables.push_back(std::move(parts));
        if (line.marks.empty()) continue;
        PrintTable marks{fmt::format("What tells them apart: {}", line.title),
                         {},
                         {"look at", "how", "told", "old part", "new part"},
                         {},
                         {},
                         {},
                         2};
        for (const auto& mark : line.marks)
            marks.rows.push_back({mark.title, mark.how, mark.told.empty() ? "not known" : mark.told, "", ""});
        made.tables.push_back(std::move(marks));
    }
    return made;
}

PrintSheet print_sheet(Session& session, const Situation& situation, const std::string& kind,
                       const std::vector<std::string>& jobs, std::optional<double> gross_weight_kg, bool with_photos) {
    const auto catalog = catalog_words(session.catalog());
    if (kind == "job") return printed(sheet_of(job_sheet(session, situation, jobs)), catalog);
    if (kind == "order") return printed(order_sheet(session, situation, jobs), catalog);
    if (kind == "bench-match") return printed(bench_sheet(session, situation, jobs), catalog);
    if (kind == "history") return printed(sheet_of(history_sheet(session, situation)), catalog);
    if (kind == "disclosure")
        return printed(sheet_of(disclosure_sheet(session, situation, gross_weight_kg, with_photos)), catalog);
    throw Error(Exit::usage, fmt::format("{}: no such sheet: job, order, bench-match, history or disclosure", kind));
}

std::string sheet_html(const PrintSheet& sheet, Paper paper, const std::string& style_link) {
    Html html;
    const auto made = fmt::format("made {}; catalog: {}", sheet.head.date, sheet.catalog);
    {
        const auto root = html.in("html",
                                  {{"lang", "en"},
                                   {"data-vehicle", fmt::format("{}: {}", sheet.head.vehicle, title_of(sheet.kind))},
                                   {"data-made", made},
                                   {"data-label", invented_label(sheet.head.invented)},
                                   {"data-page", "page "},
                                   {"data-of", " of "}});
        write_head(html, sheet, style_link);
        const auto body = html.in(
            "body", {{"class", std::string(paper == Paper::a4 ? "a4" : "letter") + (sheet.dense ? " dense" : "")}});
        const auto main = html.in("main");
        if (!style_link.empty())
            html.link("/vehicle/" + url_escaped(sheet.head.vehicle), "Back to the vehicle", {{"class", "back"}});
        html.element("h1", fmt::format("{}: {}", sheet.head.vehicle, title_of(sheet.kind)));
        html.element("p", sheet.head.title);
        html.element("p", made + (sheet.head.invented ? "; " + invented_label(true) : ""), {{"class", "made"}});
        for (const auto& table : sheet.tables) write_table(html, table, !style_link.empty());
    }
    return "<!DOCTYPE html>\n" + html.take() + "\n";
}

}  // namespace casebound
