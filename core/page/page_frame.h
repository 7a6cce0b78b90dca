// What stands round every page: head, skip link, navigation, labels and cautions; and the small pieces that pages
// share: verdicts in words and shapes, sources. The style is served apart, nothing is fetched from elsewhere.
#pragma once

#include "core/page/page_visit.h"
#include "core/verdict/fits.h"
#include "core/verdict/interchange.h"

namespace casebound {

struct NavigationEntry {
    std::string path, title;
};

// The whole document.
std::string framed(Page&& page, const Visit& visit, const std::vector<NavigationEntry>& navigation);

extern const char* const page_css;  // core/page/page.css, embedded
std::string page_icon();            // SVG

// A shape and the words: never told by colour.
void write_verdict(Html& html, Verdict verdict, std::string_view words = {});
void write_look_first(Html& html);  // what the job disturbs, or only looks at
void write_swap_verdict(Html& html, SwapVerdict verdict);
void write_mark(Html& html,
                std::string_view
                    shape);  // "yes", "no", "check", "split", "open", "none", "look", "off"; hidden from screen readers

void write_source(Html& html, const Origin& origin);  // "demo-fleet, applications.csv:41 (invented)", the pack linked
void write_source(Html& html, const SourceNote& source);
// Shortest first; in words of the vehicle, where there is one.
void write_leaves(Html& html, const std::vector<Leaf>& leaves, const Situation* situation, std::string_view title = {},
                  std::size_t most = 40);
void write_list(Html& html, const std::vector<std::string>& texts,
                std::string_view list_class = {});  // nothing when empty

bool of_the_demo(Session& session, const Origin& origin);  // its pack is labelled invented

// A table whose rows read as cards on a narrow screen: each cell carries its column's name.
class HtmlTable {
public:
    HtmlTable(Html& html, std::vector<std::string> columns, const std::string& caption, bool caption_shown = true);
    ~HtmlTable();
    HtmlTable(const HtmlTable&) = delete;
    HtmlTable& operator=(const HtmlTable&) = delete;
    void row(const std::vector<std::string>& cells, bool marked = false);
    void begin_row(bool marked = false);
    void cell(std::string_view text);       // the first of a row is its heading
    [[nodiscard]] Html::Scope open_cell();  // for more than text
    void end_row() {
        html_.close();
        column_ = 0;
    }

private:
    Html& html_;
    std::vector<std::string> columns_;
    std::size_t column_ = 0;
};

}  // namespace casebound
