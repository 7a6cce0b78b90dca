// Before it is bought: the answer of `triage` as a page, each question with the form that takes its answer, and the same
// on one page of paper.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/buy/bid.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/sheets/bid_sheet.h"

namespace casebound {

namespace {

using Json = nlohmann::ordered_json;

struct BidFigure {
    std::string_view key, label, hint;
};

constexpr BidFigure bid_figures[]{
    {"purchase", "What is asked, with transport", "such as 900"},
    {"sale", "What it brings once it runs", "LIKELY, or LOW/LIKELY/HIGH"},
    {"as_is", "What it brings as it stands", ""},
    {"unit", "A unit, fitted, less the old one's value", ""},
    {"diagnosis", "Diagnosis, paid", ""},
};
constexpr BidFigure more_bid_figures[]{
    {"reserve", "Set aside for a second fault", ""},
    {"margin", "Margin wanted", ""},
    {"seller_right", "How often the seller's word holds", "70%"},
    {"reusable", "Share of a repair that a unit can use", ""},
    {"as_is_opened", "What it brings once it has been opened", ""},
};

Field field_for(const BidFigure& figure) {
    return {std::string(figure.key), std::string(figure.label), Field::Kind::number, "", std::string(figure.hint)};
}

std::vector<std::string> bid_figure_keys() {
    std::vector<std::string> keys;
    for (const auto& one : bid_figures) keys.emplace_back(one.key);
    for (const auto& one : more_bid_figures) keys.emplace_back(one.key);
    return keys;
}

std::string cost_name(const std::string& cause) { return "cost." + cause; }

// What the address says, as `triage` takes it. The costs of causes are fields of their own.
Args triage_args(const Visit& visit, const std::string& vehicle) {
    Args args{{vehicle}, {}};
    for (auto& word : key_value_args_asked(visit, bid_figure_keys())) args.words.push_back(std::move(word));
    for (const auto& [name, value] : visit.request.query)
        if (name.starts_with("cost.") && !value.empty()) args.options["cost"].push_back(name.substr(5) + "=" + value);
    if (!visit.asked("trouble").empty()) args.options["trouble"] = {visit.asked("trouble")};
    return args;
}

// Words, amounts, causes: all that the answer needs beside what is on file.
Form bid_form(const Visit&, const std::string& vehicle, const Json& triage) {
    Form form{"triage", "Your figures", "Work it out", {}, {}, {{"go", "1"}}, vehicle_address(vehicle, "/triage")};
    for (const auto& one : bid_figures) form.fields.push_back(field_for(one));
    for (const auto& one : more_bid_figures) form.more.push_back(field_for(one));
    if (triage.is_object())
        for (const auto& cause : triage["causes"]) {
            if (cause["unit"].get<bool>()) continue;
            Field field{cost_name(cause["cause"].get<std::string>()),
                        fmt::format("Mending it: {}", cause["title"].get<std::string>()), Field::Kind::number, "",
                        cause["cost"].is_null() ? "not known yet" : ""};
            (cause["cost"].is_null() ? form.fields : form.more).push_back(std::move(field));
        }
    return form;
}

// What is lacking, by the field of the form below that takes it.
std::vector<std::string> by_their_fields(const Json& lacking, const std::vector<Field>& fields) {
    std::vector<std::string> texts;
    for (const auto& lack : lacking) {
        const auto figure = lack["figure"].get<std::string>(), what = lack["what"].get<std::string>();
        const auto field = std::find_if(fields.begin(), fields.end(),
                                        [&](const Field& one) { return one.name == figure; });
        const auto where = figure == "told"        ? std::string(": tell it on the page of the vehicle")
                           : field == fields.end() ? std::string()
                           : figure.starts_with("cost.") || what.substr(1) == field->label.substr(1)
                               ? std::string(": a field below")
                               : fmt::format(": the field \"{}\" below", field->label);
        texts.push_back(what + where + lack["note"].get<std::string>());
    }
    return texts;
}

std::string rounded(const Json& amount) { return plain_number(std::round(amount.get<double>()), 0); }

std::string share_of(const Json& share) { return plain_number(share.get<double>() * 100, 1) + " %"; }

std::string answer_of(const Json& answer, bool priced) {
    if (answer["ceiling"].is_null()) return answer["answer"].get<std::string>();
    return fmt::format("{} ({}): {}{}", answer["answer"].get<std::string>(), share_of(answer["chance"]),
                       rounded(answer["ceiling"]),
                       !priced                     ? ""
                       : answer["buy"].get<bool>() ? ", buy"
                                                   : ", walk away");
}

void write_bid_questions(Html& html, const Json& triage, const char* name, const std::string& title,
                         const std::string& vehicle) {
    if (triage[name].empty()) return;
    const bool priced = !triage["price"].is_null();
    HtmlTable table(html, {"worth", "what", "ceiling by answer", "min"}, title);
    for (const auto& one : triage[name]) {
        table.begin_row(false);
        table.cell(one["worth"].get<std::string>());
        {
            const auto cell = table.open_cell();
            html.text(one["ask"].get<std::string>() + " ");
            if (const auto told = one["told"].get<std::string>(); !told.empty())
                html.element("span", fmt::format("Told: {}. See it again. ", told));
            html.link(address(vehicle_address(vehicle, "/cause"), {{"ask", one["attribute"].get<std::string>()}}) +
                          "#finding",
                      "Write the answer down");
        }
        std::vector<std::string> answers;
        for (const auto& answer : one["answers"]) answers.push_back(answer_of(answer, priced));
        table.cell(fmt::format("{}", fmt::join(answers, "; ")));
        table.cell(plain_number(one["minutes"].get<double>(), 0) +
                   (one["raised"].get<bool>() && std::string_view(name) == "yard" ? ", raised" : ""));
        table.end_row();
    }
}

void write_bid_causes(Html& html, const Json& triage) {
    if (triage["causes"].empty()) return;
    HtmlTable table(html, {"it may be", "as seen", "as said", "mending it", "from"}, triage["told"].get<std::string>());
    for (const auto& one : triage["causes"]) {
        const auto& cost = one["cost"];
        const auto mending = one["unit"].get<bool>() ? std::string("a unit")
                             : cost.is_null()        ? std::string("not known")
                             : cost["low"] == cost["high"]
                                 ? plain_number(cost["likely"].get<double>(), 2)
                                 : fmt::format("{} / {} / {}", plain_number(cost["low"].get<double>(), 2),
                                               plain_number(cost["likely"].get<double>(), 2),
                                               plain_number(cost["high"].get<double>(), 2));
        table.row({one["title"].get<std::string>(), share_of(one["share_seen"]), share_of(one["share_said"]), mending,
                   cost.is_null() ? one["source"]["source"].get<std::string>() : cost["origin"].get<std::string>()});
    }
}

std::vector<std::string> texts_in(const Json& list) { return list.get<std::vector<std::string>>(); }

void write_titled(Html& html, const std::string& title, const std::vector<std::string>& texts,
                  std::string_view list_class = {}) {
    if (texts.empty()) return;
    html.element("h2", title);
    write_list(html, texts, list_class);
}

void write_triage(Html& html, const Visit& visit, const Json& triage) {
    const auto vehicle = triage["vehicle"].get<std::string>();
    const auto form = bid_form(visit, vehicle, triage);
    auto fields = form.fields;
    fields.insert(fields.end(), form.more.begin(), form.more.end());
    bool first = true;
    for (const auto& sentence : texts_in(triage["sentences"])) {
        html.element("p", sentence, first ? HtmlAttributes{{"class", "total"}} : HtmlAttributes{});
        first = false;
    }
    if (!triage["missing"].empty()) {
        html.element("p", "CANNOT TELL what to bid. Not known:", {{"class", "refused"}});
        write_list(html, by_their_fields(triage["missing_by_figure"], fields));
    }
    write_bid_questions(html, triage, "phone", "By phone", vehicle);
    if (!triage["yard"].empty()) write_titled(html, "In somebody's yard", texts_in(triage["cautions"]), "cautions");
    write_bid_questions(html, triage, "yard", "In the yard", vehicle);
    write_titled(html, "See again before money moves, only told so far", texts_in(triage["see_again"]));
    write_titled(html, "Word against what was seen", texts_in(triage["against"]));
    write_bid_causes(html, triage);
    write_titled(html, "It rests on this", by_their_fields(triage["rests_on_by_figure"], fields));
    write_form(html, visit,
               {"triage-sheet",
                "",
                "One page to print, with boxes",
                {},
                {},
                visit.request.query,
                vehicle_address(vehicle, "/triage-sheet")});
}

void show_triage(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "before it is bought");
    const auto name = situation->name();
    Json triage;
    try {
        const auto answer = json_answer(visit.session, "triage", triage_args(visit, name));
        triage = answer["triage"];
        page.invented |= answer["invented"].get<bool>();
        write_triage(page.main, visit, triage);
        write_currency_hint(page.main, visit);
    } catch (const Error& error) {
        if (error.exit() != Exit::usage && error.exit() != Exit::bad_data) throw;
        visit.refused = Refusal{"triage", error.all()};
    }
    write_form(page.main, visit, bid_form(visit, name, triage));
    write_vehicle_links(page.main, visit, name);
}

std::string print_triage(Visit& visit) {
    const auto situation = visit.session.situation(visit.words.at(0));
    const auto args = triage_args(visit, situation->name());
    const auto bid = bid_for(visit.session, *situation, KeyValueArgs(args.words, 1, bid_keys()),
                             {args.all("cost"), {}, args.option("trouble")});
    const auto paper = visit.asked("paper");
    return sheet_html(printed(bid, sheet_head(visit.session, *situation, bid.invented), visit.currency(),
                              catalog_words(visit.session.catalog())),
                      paper_from(paper.empty() ? "a4" : paper), "/sheet.css");
}

}  // namespace

std::vector<Route> triage_routes() {
    return {{"/vehicle/*/triage", "", show_triage}, {"/vehicle/*/triage-sheet", "", nullptr, print_triage}};
}

}  // namespace casebound
