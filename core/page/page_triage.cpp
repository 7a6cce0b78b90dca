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
#include "core/sheets/bid_words.h"

namespace casebound {

namespace {

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
Form bid_form(const std::string& vehicle, const std::vector<BidCause>& causes) {
    Form form{"triage", "Your figures", "Work it out", {}, {}, {{"go", "1"}}, vehicle_address(vehicle, "/triage")};
    for (const auto& one : bid_figures) form.fields.push_back(field_for(one));
    for (const auto& one : more_bid_figures) form.more.push_back(field_for(one));
    for (const auto& cause : causes)
        if (!cause.on_record.by_unit)
            (cause.cost ? form.more : form.fields)
                .push_back({cost_name(cause.on_record.key), fmt::format("Mending it: {}", cause.on_record.title),
                            Field::Kind::number, "", cause.cost ? "" : "not known yet"});
    return form;
}

// What is lacking, by the field of the form below that takes it.
std::vector<std::string> by_their_fields(const std::vector<Lacking>& lacking, const std::vector<Field>& fields) {
    std::vector<std::string> texts;
    for (const auto& [what, figure, note] : lacking) {
        const auto field = std::find_if(fields.begin(), fields.end(),
                                        [&, name = figure](const Field& one) { return one.name == name; });
        const auto where = figure == "told"        ? std::string(": tell it on the page of the vehicle")
                           : field == fields.end() ? std::string()
                           : figure.starts_with("cost.") || what.substr(1) == field->label.substr(1)
                               ? std::string(": a field below")
                               : fmt::format(": the field \"{}\" below", field->label);
        texts.push_back(what + where + note);
    }
    return texts;
}

void write_bid_questions(Html& html, const Bid& bid, const std::vector<BidQuestion>& questions,
                         const std::string& title) {
    if (questions.empty()) return;
    HtmlTable table(html, {"worth", "what", "ceiling by answer", "min"}, title);
    for (const auto& one : questions) {
        const auto& attribute = one.sign.attribute;
        table.begin_row(false);
        table.cell(worth_words(bid, one));
        {
            const auto cell = table.open_cell();
            html.text(question_words(one) + " ");
            if (!one.said.empty()) html.element("span", fmt::format("Told: {}. See it again. ", one.said));
            html.link(address(vehicle_address(bid.vehicle, "/cause"), {{"ask", attribute.name}}) + "#finding",
                      "Write the answer down");
        }
        table.cell(answers_words(bid, one));
        table.cell(plain_number(one.minutes, 0) + (attribute.raised && !one.by_phone ? ", raised" : ""));
        table.end_row();
    }
}

void write_bid_causes(Html& html, const Bid& bid) {
    if (bid.causes.empty()) return;
    HtmlTable table(html, {"it may be", "as seen", "as said", "mending it", "from"}, told_words_of(bid));
    for (const auto& one : bid.causes)
        table.row({one.on_record.title, share_words(one.share_seen), share_words(one.share_said),
                   cause_cost_words(bid, one), one.cost ? one.cost->origin : one.on_record.source.title});
}

void write_titled(Html& html, const std::string& title, const std::vector<std::string>& texts,
                  std::string_view list_class = {}) {
    if (texts.empty()) return;
    html.element("h2", title);
    write_list(html, texts, list_class);
}

void write_triage(Html& html, const Visit& visit, const Bid& bid) {
    const auto form = bid_form(bid.vehicle, bid.causes);
    auto fields = form.fields;
    fields.insert(fields.end(), form.more.begin(), form.more.end());
    bool first = true;
    for (const auto& sentence : ceiling_sentences(bid, visit.currency())) {
        html.element("p", sentence, first ? HtmlAttributes{{"class", "total"}} : HtmlAttributes{});
        first = false;
    }
    if (const auto missing = missing_of(bid); !missing.empty()) {
        html.element("p", "CANNOT TELL what to bid. Not known:", {{"class", "refused"}});
        write_list(html, by_their_fields(missing, fields));
    }
    write_bid_questions(html, bid, bid.phone, "By phone");
    if (!bid.yard.empty()) write_titled(html, "In somebody's yard", yard_cautions(bid), "cautions");
    write_bid_questions(html, bid, bid.yard, "In the yard");
    write_titled(html, "See again before money moves, only told so far", bid.see_again);
    std::vector<std::string> against;
    for (const auto& one : bid.against) against.push_back(against_words(one));
    write_titled(html, "Word against what was seen", against);
    write_bid_causes(html, bid);
    write_titled(html, "It rests on this", by_their_fields(rests_on(bid), fields));
    write_form(html, visit,
               {"triage-sheet",
                "",
                "One page to print, with boxes",
                {},
                {},
                visit.request.query,
                vehicle_address(bid.vehicle, "/triage-sheet")});
}

void show_triage(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "before it is bought");
    const auto name = situation->name();
    std::vector<BidCause> causes;
    try {
        const auto bid = bid_asked(visit.session, *situation, triage_args(visit, name));
        causes = bid.causes;
        page.invented |= sheet_head(visit.session, *situation, bid.invented).invented;
        write_triage(page.main, visit, bid);
        write_currency_hint(page.main, visit);
    } catch (const Error& error) {
        if (error.exit() != Exit::usage && error.exit() != Exit::bad_data) throw;
        visit.refused = Refusal{"triage", error.all()};
    }
    write_form(page.main, visit, bid_form(name, causes));
    write_vehicle_links(page.main, visit, name);
}

std::string print_triage(Visit& visit) {
    const auto situation = visit.session.situation(visit.words.at(0));
    const auto bid = bid_asked(visit.session, *situation, triage_args(visit, situation->name()));
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
