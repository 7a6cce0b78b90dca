// `triage`: before the vehicle is bought, what to bid, what to ask by phone and what to look at in the yard.
#include <fmt/format.h>

#include "core/buy/bid.h"
#include "core/buy/order_text.h"
#include "core/session/command.h"
#include "core/session/typed_names.h"
#include "core/sheets/bid_sheet.h"

namespace casebound {

namespace {

Result run_triage(Session& session, const Args& args) {
    const auto situation = session.situation(session.vehicle(args.words.at(0)).name);
    const auto paper = paper_from(args.option("paper", "a4"));
    if (args.has("html") && session.json())
        throw Error(Exit::usage, "triage: --html and --json at once: take one of them");
    const auto bid = bid_asked(session, *situation, args);
    const auto exit = bid.to_go_by() ? Exit::yes : Exit::cannot_tell;
    const auto currency = currency_of(session);
    const auto head = sheet_head(session, *situation, bid.invented);
    if (args.has("html"))
        return {exit, sheet_html(printed(bid, head, currency, catalog_words(session.catalog())), paper)};
    if (!session.json()) return {exit, bid_text(bid, head, currency, session.full())};
    auto json = document("triage");
    json["invented"] = head.invented;
    json["triage"] = casebound::json_of(bid, currency);
    return {exit, json_text(json)};
}

}  // namespace

std::vector<Command> triage_commands() {
    return {
        {"triage",
         "VEHICLE [KEY=LIKELY|LOW/LIKELY/HIGH...]",
         "before it is bought: what to bid, what to ask by phone and what to look at in the yard, each with what it "
         "is worth to the bid; purchase: what is asked, with transport; sale: once it runs; as-is: as it stands; "
         "unit: a replacement unit, fitted; reserve: for a second fault; seller-right: how often his word holds",
         1,
         any_number,
         {{"cost", "CAUSE=AMOUNT", "what mending a cause costs: LIKELY or LOW/LIKELY/HIGH", true},
          {"share", "CAUSE=SHARE", "how often it is this cause: 30%", true},
          {"trouble", "FINDING", "which of several troubles told it is about"},
          {"html", "", "as one page of HTML to print from a browser, with boxes to tick"},
          {"paper", "SIZE", "with --html (default: a4)", false, {"a4", "letter"}}},
         run_triage,
         "casebound triage van purchase=900 sale=3200 as-is=400 unit=2300",
         {{"KEY", as_typed(bid_keys())}}}};
}

}  // namespace casebound
