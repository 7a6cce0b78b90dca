#include "core/sheets/bid_sheet.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/report.h"
#include "core/sheets/bid_words.h"

namespace casebound {

namespace {

constexpr std::size_t most_by_phone = 5, most_in_yard = 6;  // that one page takes

std::vector<std::string> titles_worth_nothing(const std::vector<BidQuestion>& questions) {
    std::vector<std::string> titles;
    for (const auto& one : questions)
        if (worth_nothing(one)) titles.push_back(one.sign.attribute.title);
    return titles;
}

std::string told_command(const Bid& bid, const BidQuestion& question) {
    return fmt::format("casebound vehicle tell {} {}={} {}", bid.vehicle, question.sign.attribute.name,
                       blank_for(question.sign.attribute), question.by_phone ? "seller-said" : "read");
}

std::string questions_text(const Bid& bid, const std::vector<BidQuestion>& questions, const std::string& title,
                           const std::string& currency, bool full) {
    if (questions.empty()) return "";
    std::string out = "\n" + title;
    if (questions.front().worth)
        out += fmt::format(" (ceiling without an answer {})", bid_amount(questions.front().worth->before, currency));
    out += ":\n";
    for (const auto& one : questions) {
        if (worth_nothing(one)) continue;
        out += wrapped(fmt::format("[ ] {}: {} ({})", worth_words(bid, one), question_words(one), minutes_words(one)),
                       2, 6);
        out += wrapped(answers_words(bid, one), 6, 8);
        if (!one.said.empty()) out += wrapped(fmt::format("Told: {}. See it again.", one.said), 6, 8);
        if (full) out += wrapped(fmt::format("{} [{}]", told_command(bid, one), one.sign.source.title), 6, 8);
    }
    if (const auto none = titles_worth_nothing(questions); !none.empty())
        out += wrapped(fmt::format("Worth nothing, for no answer changes what to do: {}.", fmt::join(none, "; ")), 2,
                       4);
    return out;
}

std::string causes_text(const Bid& bid, bool full) {
    const bool said = std::any_of(bid.causes.begin(), bid.causes.end(), [](const BidCause& one) {
        return share_words(one.share_seen) != share_words(one.share_said);
    });
    std::vector<std::string> columns{"it may be", said ? "as seen" : "share"};
    if (said) columns.emplace_back("as said");
    columns.emplace_back("mending it");
    Table table(columns);
    std::set<std::string_view> known_by;
    for (const auto& one : bid.causes) {
        std::vector<std::string> row{named(one.on_record.title, one.on_record.key), share_words(one.share_seen)};
        if (said) row.push_back(share_words(one.share_said));
        row.push_back(cause_cost_words(bid, one));
        table.row(row);
        const auto from = cause_from_words(one, full);
        if (full || from != evidence_words(one.on_record.source.evidence)) table.under(from);
        known_by.emplace(evidence_words(one.on_record.source.evidence));
    }
    return table.text() + wrapped(fmt::format("These causes are known by: {}.", fmt::join(known_by, ", ")), 2, 4);
}

std::string list_text(const std::string& title, const std::vector<std::string>& lines, const std::string& box = "") {
    if (lines.empty()) return "";
    std::string out = "\n" + title + "\n";
    for (const auto& line : lines) out += wrapped(box + line + (box.empty() ? "." : ""), 2, box.empty() ? 4 : 6);
    return out;
}

Json json_of_worth(const BidQuestion& question) {
    Json json{{"attribute", question.sign.attribute.name},
              {"title", question.sign.attribute.title},
              {"ask", question_words(question)},
              {"minutes", question.minutes},
              {"raised", question.sign.attribute.raised},
              {"told", question.said},
              {"source", casebound::json_of(question.sign.source)},
              {"value", question.worth ? Json(question.worth->value) : Json(nullptr)},
              {"ceiling_before", question.worth ? Json(question.worth->before) : Json(nullptr)},
              {"answers", Json::array()}};
    if (!question.worth)
        for (const auto& answer : question.sign.answers)
            json["answers"].push_back(
                {{"answer", answer.words}, {"chance", nullptr}, {"ceiling", nullptr}, {"buy", nullptr}});
    else
        for (const auto& given : question.worth->answers)
            json["answers"].push_back({{"answer", question.sign.answers[given.answer].words},
                                       {"chance", given.chance},
                                       {"ceiling", given.ceiling.amount},
                                       {"buy", given.buy}});
    return json;
}

Json amount_or_null(const std::optional<Ceiling>& ceiling) { return ceiling ? Json(ceiling->amount) : Json(nullptr); }

// Those worth something first; what does not fit on the page is counted.
PrintTable questions_table(const Bid& bid, const std::vector<BidQuestion>& questions, std::size_t most,
                           const std::string& title) {
    PrintTable table{title, {}, {"worth", "what", "ceiling by answer", "effort", "answer"}, {}, "nothing"};
    table.tick = bid.trouble && !questions.empty() && questions.front().by_phone ? "asked" : "seen";
    table.room = 1;
    for (const auto& one : questions) {
        if (table.rows.size() == most) break;
        if (worth_nothing(one)) continue;
        table.rows.push_back({worth_words(bid, one),
                              question_words(one) + (one.said.empty() ? "" : " Told: " + one.said + "."),
                              answers_words(bid, one), minutes_words(one), ""});
    }
    const auto none = titles_worth_nothing(questions);
    if (!none.empty()) table.if_empty = "No other question is on record.";
    if (!none.empty())
        table.lead = fmt::format("Worth nothing, for no answer changes what to do: {}.", fmt::join(none, "; "));
    if (const auto left = questions.size() - none.size() - table.rows.size(); left > 0)
        table.lead += fmt::format("{}{} more, worth less: casebound triage {}", table.lead.empty() ? "" : " ", left,
                                  bid.vehicle);
    return table;
}

PrintTable lines_table(std::string title, const std::vector<std::string>& lines, std::string tick = {}) {
    PrintTable table{std::move(title), {}, {"what"}, {}, "nothing"};
    table.list = true;
    table.tick = std::move(tick);
    for (const auto& line : lines) table.rows.push_back({line});
    return table;
}

}  // namespace

std::string bid_text(const Bid& bid, const SheetHead& head, const std::string& currency, bool full) {
    std::string out = spread(fmt::format("{}: before it is bought", bid.vehicle), invented_label(head.invented)) +
                      wrapped(head.title, 0, 2) + "\n";
    const auto missing = typed_words(bid, missing_of(bid));
    if (!missing.empty()) {
        out += "CANNOT TELL what to bid. Not known:\n";
        for (const auto& one : missing) out += wrapped("- " + one, 2, 4);
    }
    for (const auto& one : ceiling_sentences(bid, currency)) out += wrapped(one, 0, 2);
    if (bid.trouble) out += "\n" + wrapped("Told: " + told_words_of(bid), 0, 2) + causes_text(bid, full);
    out += questions_text(bid, bid.phone, "By phone", currency, full);
    out += questions_text(bid, bid.yard, "In the yard", currency, full);
    out += list_text("See again in the yard before money moves, only told so far:", bid.see_again, "[ ] ");
    std::vector<std::string> against;
    for (const auto& one : bid.against) against.push_back(against_words(one));
    out += list_text("Word against what was seen:", against);
    out += list_text("It rests on this:", typed_words(bid, rests_on(bid)));
    if (!bid.yard.empty()) {
        out += "\n";
        for (const auto& one : yard_cautions(bid)) out += wrapped("Caution: " + one, 0, 2);
    }
    if (bid.trouble)
        out += "\n" +
               wrapped(fmt::format("An answer: casebound vehicle tell {} FINDING=VALUE seller-said; what you see "
                                   "yourself: read or measured instead of seller-said.",
                                   bid.vehicle),
                       0, 2);
    return out;
}

Json by_figure(const std::vector<Lacking>& all) {
    Json json = Json::array();
    for (const auto& one : all) json.push_back({{"what", one.what}, {"figure", one.figure}, {"note", one.note}});
    return json;
}

Json json_of(const Bid& bid, const std::string& currency) {
    Json json{{"vehicle", bid.vehicle}, {"currency", currency}};
    json["ceiling"] = bid.to_go_by() ? Json(bid.to_go_by()->amount) : Json(nullptr);
    json["ceiling_seen"] = amount_or_null(bid.seen);
    json["ceiling_said"] = amount_or_null(bid.said);
    json["ceiling_weighed"] = amount_or_null(bid.weighed);
    json["ceiling_dearest"] = bid.to_go_by() ? Json(bid.low) : Json(nullptr);
    json["ceiling_cheapest"] = bid.to_go_by() ? Json(bid.high) : Json(nullptr);
    json["price"] = bid.price ? Json(*bid.price) : Json(nullptr);
    json["knowing"] = bid.knowing ? Json(*bid.knowing) : Json(nullptr);
    json["told"] = bid.trouble ? Json(told_words_of(bid)) : Json(nullptr);
    json["sentences"] = ceiling_sentences(bid, currency);
    json["missing"] = typed_words(bid, missing_of(bid));
    json["missing_by_figure"] = by_figure(missing_of(bid));
    json["causes"] = Json::array();
    for (const auto& one : bid.causes)
        json["causes"].push_back({{"cause", one.on_record.key},
                                  {"title", one.on_record.title},
                                  {"share_seen", one.share_seen},
                                  {"share_said", one.share_said},
                                  {"unit", one.on_record.by_unit},
                                  {"cost", one.cost ? Json{{"low", one.cost->low},
                                                           {"likely", one.cost->likely},
                                                           {"high", one.cost->high},
                                                           {"origin", one.cost->origin}}
                                                    : Json(nullptr)},
                                  {"source", casebound::json_of(one.on_record.source)}});
    for (const auto& [name, all] : {std::pair{"phone", &bid.phone}, {"yard", &bid.yard}}) {
        json[name] = Json::array();
        for (const auto& one : *all) {
            json[name].push_back(json_of_worth(one));
            json[name].back()["worth"] = worth_words(bid, one);
        }
    }
    json["see_again"] = bid.see_again;
    json["against"] = Json::array();
    for (const auto& one : bid.against) json["against"].push_back(against_words(one));
    json["figures"] = Json::array();
    for (const auto& [key, value] : bid.figures) json["figures"].push_back({{"key", key}, {"value", value}});
    json["rests_on"] = typed_words(bid, rests_on(bid));
    json["rests_on_by_figure"] = by_figure(rests_on(bid));
    json["cautions"] = yard_cautions(bid);
    return json;
}

PrintSheet printed(const Bid& bid, const SheetHead& head, const std::string& currency, const std::string& catalog) {
    PrintSheet made{"triage", head, catalog, {}, true};
    auto sentences = ceiling_sentences(bid, currency);
    for (const auto& one : typed_words(bid, missing_of(bid))) sentences.push_back("CANNOT TELL, not known: " + one);
    made.tables.push_back(lines_table("What to bid", sentences));
    if (bid.trouble) {
        PrintTable causes{
            told_words_of(bid), {}, {"it may be", "as seen", "as said", "mending it", "known by"}, {}, "nothing"};
        for (const auto& one : bid.causes)
            causes.rows.push_back({one.on_record.title, share_words(one.share_seen), share_words(one.share_said),
                                   cause_cost_words(bid, one), cause_from_words(one, false)});
        made.tables.push_back(std::move(causes));
        made.tables.push_back(questions_table(bid, bid.phone, most_by_phone, "By phone"));
        made.tables.push_back(
            lines_table("Caution, in somebody's yard", {fmt::format("{}", fmt::join(yard_cautions(bid), " "))}));
        made.tables.push_back(questions_table(bid, bid.yard, most_in_yard, "In the yard"));
    }
    if (!bid.see_again.empty())
        made.tables.push_back(lines_table("See again before money moves, only told so far", bid.see_again, "seen"));
    std::vector<std::string> against;
    for (const auto& one : bid.against) against.push_back(against_words(one));
    if (!against.empty()) made.tables.push_back(lines_table("Word against what was seen", against));
    made.tables.push_back(
        lines_table("It rests on this", {fmt::format("{}.", fmt::join(typed_words(bid, rests_on(bid)), ". "))}));
    return made;
}

}  // namespace casebound
