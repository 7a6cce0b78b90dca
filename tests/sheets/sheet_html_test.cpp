// What a browser is given to print. (Printed and read back: tests/page_outside/.)
#include <catch2/catch.hpp>

#include "core/html/html.h"
#include "core/sheets/sheet_html.h"

using namespace casebound;

namespace {

PrintSheet sheet_with(const std::string& text) {
    PrintSheet sheet{"history", {text, text, text, true}, text, {}};
    sheet.tables.push_back({text, text, {text, "left free"}, {{text, ""}}, text, "done", 1});
    sheet.tables.push_back({text, {}, {text}, {}, text});
    return sheet;
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
    return found;
}

}  // namespace

TEST_CASE("markup in any text of a sheet stays text") {
    const auto html = sheet_html(sheet_with("</style></td><script>alert('x')</script>\" onload=\"x"), Paper::a4);
    CHECK(html.find("<script") == std::string::npos);
    CHECK(html.find("\" onload") == std::string::npos);
    CHECK(count(html, "</style>") == 1);
    CHECK(count(html, "&lt;script&gt;") >= 9);
}

TEST_CASE("the style comes through the escaping writer unchanged") {
    CHECK(html_escaped(sheet_css) == sheet_css);
    CHECK(sheet_html(sheet_with("x"), Paper::a4).find(sheet_css) != std::string::npos);
}

TEST_CASE("a served sheet links its style and holds none") {
    const auto html = sheet_html(sheet_with("x"), Paper::letter, "/sheet.css");
    CHECK(html.find("<style") == std::string::npos);
    CHECK(html.find("style=") == std::string::npos);
    CHECK(count(html, "href=\"/sheet.css\"") == 1);
    CHECK(count(html, "class=\"letter\"") == 1);
    CHECK(count(html, "href=\"/vehicle/x\"") == 1);
}

TEST_CASE("a table without rows says so, boxes and room for the pen stand where they are asked for") {
    const auto html = sheet_html(sheet_with("x"), Paper::a4);
    CHECK(count(html, "<table>") == 1);
    CHECK(count(html, "<span class=\"box\">") == 1);
    CHECK(count(html, "<th scope=\"col\" class=\"room\">left free</th>") == 1);
    CHECK(html.find("<h2>x</h2><p>x</p>") != std::string::npos);
}
