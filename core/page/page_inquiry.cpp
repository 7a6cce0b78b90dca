// Every inquiry of every loaded domain, as a form made from its declared inputs; an answered form is an address.
#include <algorithm>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_answer.h"
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/say/list_words.h"
#include "core/session/inquiry_session.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

std::string hint_of(const Input& input) {
    std::vector<std::string> parts;
    const bool number = input.kind == Input::Kind::number || input.kind == Input::Kind::number_list;
    if (number && !range_text(input).starts_with("any number")) parts.push_back(range_text(input));
    if (input.kind == Input::Kind::number_list || input.kind == Input::Kind::text_list)
        parts.emplace_back("several, with commas between");
    if (!input.help.empty()) parts.push_back(input.help);
    if (!input.fallback.empty()) parts.push_back(fmt::format("when left empty, {} is assumed", input.fallback));
    if (!input.attribute.empty()) parts.emplace_back("taken from the vehicle when left empty");
    return fmt::format("{}", fmt::join(parts, "; "));
}

Field field_of(const Input& input) {
    Field field{input.name, input.title, Field::Kind::words, input.unit, hint_of(input)};
    switch (input.kind) {
        case Input::Kind::number: field.kind = Field::Kind::number; break;
        case Input::Kind::choice:
            field.kind = Field::Kind::choice;
            field.options = as_options(input.choices);
            break;
        case Input::Kind::yes_no:
            field.kind = Field::Kind::choice;
            field.options = as_options({"yes", "no"});
            break;
        case Input::Kind::date: field.kind = Field::Kind::date; break;
        default: break;
    }
    if (field.kind == Field::Kind::choice) field.options.insert(field.options.begin(), {"", "not said"});
    field.required = input.required && input.attribute.empty();
    return field;
}

Field vehicle_field(Session& session) {
    Field field{"for", "For a vehicle", Field::Kind::choice, "", "What is told of it fills what is left empty.",
                "",    {{"", "none"}}};
    for (const auto& vehicle : ShopVehicles(session.shop()).all())
        field.options.emplace_back(vehicle.name, vehicle.name);
    return field;
}

Form form_of(Session& session, const std::string& address, const Inquiry& inquiry) {
    Form form{"inquiry", "", "Answer", {}, {}, {{"go", "1"}}, address};
    if (!ShopVehicles(session.shop()).all().empty()) form.fields.push_back(vehicle_field(session));
    for (const auto& input : inquiry.inputs) form.fields.push_back(field_of(input));
    return form;
}

std::vector<std::pair<std::string, std::string>> given_of(const Visit& visit) {
    std::vector<std::pair<std::string, std::string>> given;
    for (const auto& [name, value] : visit.request.query)
        if (name != "go" && name != "for" && !trimmed(value).empty()) given.emplace_back(name, trimmed(value));
    return given;
}

void write_taken(Html& html, const Given& given) {
    std::vector<std::string> taken;
    for (const auto& [name, value] : given.values)
        if (value.from != From::by_hand)
            taken.push_back(fmt::format("{}: {} ({})", spaced(name), spaced(value.text), value.source.title));
    if (taken.empty()) return;
    html.element("h3", "Taken without being typed");
    write_list(html, taken);
}

void answer(Visit& visit, Page& page, const GuardedDomain& domain, const Inquiry& inquiry) {
    try {
        const auto vehicle = visit.asked("for");
        const auto situation = vehicle.empty() ? nullptr : visit.session.situation(vehicle);
        const auto run = run_inquiry_in(visit.session, domain, inquiry, given_of(visit), situation.get());
        page.invented |= invented(run.answer);
        if (situation) page.under = fmt::format("{}: {}", situation->name(), situation->headline());
        write_answer(page.main, in_words(run.answer, visit.session));
        write_taken(page.main, run.given);
        if (situation) {
            const auto line = page.main.in("p");
            page.main.link(vehicle_address(situation->name()), fmt::format("Back to {}", situation->name()),
                           {{"class", "button"}});
        }
    } catch (const Error& error) {
        if (error.exit() != Exit::usage && error.exit() != Exit::bad_data && error.exit() != Exit::no_input) throw;
        visit.refused = Refusal{"inquiry", error.all()};
    }
}

void show_inquiry(Visit& visit, Page& page) {
    const auto& name = visit.words.at(0);
    const auto* domain = visit.session.plugins().find(name);
    if (!domain) throw Error(Exit::no_input, fmt::format("{}: no such domain is loaded", name));
    const auto inquiry = inquiry_named(*domain, visit.words.at(1));
    page.title = inquiry.title;
    page.trail = {{"/compute", "Compute"}};
    if (!visit.asked("go").empty()) answer(visit, page, *domain, inquiry);
    auto& html = page.main;
    if (!visit.asked("go").empty()) html.element("h2", visit.refused ? "Not answered yet" : "Ask again");
    write_form(html, visit, form_of(visit.session, address(visit.request.path), inquiry));
}

void show_inquiries(Visit& visit, Page& page) {
    page.title = "Compute";
    page.under = "Every computation of every loaded domain. An answer is an address: keep it as a bookmark.";
    auto& html = page.main;
    const auto vehicle = visit.asked("for");
    for (const auto& domain : visit.session.plugins().domains) {
        html.element("h2", domain.title);
        const auto list = html.in("ul", {{"class", "links"}});
        for (const auto& inquiry : inquiries_of(domain.domain)) {
            const auto item = html.in("li");
            html.link(address(fmt::format("/compute/{}/{}", domain.name, inquiry.name),
                              vehicle.empty() ? Fields{} : Fields{{"for", vehicle}}),
                      inquiry.title);
        }
    }
    for (const auto& refused : visit.session.plugins().refused)
        html.element("p", fmt::format("Not loaded: {}: {}", refused.path, refused.reason), {{"class", "fault"}});
}

}  // namespace

std::vector<Route> inquiry_routes() {
    return {{"/compute", "Compute", show_inquiries}, {"/compute/*/*", "", show_inquiry}};
}

}  // namespace casebound
