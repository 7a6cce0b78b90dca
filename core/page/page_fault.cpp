// What is wrong with the vehicle: the findings that are told, a form for each that could be, and every inquiry that
// takes findings, answered with what is told so far.
#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_answer.h"
#include "core/page/page_form.h"
#include "core/page/page_question.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/reason/condition_words.h"
#include "core/say/list_words.h"
#include "core/say/report.h"
#include "core/session/ask_domains.h"
#include "core/session/inquiry_session.h"
#include "core/session/tell_check.h"
#include "core/shop/shop_told.h"

namespace casebound {

namespace {

// Findings of the vehicle, or findings at all, that an inquiry takes.
bool takes(const Inquiry& inquiry, const std::function<bool(const std::string&)>& wanted) {
    return std::any_of(inquiry.inputs.begin(), inquiry.inputs.end(),
                       [&](const Input& input) { return !input.attribute.empty() && wanted(input.attribute); });
}

// One inquiry with what the vehicle says; what it lacks is said, not refused.
void write_cause(Visit& visit, Page& page, const Situation& situation, const GuardedDomain& domain,
                 const Inquiry& inquiry) {
    auto& html = page.main;
    const auto form = address(fmt::format("/compute/{}/{}", domain.name(), inquiry.name), {{"for", situation.name()}});
    html.element("h2", inquiry.title);
    try {
        const auto run = run_inquiry_in(visit.session, domain, inquiry, {}, &situation);
        page.invented |= invented(run.answer);
        const auto answer = in_words(run.answer, visit.session.catalog());
        write_answer_verdict(html, answer);
        html.element("p", answer.headline, {{"class", "total"}});
        write_list(html, answer.next);
        for (const auto& grid : answer.grids) write_grid(html, grid);
        write_answer_lines(html, answer);
    } catch (const Error& error) {
        html.element("p", "Not answered with what is told so far:", {{"class", "hint"}});
        write_list(html, error.all());
    }
    const auto line = html.in("p");
    html.link(form, "With more that was seen", {{"class", "button"}});
}

void write_findings(Html& html, const Visit& visit, const std::string& name) {
    html.element("h2", "Findings so far");
    bool any = false;
    const auto list = html.in("ul", {{"class", "told"}});
    for (const auto& entry : ShopTold(visit.session.shop()).standing(name)) {
        const auto* attribute = visit.session.catalog().vocabularies().attribute(entry.attribute);
        if (!attribute || !attribute->finding) continue;
        any = true;
        const auto item = html.in("li");
        html.element("strong", fmt::format("{}: {}", attribute->title, value_words(*attribute, entry.text)));
        html.element("span", fmt::format("{} {}", tell_evidence_words(entry.evidence), entry.date));
        write_form(html, visit,
                   {"take-back/" + entry.attribute,
                    "",
                    fmt::format("Take back {}", attribute->title),
                    {},
                    {},
                    {{"attribute", entry.attribute}}});
    }
    if (!any) html.element("li", "Nothing yet.");
}

// What the domains make of the findings, and what the evidence lacks.
void write_troubles(Html& html, Session& session, const Situation& situation) {
    for (const auto& line : troubles(session, situation)) {
        const auto one = html.in("p");
        html.element("strong", line.title);
        html.text(fmt::format(": {} ", line.text));
        write_source(html, line.source);
    }
    write_list(html, evidence_cautions(session, situation), "cautions");
    write_list(html, unusual_told(session, situation), "cautions");
}

// A box for each of several that may be seen side by side; else one field.
std::vector<Field> fields_of(const Attribute& attribute) {
    if (!attribute.several || attribute.choices.empty())
        return {value_field(attribute, attribute.kind == ValueKind::yes_no ? std::vector<std::string>{"yes", "no"}
                                                                           : attribute.choices)};
    std::vector<Field> boxes;
    for (const auto& choice : attribute.choices)
        boxes.push_back({"value", spaced(choice), Field::Kind::check, "", "", "", {{choice, choice}}});
    boxes.front().hint = "Tick every one that is seen.";
    return boxes;
}

// What can be told, as links; the one that was chosen, or refused, as a form.
void write_finding_forms(Html& html, const Visit& visit, const Situation& situation) {
    html.element("h2", "Something seen, heard or measured", {{"id", "finding"}});
    const auto& attributes = visit.session.catalog().vocabularies().attributes();
    const auto refused = visit.refused && visit.refused->form.rfind("tell/", 0) == 0 ? visit.refused->form.substr(5)
                                                                                     : visit.asked("ask");
    if (const auto chosen = attributes.find(refused); chosen != attributes.end() && chosen->second.word.finding) {
        const auto& attribute = chosen->second.word;
        const auto section = html.in("section", {{"class", "question"}});
        html.element("p", attribute.title, {{"class", "what"}});
        html.element("p", attribute.how, {{"class", "how"}});
        write_form(html, visit,
                   {"tell/" + attribute.name,
                    "",
                    "Write it down",
                    fields_of(attribute),
                    evidence_fields(),
                    {{"attribute", attribute.name}}});
    }
    const auto list = html.in("ul", {{"class", "links tiles"}});
    for (const auto& [name, owned] : attributes) {
        if (!owned.word.finding || !could_be_told(visit.session, situation, owned.word)) continue;
        const auto item = html.in("li");
        html.link(address(visit.request.path, {{"ask", name}}) + "#finding", owned.word.title);
    }
}

// Those that take what was found are answered; the others can be asked.
void write_causes(Visit& visit, Page& page, const Situation& situation) {
    const auto& words = visit.session.catalog().vocabularies();
    const auto finding = [&](const std::string& name) {
        const auto* attribute = words.attribute(name);
        return attribute && attribute->finding;
    };
    const auto told = situation.told();
    const auto found = [&](const std::string& name) {
        return finding(name) &&
               std::any_of(told.begin(), told.end(), [&](const Told& one) { return one.attribute == name; });
    };
    std::vector<std::pair<std::string, std::string>> others;
    for (const auto& domain : visit.session.plugins().domains)
        for (const auto& inquiry : inquiries_of(domain.domain)) {
            if (takes(inquiry, found)) write_cause(visit, page, situation, domain.domain, inquiry);
            else if (takes(inquiry, finding))
                others.emplace_back(
                    address(fmt::format("/compute/{}/{}", domain.name, inquiry.name), {{"for", situation.name()}}),
                    inquiry.title);
        }
    if (others.empty()) return;
    page.main.element("h2", "What can be worked out from more of it");
    const auto list = page.main.in("ul", {{"class", "links"}});
    for (const auto& [to, title] : others) {
        const auto item = page.main.in("li");
        page.main.link(to, title);
    }
}

void show_cause(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "what is wrong with it");
    const bool telling = !visit.asked("ask").empty() || visit.refused;
    if (telling) write_finding_forms(page.main, visit, *situation);
    write_findings(page.main, visit, situation->name());
    write_troubles(page.main, visit.session, *situation);
    if (!telling) write_finding_forms(page.main, visit, *situation);
    write_causes(visit, page, *situation);
    write_vehicle_links(page.main, visit, situation->name());
}

}  // namespace

std::vector<Route> cause_routes() { return {{"/vehicle/*/cause", "", show_cause}}; }

}  // namespace casebound
