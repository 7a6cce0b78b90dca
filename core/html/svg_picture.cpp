// A picture of shapes in mm: drawn to scale, its labels numbered, so that it reads at 320 pixels too.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/html/svg.h"
#include "core/html/svg_text.h"

namespace casebound {

namespace {

// The drawing in the middle, its numbers in a column on either side.
constexpr double full_width = 300, side = 34, margin = 10, tallest = 340, flattest = 1.1, between = 18;

struct Frame {
    double left{}, top{}, across = 1, down = 1, height = 40;  // px per mm
    double x(double mm) const { return side + (mm - left) * across; }
    double y(double mm) const { return margin + (mm - top) * down; }
};

Frame frame_of(const Picture& picture) {
    double x_low = 0, x_high = 1, y_low = 0, y_high = 1;
    for (std::size_t i = 0; i < picture.shapes.size(); ++i) {
        const auto& shape = picture.shapes[i];
        const double x1 = std::min(shape.x, shape.x + shape.width), x2 = std::max(shape.x, shape.x + shape.width);
        const double y1 = std::min(shape.y, shape.y + shape.height), y2 = std::max(shape.y, shape.y + shape.height);
        x_low = i == 0 ? x1 : std::min(x_low, x1), x_high = i == 0 ? x2 : std::max(x_high, x2);
        y_low = i == 0 ? y1 : std::min(y_low, y1), y_high = i == 0 ? y2 : std::max(y_high, y2);
    }
    const double wide = std::max(1e-6, x_high - x_low), high = std::max(1e-6, y_high - y_low);
    Frame frame{x_low, y_low, std::min((full_width - 2 * side) / wide, (tallest - 2 * margin) / high)};
    frame.down = frame.across;
    if (wide / high > flattest)
        frame.down *= std::min(
            3.0, std::floor(wide / high / flattest * 2 + 0.5) / 2);  // a flat thing is drawn higher, and says so
    frame.height = std::max(high * frame.down, between * static_cast<double>(picture.shapes.size()) / 2) + 2 * margin;
    return frame;
}

void write_shape(Html& html, const Shape& shape, const Frame& frame) {
    const std::string kind = shape.emphasis ? "shape loud" : "shape";
    if (shape.kind == Shape::Kind::line)
        svg_line(html, frame.x(shape.x), frame.y(shape.y), frame.x(shape.x + shape.width),
                 frame.y(shape.y + shape.height), kind);
    if (shape.kind == Shape::Kind::box)
        html.empty("rect", {{"class", kind},
                            {"x", svg_tenth(frame.x(std::min(shape.x, shape.x + shape.width)))},
                            {"y", svg_tenth(frame.y(std::min(shape.y, shape.y + shape.height)))},
                            {"width", svg_tenth(std::abs(shape.width) * frame.across)},
                            {"height", svg_tenth(std::abs(shape.height) * frame.down)}});
}

struct Callout {
    std::size_t number;
    double x, y, at_y;
};  // of the shape, and where its number stands

// Spread along one side so that no two touch.
void spread_out(std::vector<Callout>& callouts, double height) {
    std::sort(callouts.begin(), callouts.end(), [](const Callout& a, const Callout& b) { return a.y < b.y; });
    double least = margin;
    for (auto& one : callouts) least = (one.at_y = std::max(one.y, least)) + between;
    double most = height - margin;
    for (auto one = callouts.rbegin(); one != callouts.rend(); ++one)
        most = (one->at_y = std::min(one->at_y, most)) - between;
}

void write_callouts(Html& html, const std::vector<const Shape*>& labelled, const Frame& frame) {
    std::vector<Callout> left, right;
    for (std::size_t i = 0; i < labelled.size(); ++i) {
        const auto& shape = *labelled[i];
        const double x = frame.x(shape.x + shape.width / 2), y = frame.y(shape.y + shape.height / 2);
        const bool to_left = x < full_width / 2 - 1 ? left.size() < right.size() + 3 : left.size() + 3 < right.size();
        (to_left ? left : right).push_back({i + 1, x, y, y});
    }
    for (auto* column : {&left, &right}) {
        const double at = column == &left ? 12 : full_width - 12;
        spread_out(*column, frame.height);
        for (const auto& one : *column) svg_line(html, at, one.at_y, one.x, one.y, "leader");
        for (const auto& one : *column) svg_badge(html, at, one.at_y, std::to_string(one.number));
    }
}

}  // namespace

void write_picture(Html& html, const Picture& picture) {
    const auto figure = html.in("figure");
    html.element("figcaption", picture.title);
    const auto frame = frame_of(picture);
    std::vector<const Shape*> labelled;
    for (const auto& shape : picture.shapes)
        if (!shape.label.empty()) labelled.push_back(&shape);
    {
        const auto svg = html.in("svg", {{"class", "chart"},
                                         {"viewBox", fmt::format("0 0 {} {:.0f}", full_width, frame.height)},
                                         {"role", "img"},
                                         {"aria-label", picture.text_equivalent}});
        for (const auto& shape : picture.shapes) write_shape(html, shape, frame);
        write_callouts(html, labelled, frame);
    }
    if (frame.down > frame.across)
        html.element("p", fmt::format("Heights are drawn {:.3g} times as large as widths.", frame.down / frame.across),
                     {{"class", "hint"}});
    {
        const auto key = html.in("ol", {{"class", "key"}});
        for (const auto* shape : labelled)
            html.element("li", shape->label, shape->emphasis ? HtmlAttributes{{"class", "loud"}} : HtmlAttributes{});
    }
    html.element("p", picture.text_equivalent);
}

}  // namespace casebound
