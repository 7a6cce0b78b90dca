// Bars and the decision tree.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/html/svg.h"
#include "core/html/svg_text.h"

namespace casebound {

namespace {

constexpr double width = 300;

std::string bars_in_words(const std::string& title, const std::vector<Bar>& bars) {
    std::vector<std::string> parts;
    for (const auto& bar : bars) parts.push_back(fmt::format("{} {}", bar.label, bar.shown));
    return fmt::format("{}: {}", title, fmt::join(parts, "; "));
}

std::size_t leaves_of(const Branch& branch) {
    std::size_t leaves = 0;
    for (const auto& one : branch.branches) leaves += leaves_of(one);
    return std::max<std::size_t>(1, leaves);
}

std::size_t depth_of(const Branch& branch) {
    std::size_t deepest = 0;
    for (const auto& one : branch.branches) deepest = std::max(deepest, depth_of(one) + 1);
    return deepest;
}

// A tree while it is drawn: leaves stand one under another, a knot in the middle of its leaves.
class Drawing {
public:
    Drawing(Html& html, const Branch& root)
        : html_(html), step_((width - 88) / static_cast<double>(std::max<std::size_t>(1, depth_of(root)))) {}

    void draw(const Branch& branch, double x, double y_top) {
        const double y = middle(branch, y_top);
        double below = y_top;
        for (const auto& one : branch.branches) {
            const double to = middle(one, below);
            html_.empty("path",
                        {{"class", one.best ? "branch best" : "branch"},
                         {"d", fmt::format("M{:.1f} {:.1f}L{:.1f} {:.1f}H{:.1f}", x, y, x + 14, to, x + step_)}});
            label(one, x + 18, to);
            draw(one, x + step_, below);
            below += row * static_cast<double>(leaves_of(one));
        }
        knot(branch, x, y);
    }

    static constexpr double row = 46;

private:
    // Over the line, and what is too long for it below.
    void label(const Branch& branch, double x, double y) {
        const auto most = static_cast<std::size_t>((step_ - 20) / 6);
        auto cut = branch.label.size() <= most ? branch.label.size() : branch.label.rfind(' ', most);
        if (cut == std::string::npos) cut = branch.label.size();
        svg_text(html_, x, y - 5, "start", branch.label.substr(0, cut), branch.best ? "best" : "");
        if (cut < branch.label.size())
            svg_text(html_, x, y + 14, "start", branch.label.substr(cut + 1), branch.best ? "best" : "");
    }

    static double middle(const Branch& branch, double y_top) {
        return y_top + row * static_cast<double>(leaves_of(branch)) / 2;
    }

    void knot(const Branch& branch, double x, double y) {
        if (branch.branches.empty())
            return svg_text(html_, x + 6, y + 4, "start", branch.amount, branch.best ? "best" : "");
        if (branch.chance)
            html_.empty("circle", {{"class", "knot"}, {"cx", svg_tenth(x)}, {"cy", svg_tenth(y)}, {"r", "6"}});
        else
            html_.empty("rect", {{"class", "knot"},
                                 {"x", svg_tenth(x - 6)},
                                 {"y", svg_tenth(y - 6)},
                                 {"width", "12"},
                                 {"height", "12"}});
    }

    Html& html_;
    double step_;
};

void write_branches(Html& html, const Branch& branch) {
    const auto list = html.in("ul");
    for (const auto& one : branch.branches) {
        const auto item = html.in("li", one.best ? HtmlAttributes{{"class", "best"}} : HtmlAttributes{});
        html.text(fmt::format("{}{}{}", one.label, one.amount.empty() ? "" : ": " + one.amount,
                              one.best ? " (recommended)" : ""));
        if (!one.branches.empty()) write_branches(html, one);
    }
}

}  // namespace

void write_bars(Html& html, const std::string& title, const std::vector<Bar>& bars) {
    if (bars.empty()) return;
    double low = 0, high = 0;
    for (const auto& bar : bars) low = std::min(low, bar.value), high = std::max(high, bar.value);
    const double span = high - low > 0 ? high - low : 1, row = 44;
    const auto x = [&](double value) { return 8 + (value - low) / span * (width - 16); };
    const auto figure = html.in("figure");
    html.element("figcaption", title);
    const auto svg = html.in("svg",
                             {{"class", "chart"},
                              {"viewBox", fmt::format("0 0 {} {}", width, row * static_cast<double>(bars.size()) + 8)},
                              {"role", "img"},
                              {"aria-label", bars_in_words(title, bars)}});
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const double y = row * static_cast<double>(i);
        svg_text(html, 8, y + 16, "start", fmt::format("{}: {}", bars[i].label, bars[i].shown),
                 bars[i].marked ? "best" : "");
        html.empty(
            "rect",
            {{"class", bars[i].marked ? "bar best" : "bar"},
             {"x", svg_tenth(x(std::min(0.0, bars[i].value)))},
             {"y", svg_tenth(y + 22)},
             {"width", svg_tenth(std::max(1.0, x(std::max(0.0, bars[i].value)) - x(std::min(0.0, bars[i].value))))},
             {"height", "16"}});
    }
    if (low < 0) svg_line(html, x(0), 20, x(0), row * static_cast<double>(bars.size()), "axis");
}

void write_tree(Html& html, const std::string& title, const Branch& root) {
    const auto figure = html.in("figure");
    html.element("figcaption", title);
    {
        const auto height = Drawing::row * static_cast<double>(leaves_of(root)) + 12;
        const auto svg = html.in("svg", {{"class", "chart tree"},
                                         {"viewBox", fmt::format("0 0 {} {:.0f}", width, height)},
                                         {"role", "img"},
                                         {"aria-label", fmt::format("{}. The same as a list below.", title)}});
        Drawing(html, root).draw(root, 10, 6);
    }
    const bool any = std::any_of(root.branches.begin(), root.branches.end(),
                                 [](const Branch& one) { return one.best; });
    html.element(
        "p", std::string("Square: you choose. Circle: it turns out by itself.") + (any ? " Thick: recommended." : ""),
        {{"class", "hint"}});
    write_branches(html, root);
}

}  // namespace casebound
