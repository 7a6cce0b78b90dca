#include "core/page/page_frame.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_form.h"
#include "core/page/page_photos.h"
#include "core/say/in_words.h"
#include "core/say/report.h"

namespace casebound {

namespace {

struct MarkShape {
    std::string_view name, path;
    bool filled;
};

// 24 by 24. Each shape is told apart without colour and at arm's length.
constexpr MarkShape mark_shapes[]{
    {"yes", "M12 1a11 11 0 1 0 0 22a11 11 0 1 0 0-22zM10.4 17.6L5 12.2l2-2l3.4 3.4l6.7-6.7l2 2z",
     true},                                                              // disc with a tick
    {"none", "M12 2a10 10 0 1 0 0 20a10 10 0 1 0 0-20M6 12h12", false},  // ring with a dash
    {"check", "M12 2L23 22H1zM12 9v6M12 17.5v2", false},                 // open triangle with a stroke
    {"split", "M3 3h8v18h-8zM16 3l5 0v18h-8z", false},                   // two halves that do not meet
    {"open", "M3 7V3h4M17 3h4v4M21 17v4h-4M7 21H3v-4", false},           // an empty frame
    {"no", "M1 1h22v22H1zM6 8.5L9.5 12L6 15.5L8.5 18L12 14.5L15.5 18L18 15.5L14.5 12L18 8.5L15.5 6L12 9.5L8.5 6z",
     true},                                                                                       // square with a cross
    {"look", "M1 12q11-13 22 0q-11 13-22 0zM12 8.5a3.5 3.5 0 1 0 0 7a3.5 3.5 0 1 0 0-7", false},  // an eye
    {"off", "M12 2L22 12L12 22L2 12z", false},                                                    // open lozenge
};

std::string_view shape_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::fits: return "yes";
        case Verdict::none_needed: return "none";
        case Verdict::check_first: return "check";
        case Verdict::sources_disagree: return "split";
        case Verdict::not_recorded: return "open";
        case Verdict::does_not_fit: return "no";
        case Verdict::not_answered: return "off";
    }
    return "off";
}

std::string_view shape_of(SwapVerdict verdict) {
    switch (verdict) {
        case SwapVerdict::yes: return "yes";
        case SwapVerdict::yes_if:
        case SwapVerdict::differs:
        case SwapVerdict::claimed_only: return "check";
        case SwapVerdict::no: return "no";
        case SwapVerdict::disagree: return "split";
        case SwapVerdict::not_recorded: return "open";
        case SwapVerdict::not_answered: return "off";
    }
    return "off";
}

void write_words(Html& html, std::string_view shape, std::string_view words) {  // the shape says it again
    const auto scope = html.in("strong", {{"class", fmt::format("verdict is-{}", shape)}});
    write_mark(html, shape);
    html.element("span", words);
}

std::string refused_words(const Visit& visit) { return visit.request.post ? "Not done" : "Not answered"; }

void write_head(Html& html, const Page& page, const Visit& visit) {
    const auto head = html.in("head");
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    html.element("title", fmt::format("{}{} - casebound",
                                      visit.refused ? fmt::format("{}: ", refused_words(visit)) : "", page.title));
    html.empty("link", {{"rel", "stylesheet"}, {"href", "/style.css"}});
    html.empty("link", {{"rel", "icon"}, {"href", "/icon.svg"}, {"type", "image/svg+xml"}});
}

// On every page, behind one touch; where the width allows, in sight.
void write_search(Html& html, const Visit& visit) {
    const auto details = html.in("details", {{"class", "search"}});
    html.element("summary", "Find");
    const auto form = html.in("form", {{"role", "search"}, {"method", "get"}, {"action", "/catalog/find"}});
    html.element("label", "Part number or words", {{"for", "search-words"}});
    html.empty("input", {{"id", "search-words"},
                         {"name", "key"},
                         {"type", "text"},
                         {"value", visit.request.path == "/catalog/find" ? visit.asked("key") : ""},
                         {"autocomplete", "off"}});
    html.element("button", "Find", {{"type", "submit"}});
}

void write_top(Html& html, const Page& page, const Visit& visit) {
    const auto header = html.in("header", {{"class", "top"}});
    html.link("/", "casebound", {{"class", "name"}});
    if (!page.trail.empty()) {
        const auto nav = html.in("nav", {{"aria-label", "Where this stands"}, {"class", "trail"}});
        for (const auto& [to, words] : page.trail) html.link(to, words);
    }
    html.link("#pages", "Pages", {{"class", "to-pages"}});
    write_search(html, visit);
}

void write_navigation(Html& html, const Visit& visit, const std::vector<NavigationEntry>& navigation) {
    const auto nav = html.in("nav", {{"id", "pages"}, {"class", "pages"}, {"aria-label", "Pages"}});
    const auto list = html.in("ul");
    for (const auto& [path, title] : navigation) {
        const auto item = html.in("li");
        const bool here = visit.request.path == path;
        html.link(path, title, here ? HtmlAttributes{{"aria-current", "page"}} : HtmlAttributes{});
    }
}

// The form itself may stand far below; each fault is said once, beside its field where the form is on the page.
void write_refused(Html& html, const Visit& visit) {
    if (!visit.refused) return;
    const auto box = html.in("div", {{"class", "refused"}, {"role", "alert"}});
    if (!visit.refused->shown) {
        html.element("p", fmt::format("{}:", refused_words(visit)));
        return write_list(html, visit.refused->faults);
    }
    html.element("p", refused_words(visit) + ".");
    html.link("#" + form_id(visit.refused->form, "-form"), "To the form");
}

}  // namespace

std::string framed(Page&& page, const Visit& visit, const std::vector<NavigationEntry>& navigation) {
    Html html;
    html.open("html", {{"lang", "en"}});
    write_head(html, page, visit);
    html.open("body");
    html.link("#main", "Skip to the answer", {{"class", "skip"}});
    write_top(html, page, visit);
    html.open("main", {{"id", "main"}, {"tabindex", "-1"}});
    if (page.invented) html.element("p", "invented demo data", {{"class", "invented"}});
    html.element("h1", page.title);
    if (!page.under.empty()) html.element("p", page.under, {{"class", "under"}});
    write_refused(html, visit);
    html.append(std::move(page.main));
    html.close();
    write_navigation(html, visit, navigation);
    {
        const auto footer = html.in("footer");
        html.element("p", closing_caution);
        html.element("p", "Parts lists are help, not permission. What nobody has said is shown as not recorded.");
    }
    return "<!DOCTYPE html>\n" + html.take() + "\n";
}

std::string page_icon() {
    Html html;
    html.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"}, {"viewBox", "0 0 24 24"}});
    html.empty("path", {{"d", "M2 1h20v22H2z"}, {"fill", "#10312b"}});
    html.empty("path", {{"d", "M7 1v22M11 8h8M11 13h8"}, {"stroke", "#f7f3e8"}, {"stroke-width", "2"}});
    return html.take();
}

void write_mark(Html& html, std::string_view shape) {
    const auto* found = std::find_if(std::begin(mark_shapes), std::end(mark_shapes),
                                     [&](const MarkShape& one) { return one.name == shape; });
    if (found == std::end(mark_shapes)) return;
    const auto svg = html.in("svg", {{"class", found->filled ? "mark filled" : "mark"},
                                     {"viewBox", "0 0 24 24"},
                                     {"aria-hidden", "true"},
                                     {"focusable", "false"}});
    html.empty("path", {{"d", std::string(found->path)}});
}

void write_verdict(Html& html, Verdict verdict, std::string_view words) {
    write_words(html, shape_of(verdict), words.empty() ? verdict_words(verdict) : words);
}
void write_look_first(Html& html) { write_words(html, "look", "look first"); }
void write_swap_verdict(Html& html, SwapVerdict verdict) { write_words(html, shape_of(verdict), swap_words(verdict)); }

void write_source(Html& html, const Origin& origin) {
    if (origin.pack.empty()) return html.element("cite", source_text(origin));
    html.link(address("/catalog/sources", {{"pack", origin.pack}}), source_text(origin),
              {{"class", "source"}, {"title", origin.source}});
}

void write_source(Html& html, const SourceNote& source) { html.element("cite", note_text(source)); }

void write_leaves(Html& html, const std::vector<Leaf>& leaves, const Situation* situation, std::string_view title,
                  std::size_t most) {
    if (leaves.empty()) return;
    std::vector<std::pair<std::string, const Leaf*>> shown;
    for (const auto& leaf : leaves) shown.emplace_back(situation ? leaf_words(leaf, *situation) : leaf.text(), &leaf);
    std::stable_sort(shown.begin(), shown.end(),
                     [](const auto& a, const auto& b) { return a.first.size() < b.first.size(); });
    if (!title.empty()) html.element("p", title, {{"class", "leaves-title"}});
    const auto list = html.in("ul", {{"class", "leaves"}});
    for (std::size_t i = 0; i < shown.size() && i < most; ++i) {
        const auto& [text, leaf] = shown[i];
        const auto item = html.in("li");
        html.text(leaf->told ? "told: " + text : text);
        if (leaf->redundant) html.text(" (the answer stands without it)");
        if (!leaf->told) {
            html.text(" ");
            write_source(html, leaf->origin());
        }
        write_photos(html, situation ? situation->photos_of(*leaf) : leaf->photos, text);
    }
    if (shown.size() > most) html.element("li", fmt::format("and {}", plural(shown.size() - most, "more statement")));
}

void write_list(Html& html, const std::vector<std::string>& texts, std::string_view list_class) {
    if (texts.empty()) return;
    const auto list = html.in(
        "ul", list_class.empty() ? HtmlAttributes{} : HtmlAttributes{{"class", std::string(list_class)}});
    for (const auto& text : texts) html.element("li", text);
}

bool of_the_demo(Session& session, const Origin& origin) {
    const auto& packs = session.catalog().packs();
    return std::any_of(packs.begin(), packs.end(),
                       [&](const auto& one) { return one.second.name == origin.pack && one.second.invented; });
}

HtmlTable::HtmlTable(Html& html, std::vector<std::string> columns, const std::string& caption, bool caption_shown)
    : html_(html), columns_(std::move(columns)) {
    html_.open("table", {{"class", "cards"}});
    html_.element("caption", caption, caption_shown ? HtmlAttributes{} : HtmlAttributes{{"class", "only-read"}});
    {
        const auto head = html_.in("thead");
        const auto row = html_.in("tr");
        for (const auto& column : columns_) html_.element("th", column, {{"scope", "col"}});
    }
    html_.open("tbody");
}

HtmlTable::~HtmlTable() {
    html_.close();
    html_.close();
}

void HtmlTable::begin_row(bool marked) {
    column_ = 0;
    html_.open("tr", marked ? HtmlAttributes{{"class", "marked"}} : HtmlAttributes{});
}

Html::Scope HtmlTable::open_cell() {
    const auto column = column_++;
    if (column == 0) return html_.in("th", {{"scope", "row"}});
    return html_.in("td", {{"data-column", column < columns_.size() ? columns_[column] : ""}});
}

void HtmlTable::cell(std::string_view text) {
    const auto scope = open_cell();
    html_.text(text);
}

void HtmlTable::row(const std::vector<std::string>& cells, bool marked) {
    begin_row(marked);
    for (const auto& text : cells) cell(text);
    end_row();
}

}  // namespace casebound
