// The strokes that the pictures share. Every word goes through Html and is escaped there.
#pragma once

#include <string>
#include <string_view>

#include "core/html/html.h"

namespace casebound {

std::string svg_number(double value);  // short, for an axis
std::string svg_tenth(double px);      // a place in the drawing
std::string svg_with_unit(const std::string& label, const std::string& unit);
void svg_line(Html& html, double x1, double y1, double x2, double y2, std::string_view line_class);
void svg_text(Html& html, double x, double y, std::string_view anchor, std::string_view text,
              std::string_view text_class = {});
void svg_badge(Html& html, double x, double y, const std::string& text);  // a number in a ring, named in the key

}  // namespace casebound
