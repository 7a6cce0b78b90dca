#include "core/page/page_answer.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/contract/answer_lines.h"
#include "core/ground/text_layout.h"
#include "core/html/svg.h"
#include "core/reason/vocabulary.h"
#include "core/say/report.h"

namespace casebound {

namespace {

void write_headline(Html& html, const Answer& answer) {
    const auto box = html.in("div", {{"class", "headline"}});
    write_answer_verdict(html, answer);
    html.element("p", answer.headline);
}

std::size_t longest_word(std::string_view text) {
    std::size_t longest = 0;
    while (!text.empty()) {
        const auto end = std::min(text.find(' '), text.size());
        longest = std::max(longest, display_width(text.substr(0, end)));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return longest;
}

// In characters, with every cell wrapped as narrow as its longest word.
std::size_t narrowest(const Grid& grid) {
    std::vector<std::size_t> widths;
    const auto widen = [&](const std::vector<std::string>& cells) {
        widths.resize(std::max(widths.size(), cells.size()));
        for (std::size_t i = 0; i < cells.size(); ++i) widths[i] = std::max(widths[i], longest_word(cells[i]));
    };
    widen(grid.columns);
    for (const auto& row : grid.rows) widen(row);
    std::size_t all = 0;
    for (const auto width : widths) all += width + 1;
    return all;
}

void write_plain_grid(Html& html, const Grid& grid, const std::vector<bool>& marked) {
    constexpr std::size_t roomy = 34;
    const auto table = html.in("table", {{"class", narrowest(grid) <= roomy ? "grid" : "grid dense"}});
    html.element("caption", grid.title);
    {
        const auto head = html.in("thead");
        const auto row = html.in("tr");
        for (const auto& column : grid.columns) html.element("th", column, {{"scope", "col"}});
    }
    const auto body = html.in("tbody");
    for (std::size_t i = 0; i < grid.rows.size(); ++i) {
        const auto row = html.in("tr", marked[i] ? HtmlAttributes{{"class", "marked"}} : HtmlAttributes{});
        for (std::size_t j = 0; j < grid.rows[i].size(); ++j) {
            const auto cell = j == 0 ? html.in("th", {{"scope", "row"}}) : html.in("td");
            html.text(grid.rows[i][j]);
            if (marked[i] && j == 0) html.text(" \u25C0");
            if (marked[i] && j == 0) html.element("span", " (this one)", {{"class", "only-read"}});
        }
    }
}

}  // namespace

void write_answer_lines(Html& html, const Answer& answer) {
    if (answer.lines.empty()) return;
    HtmlTable table(html, {"what", "value", "source"}, "In numbers and words", false);
    for (const auto& line : answer.lines) {
        table.begin_row();
        table.cell(line.label);
        table.cell(value_text(line));
        {
            const auto cell = table.open_cell();
            write_source(html, line.source);
        }
        table.end_row();
    }
}

bool invented(const Answer& answer) {
    return std::any_of(answer.lines.begin(), answer.lines.end(),
                       [](const AnswerLine& line) { return line.source.evidence == Evidence::invented; });
}

void write_grid(Html& html, const Grid& grid) {
    std::vector<bool> marked(grid.rows.size());
    for (const auto row : grid.marked_rows)
        if (row < marked.size()) marked[row] = true;
    constexpr std::size_t fits_a_phone = 42;
    if (narrowest(grid) <= fits_a_phone) return write_plain_grid(html, grid, marked);
    HtmlTable table(html, grid.columns, grid.title);
    for (std::size_t i = 0; i < grid.rows.size(); ++i) {
        auto cells = grid.rows[i];
        if (marked[i] && !cells.empty()) cells.front() += " \u25C0 this one";
        table.row(cells, marked[i]);
    }
}

void write_answer_verdict(Html& html, const Answer& answer) {
    if (!answer.verdict || answer.verdict == Verdict::fits) return;
    if (answer.verdict == Verdict::does_not_fit) write_verdict(html, *answer.verdict, "no");
    else write_verdict(html, *answer.verdict);
}

void write_answer(Html& html, const Answer& answer) {
    const auto section = html.in("section", {{"class", "answer"}, {"aria-labelledby", "answer-title"}});
    html.element("h2", "Answer", {{"id", "answer-title"}});
    write_headline(html, answer);
    if (!answer.next.empty()) {
        html.element("h3", "Next");
        write_list(html, answer.next);
    }
    for (const auto& picture : answer.pictures) write_picture(html, picture);
    for (const auto& grid : answer.grids) write_grid(html, grid);
    for (const auto& series : answer.series) write_series(html, series);
    write_answer_lines(html, answer);
    if (!answer.assumptions.empty()) {
        html.element("h3", "Assumed");
        write_list(html, answer.assumptions);
    }
    if (!answer.cautions.empty()) {
        html.element("h3", "Cautions");
        write_list(html, answer.cautions, "cautions");
    }
}

}  // namespace casebound
