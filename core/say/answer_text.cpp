// An inquiry's answer as text: headline, lines, grids; series by a few of their points; pictures by their
// text equivalent.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/contract/answer_lines.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/report.h"

namespace casebound {

std::string value_text(const AnswerLine& line) {
    if (const auto* text = std::get_if<std::string>(&line.value)) return *text;
    const auto& measure = std::get<Measure>(line.value);
    return shown_measure(measure.value, measure.unit, measure.decimals);
}

namespace {

std::string number_short(double value) {
    return std::abs(value) >= 1000 ? plain_number(value, 0) : fmt::format("{:.3g}", value + 0.0);
}

std::string series_text(const Series& series) {
    std::vector<std::string> header{
        fmt::format("{}{}", series.x_label, series.x_unit.empty() ? "" : ", " + unit_words(series.x_unit))};
    const auto is_point = [](const Curve& curve) { return curve.points.size() == 1; };
    for (const auto& curve : series.curves)
        if (!is_point(curve)) header.push_back(curve.name);
    header.back() += series.y_unit.empty() ? "" : ", " + unit_words(series.y_unit);
    Table table(header);
    if (series.curves.empty()) return "";
    const auto& points = series.curves.front().points;
    constexpr std::size_t shown = 12;
    const std::size_t step = std::max<std::size_t>(1, (points.size() + shown - 1) / shown);
    for (std::size_t i = 0; i < points.size(); i += step) {
        std::vector<std::string> cells{number_short(points[i].first)};
        for (const auto& curve : series.curves)
            if (!is_point(curve)) cells.push_back(i < curve.points.size() ? number_short(curve.points[i].second) : "-");
        table.row(cells);
    }
    std::string out = "\n" + wrapped(series.title) + table.text();
    const auto with_unit = [](double value, const std::string& unit) {
        return number_short(value) + (unit.empty() ? "" : " " + unit_words(unit));
    };
    for (const auto& curve : series.curves)
        if (is_point(curve))
            out += wrapped(fmt::format("{}: {} at {}", curve.name, with_unit(curve.points[0].second, series.y_unit),
                                       with_unit(curve.points[0].first, series.x_unit)),
                           2, 2);
    for (const auto& [x, label] : series.marks)
        out += wrapped(fmt::format("at {}: {}", with_unit(x, series.x_unit), label), 2, 2);
    return out;
}

std::string grid_text(const Grid& grid) {
    Table table(grid.columns);
    for (std::size_t i = 0; i < grid.rows.size(); ++i) {
        auto cells = grid.rows[i];
        const bool marked = std::find(grid.marked_rows.begin(), grid.marked_rows.end(), i) != grid.marked_rows.end();
        if (marked && !cells.empty()) cells.back() += "  <<";
        table.row(std::move(cells));
    }
    return "\n" + wrapped(grid.title) + table.text();
}

}  // namespace

std::string answer_text(const Answer& answer, const std::string& title, bool full) {
    bool invented = false;
    for (const auto& line : answer.lines) invented |= line.source.evidence == Evidence::invented;
    std::string out = spread(title, invented_label(invented));
    // A computation that answers says so by its headline; a refusal and a doubt are named.
    const std::string word = !answer.verdict || answer.verdict == Verdict::fits ? ""
                             : answer.verdict == Verdict::does_not_fit
                                 ? "NO: "
                                 : capitalised(verdict_words(*answer.verdict)) + ": ";
    out += wrapped(word + answer.headline, 0, 2) + "\n";
    if (!answer.lines.empty()) {
        Table table({"what", "value", "source"});
        for (const auto& line : answer.lines) table.row({line.label, value_text(line), note_text(line.source)});
        const auto narrow = std::all_of(answer.lines.begin(), answer.lines.end(), [](const AnswerLine& line) {
            return display_width(line.label) <= 34 && display_width(value_text(line)) <= 22;
        });
        if (narrow) {
            out += table.text();
        } else {  // long values read better one under another
            for (const auto& line : answer.lines)
                out += wrapped(fmt::format("{}: {}  [{}]", line.label, value_text(line), note_text(line.source)), 2, 2);
        }
    }
    for (const auto& grid : answer.grids) out += grid_text(grid);
    if (full || answer.lines.empty())
        for (const auto& series : answer.series) out += series_text(series);
    for (const auto& picture : answer.pictures)
        out += "\n" + wrapped(fmt::format("{}: {}", picture.title, picture.text_equivalent), 0, 2);
    if (!answer.assumptions.empty()) out += "\n";
    for (const auto& text : answer.assumptions) out += wrapped(fmt::format("Assumed: {}", text), 0, 2);
    for (const auto& text : answer.next) out += wrapped(fmt::format("Next: {}", text), 0, 2);
    for (const auto& text : answer.cautions) out += wrapped(fmt::format("Caution: {}", text), 0, 2);
    if (!full && !answer.series.empty() && !answer.lines.empty()) out += wrapped("--full shows the curves in numbers.");
    return out;
}

}  // namespace casebound
