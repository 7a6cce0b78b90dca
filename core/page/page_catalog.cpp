// The catalog with its sources: lines, groups, items, what is said of each, packs, and what is doubtful. Long lists are
// read in stretches, so that a page costs the same whatever the catalog holds.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/page/page_form.h"
#include "core/page/page_frame.h"
#include "core/page/page_routes.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/report.h"
#include "core/verdict/audit.h"
#include "core/work/find_uses.h"

namespace casebound {

namespace {

constexpr std::size_t rows_a_page = 80;

std::size_t number_asked(const Visit& visit, std::string_view name) {
    const auto text = visit.asked(name);
    std::size_t number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

// Links to go on in a list whose length is not counted: there is more when one row more was found.
void write_onward(Html& html, const Visit& visit, std::size_t from, bool more) {
    if (from == 0 && !more) return;
    const auto nav = html.in("nav", {{"class", "stretch"}, {"aria-label", "More of this list"}});
    const auto at = [&](std::size_t place) {
        Fields query;
        for (const auto& field : visit.request.query)
            if (field.first != "from") query.push_back(field);
        query.emplace_back("from", std::to_string(place));
        return address(visit.request.path, query);
    };
    if (from > 0) html.link(at(from > rows_a_page ? from - rows_a_page : 0), "Before");
    if (more) html.link(at(from + rows_a_page), "Next");
}

// A group of parts goes by its title alone: its key says nothing to the reader.
std::string found_words(const Catalog& catalog, const Found& found) {
    if (found.kind == FoundKind::item) return fmt::format("{}: {}", found.key, found.title);
    const auto number = found.kind == FoundKind::group ? group_words(catalog, found.key) : std::string();
    return number.empty() || number == found.title ? found.title : fmt::format("{}: {}", number, found.title);
}

std::string item_address(std::string_view key) { return address("/catalog/item", {{"key", std::string(key)}}); }
std::string group_address(std::string_view key) { return address("/catalog/group", {{"key", std::string(key)}}); }

Form find_form() {
    return {"find",
            "",
            "Find",
            {{"key", "Find", Field::Kind::words, "", "Part of a number, a title, a word: filter 41", "", {}, true}},
            {},
            {},
            "/catalog/find"};
}

void show_catalog(Visit& visit, Page& page) {
    auto& catalog = visit.session.catalog();
    page.title = "Catalog";
    page.trail = {};
    auto& html = page.main;
    write_form(html, visit, find_form());
    {
        const auto list = html.in("ul", {{"class", "links"}});
        for (const auto& [to, words] : std::initializer_list<std::pair<const char*, const char*>>{
                 {"/catalog/tables", "Table book: sizes, classes, grades, codes"},
                 {"/catalog/sources", "Sources and packs"},
                 {"/catalog/audit", "What is doubtful"}}) {
            const auto item = html.in("li");
            html.link(to, words);
        }
    }
    html.element("h2", "Vehicle lines");
    const auto from = number_asked(visit, "from");
    Statement rows(catalog.database(), "SELECT line, title, note, origin FROM lines ORDER BY title LIMIT ?1 OFFSET ?2");
    rows.bind(1, static_cast<std::int64_t>(rows_a_page + 1)).bind(2, static_cast<std::int64_t>(from));
    std::size_t shown = 0;
    {
        const auto list = html.in("ul", {{"class", "links"}});
        while (rows.step()) {
            if (++shown > rows_a_page) break;
            page.invented |= catalog.invented(rows.integer(3));
            const auto item = html.in("li");
            html.link(address("/catalog/line", {{"key", rows.str(0)}}),
                      fmt::format("{}{}{}", rows.text(1), rows.text(2).empty() ? "" : ": ", rows.text(2)));
        }
    }
    write_onward(html, visit, from, shown > rows_a_page);
}

std::string address_of(const Found& one) {
    switch (one.kind) {
        case FoundKind::item: return item_address(one.key);
        case FoundKind::group: return group_address(one.key);
        case FoundKind::line: return address("/catalog/line", {{"key", one.key}});
        default: return {};
    }
}

// Best first, each with where it is used on the yard; or the near misses.
void show_found(Visit& visit, Page& page) {
    page.title = "Find";
    page.trail = {{"/catalog", "Catalog"}};
    constexpr std::size_t most = 40;
    const auto typed = visit.asked("key");
    auto& html = page.main;
    write_form(html, visit, find_form());
    const auto answer = found_in(visit.session, typed, most);
    const auto uses = uses_of(visit.session, answer.found);
    const auto topics = topics_of(visit.session, typed);
    if (answer.found.empty() && topics.empty() && !typed.empty()) {
        html.element("p", fmt::format("{}: in no loaded pack. Not recorded is not a no.", typed));
        const auto list = html.in("ul", {{"class", "links"}});
        for (const auto& near : answer.did_you_mean) {
            const auto one = html.in("li");
            html.link(address("/catalog/find", {{"key", near}}), "did you mean " + near);
        }
    }
    {
        const auto list = html.in("ul", {{"class", "told"}});
        for (std::size_t i = 0; i < answer.found.size(); ++i) {
            const auto& found = answer.found[i];
            const auto& catalog = visit.session.catalog();
            if (const auto item = catalog.item(found.key)) page.invented |= of_the_demo(visit.session, item->origin);
            if (const auto group = catalog.group(found.key)) page.invented |= of_the_demo(visit.session, group->origin);
            const auto one = html.in("li");
            const auto words = found_words(visit.session.catalog(), found);
            if (const auto to = address_of(found); to.empty()) html.element("strong", words);
            else html.link(to, words);
            html.element("span", found_kind_words(found.kind), {{"class", "hint"}});
            for (const auto& use : uses[i]) html.element("span", use);
        }
    }
    if (!topics.empty()) {
        const auto list = html.in("ul", {{"class", "told"}});
        for (const auto& topic : topics) {
            const auto one = html.in("li");
            if (topic.computed) html.link(fmt::format("/compute/{}/{}", topic.domain, topic.key), topic.title);
            else html.element("strong", topic.title);
            html.element("span", topic.computed ? "to work out" : "to tell, on the page of a vehicle",
                         {{"class", "hint"}});
        }
    }
    if (answer.more) html.element("p", "There are more: one more word narrows it.");
}

std::string_view says_words(Says says) {
    return says == Says::fits ? "fits" : says == Says::none_needed ? "none needed" : "does not fit";
}

void show_line(Visit& visit, Page& page) {
    const auto& catalog = visit.session.catalog();
    const auto key = visit.asked("key");
    const auto* line = catalog.line(key);
    if (!line)
        throw Error(Exit::no_input, fmt::format("{}: no such vehicle line{}", key, [&] {
                        const auto near = nearest(key, catalog.line_keys());
                        return near.empty() ? std::string() : fmt::format(": did you mean {}?", near);
                    }()));
    page.title = line->title;
    page.under = fmt::format("{}; {}", plural(line->set.size(), "configuration"), line->note);
    page.trail = {{"/catalog", "Catalog"}};
    auto& html = page.main;
    const auto& applications = catalog.applications(*line);
    const auto stretch = stretch_of(visit, applications.size(), rows_a_page);
    html.element("h2", plural(applications.size(), "application"));
    {
        HtmlTable table(html, {"role", "says", "group", "where", "note", "source"}, "What sources say", false);
        for (std::size_t i = stretch.from; i < stretch.to; ++i) {
            const auto& row = applications[i];
            page.invented |= catalog.invented(row.origin);
            table.begin_row();
            table.cell(catalog.name_of(row.role));
            table.cell(fmt::format("{}{}", says_words(row.says), row.withdrawn.empty() ? "" : " (withdrawn)"));
            {
                const auto cell = table.open_cell();
                if (row.group != 0)
                    html.link(group_address(catalog.name_of(row.group)), catalog.name_of(row.group),
                              {{"class", "source"}});
            }
            table.cell(row.condition != 0 ? condition_words(catalog.name_of(row.condition), line->set) : "everywhere");
            table.cell(row.withdrawn.empty() ? row.note : row.withdrawn);
            {
                const auto cell = table.open_cell();
                write_source(html, catalog.origin(row.origin, "applications", row.source));
            }
            table.end_row();
        }
    }
    write_stretch(html, visit, stretch, rows_a_page);
}

void write_statements(Html& html, Session& session, const std::string& key, const char* column, const char* other,
                      std::string_view title) {
    const auto rows = session.catalog().facts().rows("stand_ins", column, key);
    if (rows.empty()) return;
    html.element("h2", title);
    HtmlTable table(html, {"group", "statement", "where", "on condition", "source"}, std::string(title), false);
    for (std::size_t i = 0; i < rows.size() && i < rows_a_page; ++i) {
        table.begin_row();
        {
            const auto cell = table.open_cell();
            html.link(group_address(rows[i].text(other)), rows[i].text(other));
        }
        table.cell(spaced(rows[i].text("relation")) + (rows[i].text("withdrawn").empty() ? "" : " (withdrawn)"));
        table.cell(rows[i].text("condition"));
        table.cell(fmt::format("{}{}", rows[i].text("requirement"), rows[i].text("difference")));
        {
            const auto cell = table.open_cell();
            write_source(html, rows[i].origin);
        }
        table.end_row();
    }
}

void show_group(Visit& visit, Page& page) {
    const auto& catalog = visit.session.catalog();
    const auto key = visit.asked("key");
    const auto group = catalog.group(key);
    if (!group)
        throw Error(Exit::no_input, fmt::format("{}: no such group{}", key, [&] {
                        const auto near = catalog.near(key, "groups");
                        return near.empty() ? std::string() : fmt::format(": did you mean {}?", near.front());
                    }()));
    page.title = fmt::format("{}: {}", key, group->title);
    page.invented = of_the_demo(visit.session, group->origin);
    page.trail = {{"/catalog", "Catalog"}};
    auto& html = page.main;
    write_source(html, group->origin);
    html.element("h2", "Members");
    const auto& members = catalog.members(group->id);
    const auto stretch = stretch_of(visit, members.size(), rows_a_page);
    {
        HtmlTable table(html, {"item", "title", "basis", "source"}, "Members", false);
        for (std::size_t i = stretch.from; i < stretch.to; ++i) {
            const auto& member = members[i];
            table.begin_row();
            {
                const auto cell = table.open_cell();
                html.link(item_address(member.item), member.item);
            }
            table.cell(member.title);
            table.cell(!member.withdrawn.empty()         ? "withdrawn: " + member.withdrawn
                       : member.basis == Basis::claimed  ? "only its seller says so"
                       : member.basis == Basis::approved ? "approved"
                       : member.basis == Basis::meets    ? "its maker says that it meets it"
                                                         : "the same part");
            {
                const auto cell = table.open_cell();
                write_source(html, member.origin);
            }
            table.end_row();
        }
    }
    write_stretch(html, visit, stretch, rows_a_page);
    write_statements(html, visit.session, key, "wanted", "offered", "May stand in for it, or not");
    write_statements(html, visit.session, key, "offered", "wanted", "What it may stand in for, or not");
}

void show_item(Visit& visit, Page& page) {
    const auto& catalog = visit.session.catalog();
    const auto key = visit.asked("key");
    const auto item = catalog.item(key);
    if (!item)
        throw Error(Exit::no_input, fmt::format("{}: no such item{}", key, [&] {
                        const auto near = catalog.near(key, "items");
                        return near.empty() ? std::string() : fmt::format(": did you mean {}?", near.front());
                    }()));
    page.title = fmt::format("{}: {}", key, item->title);
    page.invented = of_the_demo(visit.session, item->origin);
    page.trail = {{"/catalog", "Catalog"}};
    auto& html = page.main;
    if (!item->withdrawn.empty()) html.element("p", "Withdrawn: " + item->withdrawn, {{"class", "fault"}});
    const auto* kind = catalog.vocabularies().item_kind(item->kind);
    html.element("p", fmt::format("{}; one pack holds {} {}.", kind ? kind->title : item->kind,
                                  plain_number(item->pack_quantity, 2), kind ? kind->unit : ""));
    write_source(html, item->origin);
    html.element("h2", "In these groups");
    {
        const auto list = html.in("ul", {{"class", "links"}});
        for (const auto& one : catalog.groups_of(key)) {
            const auto entry = html.in("li");
            html.link(group_address(one), one);
        }
    }
    const auto contents = catalog.facts().rows("kit_contents", "kit", key);
    if (!contents.empty()) {
        html.element("h2", "What is in the kit");
        HtmlTable table(html, {"group", "quantity"}, "What is in the kit", false);
        for (const auto& row : contents)
            table.row({std::string(row.text("group_key")), std::string(row.text("quantity"))});
    }
    const auto line = html.in("p");
    html.link(address("/offers", {{"item", key}}), "Offers on file for it", {{"class", "button"}});
}

void show_sources(Visit& visit, Page& page) {
    const auto& catalog = visit.session.catalog();
    page.title = "Sources and packs";
    page.trail = {{"/catalog", "Catalog"}};
    auto& html = page.main;
    {
        HtmlTable table(html, {"pack", "title", "version"}, "Packs that are loaded");
        for (const auto& [id, pack] : catalog.packs()) {
            page.invented |= pack.invented;
            table.row({pack.name, pack.title + (pack.invented ? " (invented demo data)" : ""), pack.version});
        }
    }
    const auto pack = visit.asked("pack");
    const auto from = number_asked(visit, "from");
    Statement rows(catalog.database(),
                   "SELECT s.title, s.kind, s.edition, s.note, p.name FROM sources s JOIN pack p ON p.id = s.origin >> "
                   "32 WHERE ?1 = '' OR p.name = ?1 ORDER BY p.id, s.origin LIMIT ?2 OFFSET ?3");
    rows.bind(1, std::string_view(pack))
        .bind(2, static_cast<std::int64_t>(rows_a_page + 1))
        .bind(3, static_cast<std::int64_t>(from));
    std::size_t shown = 0;
    {
        HtmlTable table(html, {"source", "kind", "edition", "pack", "note"},
                        pack.empty() ? "Sources" : "Sources of " + pack);
        while (rows.step() && ++shown <= rows_a_page)
            table.row({rows.str(0), std::string(evidence_words(evidence_from(rows.text(1)))), rows.str(2), rows.str(4),
                       rows.str(3)});
    }
    write_onward(html, visit, from, shown > rows_a_page);
}

void show_audit(Visit& visit, Page& page) {
    page.title = "What is doubtful";
    page.trail = {{"/catalog", "Catalog"}};
    auto& html = page.main;
    const auto found = audit(visit.session.catalog(), visit.session.plugins(), visit.session.engine());
    if (found.empty()) html.element("p", "Nothing doubtful found.");
    const auto stretch = stretch_of(visit, found.size(), rows_a_page);
    {
        const auto list = html.in("ul", {{"class", "told"}});
        for (std::size_t i = stretch.from; i < stretch.to; ++i) {
            const auto item = html.in("li");
            html.element("strong", found[i].kind);
            html.element("span", in_titles(visit.session.catalog(), found[i].what));
            for (std::size_t j = 0; j < found[i].rows.size() && j < 6; ++j) {
                page.invented |= of_the_demo(visit.session, found[i].rows[j]);
                html.element("span", source_text(found[i].rows[j]), {{"class", "hint"}});
            }
        }
    }
    write_stretch(html, visit, stretch, rows_a_page);
}

}  // namespace

std::vector<Route> catalog_routes() {
    return {{"/catalog", "Catalog", show_catalog}, {"/catalog/find", "", show_found},
            {"/catalog/line", "", show_line},      {"/catalog/group", "", show_group},
            {"/catalog/item", "", show_item},      {"/catalog/sources", "", show_sources},
            {"/catalog/audit", "", show_audit}};
}

}  // namespace casebound
