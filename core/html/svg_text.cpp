#include "core/html/svg_text.h"

#include <cmath>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

std::string at(double value) { return fmt::format("{:.1f}", value); }

}  // namespace

std::string svg_tenth(double px) { return fmt::format("{:.1f}", px); }

std::string svg_number(double value) {
    if (std::abs(value) >= 1e6 || (value != 0 && std::abs(value) < 1e-3)) return fmt::format("{:.1e}", value);
    return std::abs(value) >= 1000 ? plain_number(value, 0) : fmt::format("{:.3g}", value + 0.0);
}

std::string svg_with_unit(const std::string& label, const std::string& unit) {
    return unit.empty() ? label : fmt::format("{}, {}", label, unit_words(unit));
}

void svg_line(Html& html, double x1, double y1, double x2, double y2, std::string_view line_class) {
    html.empty("line",
               {{"class", std::string(line_class)}, {"x1", at(x1)}, {"y1", at(y1)}, {"x2", at(x2)}, {"y2", at(y2)}});
}

void svg_text(Html& html, double x, double y, std::string_view anchor, std::string_view text,
              std::string_view text_class) {
    HtmlAttributes attributes{{"x", at(x)}, {"y", at(y)}, {"text-anchor", std::string(anchor)}};
    if (!text_class.empty()) attributes.emplace_back("class", std::string(text_class));
    html.element("text", text, attributes);
}

void svg_badge(Html& html, double x, double y, const std::string& text) {
    html.empty("circle", {{"class", "badge"}, {"cx", at(x)}, {"cy", at(y)}, {"r", "8"}});
    svg_text(html, x, y + 4, "middle", text, "badge-text");
}

}  // namespace casebound
