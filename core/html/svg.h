// Pictures as SVG, made from what an answer declares, each with a text equivalent beside it. Nothing is told by
// colour alone: curves differ by their dashes and carry numbers, what matters is thicker and named in the key.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"
#include "core/html/html.h"

namespace casebound {

// Curves, a key, and the numbers as a table. A curve of one point is a point, such as what was measured; then the first
// two curves, where they share their places, are its limits, and what lies between them is filled.
void write_series(Html& html, const Series& series);
void write_picture(Html& html, const Picture& picture);  // numbered shapes, a key, and the text equivalent

// One bar a row, from the lowest of 0 and the values.
struct Bar {
    std::string label, shown;
    double value{};
    bool marked{};
};
void write_bars(Html& html, const std::string& title, const std::vector<Bar>& bars);

// A decision: branches that end in amounts. Drawn from left to right; the text equivalent is the nested list.
struct Branch {
    std::string label;   // what is done, or what turns out
    std::string amount;  // at a leaf; else empty
    bool chance{};       // its branches turn out by themselves; false: they are chosen
    bool best{};         // the branch that is recommended
    std::vector<Branch> branches{};
};
void write_tree(Html& html, const std::string& title, const Branch& root);

}  // namespace casebound
