// Curves on axes: ticks at round numbers, or at decades; marks as numbered upright lines.
#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/html/svg.h"
#include "core/html/svg_text.h"

namespace casebound {

namespace {

std::string with_unit(double value, const std::string& unit) {
    return svg_number(value) + (unit.empty() ? "" : " " + unit_words(unit));
}

constexpr double left = 48, right = 292, top = 10, bottom = 190;

struct Scale {
    double low{}, high{}, from{}, to{};
    bool log{};
    double at(double value) const {
        const auto part = log ? (std::log10(value) - std::log10(low)) / (std::log10(high) - std::log10(low))
                              : (value - low) / (high - low);
        return from + part * (to - from);
    }
    bool takes(double value) const { return std::isfinite(value) && (!log || value > 0); }
};

double round_step(double span, int wanted) {
    const double raw = span / wanted, power = std::pow(10, std::floor(std::log10(raw))), part = raw / power;
    return power * (part < 1.5 ? 1 : part < 3.5 ? 2 : part < 7.5 ? 5 : 10);
}

Scale scale_of(double low, double high, bool log, double from, double to) {
    if (!(low <= high)) low = log ? 1 : 0, high = log ? 10 : 1;
    if (log) {
        if (low == high) high = low * 10;
        return {low, high, from, to, true};
    }
    if (low == high) low -= 1, high += 1;
    const double step = round_step(high - low, 5);
    return {std::floor(low / step) * step, std::ceil(high / step) * step, from, to, false};
}

std::vector<double> ticks_of(const Scale& scale) {
    std::vector<double> ticks;
    if (!scale.log) {
        const double step = round_step(scale.high - scale.low, 5);
        for (double tick = std::ceil(scale.low / step - 1e-9) * step;
             tick <= scale.high + step * 1e-9 && ticks.size() < 12; tick += step)
            ticks.push_back(std::abs(tick) < step * 1e-9 ? 0 : tick);
        return ticks;
    }
    const double decades = std::log10(scale.high / scale.low);
    for (double power = std::pow(10, std::floor(std::log10(scale.low))); power <= scale.high && ticks.size() < 40;
         power *= 10)
        for (const double part : decades > 2.5 ? std::vector<double>{1} : std::vector<double>{1, 2, 5})
            if (power * part >= scale.low && power * part <= scale.high) ticks.push_back(power * part);
    return ticks;
}

struct Plot {
    Scale x, y;
};

Plot plot_of(const Series& series) {
    constexpr double inf = std::numeric_limits<double>::infinity();
    double x_low = inf, x_high = -inf, y_low = inf, y_high = -inf;
    for (const auto& curve : series.curves)
        for (const auto& [x, y] : curve.points) {
            if (!std::isfinite(x) || !std::isfinite(y) || (series.log_y && y <= 0)) continue;
            x_low = std::min(x_low, x), x_high = std::max(x_high, x);
            y_low = std::min(y_low, y), y_high = std::max(y_high, y);
        }
    for (const auto& [x, label] : series.marks)
        if (std::isfinite(x)) x_low = std::min(x_low, x), x_high = std::max(x_high, x);
    return {scale_of(x_low, x_high, false, left, right), scale_of(y_low, y_high, series.log_y, bottom, top)};
}

void write_axes(Html& html, const Series& series, const Plot& plot) {
    for (const double tick : ticks_of(plot.x)) {
        svg_line(html, plot.x.at(tick), top, plot.x.at(tick), bottom, "grid");
        svg_text(html, plot.x.at(tick), bottom + 15, plot.x.at(tick) > right - 12 ? "end" : "middle",
                 svg_number(tick));  // the last number is whole
    }
    for (const double tick : ticks_of(plot.y)) {
        svg_line(html, left, plot.y.at(tick), right, plot.y.at(tick), "grid");
        svg_text(html, left - 6, plot.y.at(tick) + 4, "end", svg_number(tick));
    }
    svg_line(html, left, bottom, right, bottom, "axis");
    svg_line(html, left, top, left, bottom, "axis");
    svg_text(html, (left + right) / 2, bottom + 34, "middle", svg_with_unit(series.x_label, series.x_unit));
}

bool is_point(const Curve& curve) { return curve.points.size() == 1; }

bool same_places(const Curve& a, const Curve& b) {
    return a.points.size() > 1 &&
           std::equal(a.points.begin(), a.points.end(), b.points.begin(), b.points.end(),
                      [](const auto& one, const auto& other) { return one.first == other.first; });
}

// What a point may be: between the first two curves.
void write_band(Html& html, const Series& series, const Plot& plot) {
    const auto& curves = series.curves;
    if (std::none_of(curves.begin(), curves.end(), is_point) || curves.size() < 3 || !same_places(curves[0], curves[1]))
        return;
    std::string path;
    const auto add = [&](const std::pair<double, double>& at) {
        if (plot.x.takes(at.first) && plot.y.takes(at.second))
            path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", plot.x.at(at.first), plot.y.at(at.second));
    };
    std::for_each(curves[0].points.begin(), curves[0].points.end(), add);
    std::for_each(curves[1].points.rbegin(), curves[1].points.rend(), add);
    if (!path.empty()) html.empty("path", {{"class", "band"}, {"d", path + "Z"}});
}

void write_point(Html& html, const Curve& curve, const Plot& plot, const std::string& letter) {
    const auto& [x, y] = curve.points.front();
    if (!plot.x.takes(x) || !plot.y.takes(y)) return;
    html.empty("circle", {{"class", "point"},
                          {"cx", fmt::format("{:.1f}", plot.x.at(x))},
                          {"cy", fmt::format("{:.1f}", plot.y.at(y))},
                          {"r", "4"}});
    svg_badge(html, plot.x.at(x) + (plot.x.at(x) > (left + right) / 2 ? -16 : 16), plot.y.at(y), letter);
}

std::string letter_of(std::size_t nth) { return std::string(1, static_cast<char>('A' + nth % 26)); }

void write_curve(Html& html, const Curve& curve, const Plot& plot, std::size_t nth) {
    if (is_point(curve)) return write_point(html, curve, plot, letter_of(nth));
    std::string path;
    for (const auto& [x, y] : curve.points)
        if (plot.x.takes(x) && plot.y.takes(y))
            path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", plot.x.at(x), plot.y.at(y));
    if (path.empty()) return;
    html.empty("path", {{"class", fmt::format("curve c{}", nth % 4)}, {"d", path}});
    const auto& [x, y] =
        curve.points[(nth % 6 + 1) * curve.points.size() / 8];  // its letter, each curve's at another place
    if (plot.x.takes(x) && plot.y.takes(y)) svg_badge(html, plot.x.at(x), plot.y.at(y), letter_of(nth));
}

// "measured: 24.1 ohm at 62 °C" of a point; of a curve its name.
std::string curve_words(const Series& series, std::size_t nth) {
    const auto& curve = series.curves[nth];
    if (!is_point(curve)) return curve.name;
    const auto& [x, y] = curve.points.front();
    return fmt::format("{}: {} at {}", curve.name, with_unit(y, series.y_unit), with_unit(x, series.x_unit));
}

void write_key(Html& html, const Series& series) {
    const auto key = html.in("ul", {{"class", "key"}});
    for (std::size_t i = 0; i < series.curves.size(); ++i) {
        const auto item = html.in("li");
        {
            const auto svg = html.in(
                "svg",
                {{"class", "sample"}, {"viewBox", "0 0 48 16"}, {"aria-hidden", "true"}, {"focusable", "false"}});
            if (is_point(series.curves[i]))
                html.empty("circle", {{"class", "point"}, {"cx", "24"}, {"cy", "8"}, {"r", "4"}});
            else html.empty("path", {{"class", fmt::format("curve c{}", i % 4)}, {"d", "M0 8H48"}});
        }
        html.text(fmt::format("{}: {}", letter_of(i), curve_words(series, i)));
    }
    for (std::size_t i = 0; i < series.marks.size(); ++i)
        html.element("li", fmt::format("{}: at {}: {}", i + 1, with_unit(series.marks[i].first, series.x_unit),
                                       series.marks[i].second));
}

void write_numbers(Html& html, const Series& series) {
    const auto details = html.in("details");
    html.element("summary", fmt::format("{} in numbers", series.title));
    const auto table = html.in("table");
    html.element("caption", svg_with_unit(series.y_label, series.y_unit));
    {
        const auto head = html.in("thead");
        const auto row = html.in("tr");
        html.element("th", svg_with_unit(series.x_label, series.x_unit), {{"scope", "col"}});
        for (const auto& curve : series.curves)
            if (!is_point(curve)) html.element("th", curve.name, {{"scope", "col"}});
    }
    const auto body = html.in("tbody");
    const auto& points = series.curves.front().points;
    constexpr std::size_t most = 25;
    const std::size_t step = std::max<std::size_t>(1, (points.size() + most - 1) / most);
    for (std::size_t i = 0; i < points.size(); i += step) {
        const auto row = html.in("tr");
        html.element("th", svg_number(points[i].first), {{"scope", "row"}});
        for (const auto& curve : series.curves)
            if (!is_point(curve))
                html.element("td", i < curve.points.size() ? svg_number(curve.points[i].second) : "-");
    }
}

}  // namespace

void write_series(Html& html, const Series& series) {
    if (series.curves.empty()) return;
    const auto figure = html.in("figure");
    html.element("figcaption",
                 fmt::format("{}: {} against {}", series.title, svg_with_unit(series.y_label, series.y_unit),
                             svg_with_unit(series.x_label, series.x_unit)));
    const auto plot = plot_of(series);
    {
        const auto svg = html.in(
            "svg", {{"class", "chart"},
                    {"viewBox", "0 0 300 232"},
                    {"role", "img"},
                    {"aria-label", fmt::format("{}. The numbers are in the table below.", series.title)}});
        write_axes(html, series, plot);
        write_band(html, series, plot);
        for (std::size_t i = 0; i < series.marks.size(); ++i) {
            if (!plot.x.takes(series.marks[i].first)) continue;
            svg_line(html, plot.x.at(series.marks[i].first), top, plot.x.at(series.marks[i].first), bottom, "at");
            svg_badge(html, plot.x.at(series.marks[i].first), top + 8 + 16 * static_cast<double>(i % 3),
                      std::to_string(i + 1));
        }
        for (std::size_t i = 0; i < series.curves.size(); ++i) write_curve(html, series.curves[i], plot, i);
    }
    write_key(html, series);
    write_numbers(html, series);
}

}  // namespace casebound
