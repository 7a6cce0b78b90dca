// What to order for the jobs, from whom, and what it costs: the answer of `buy` as a page.
#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "core/cover/purchase.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/html/svg.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_order_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/report.h"
#include "core/verdict/parts_list.h"

namespace casebound {

namespace {

using Json = nlohmann::ordered_json;

// What an answer says, in the words of a page.
class OrderView {
public:
    OrderView(Html& html, const Json& buy)
        : html_(html), titles_(buy["titles"]), currency_(buy["currency"].get<std::string>()) {}

    std::string title(const Json& key) const { return titles_.value(key.get<std::string>(), key.get<std::string>()); }
    std::string titles(const Json& keys) const {
        std::vector<std::string> out;
        for (const auto& key : keys) out.push_back(title(key));
        return fmt::format("{}", fmt::join(out, ", "));
    }

    std::string money(const Json& cents) const { return money_text(cents.get<std::int64_t>(), currency_); }

    void order(const Json& order) {
        html_.element("p",
                      fmt::format("Total {}: goods {}, carriage {}. {}.", money(order["total_cents"]),
                                  money(order["goods_cents"]), money(order["carriage_cents"]), arrival(order)),
                      {{"class", "total"}});
        if (order["tax_cents"].get<std::int64_t>() > 0)
            html_.element("p", fmt::format("Tax of {} on top.", money(order["tax_cents"])));
        if (order["core_cents"].get<std::int64_t>() > 0)
            html_.element("p", fmt::format("Core charges of {} on top come back with the old parts, in time.",
                                           money(order["core_cents"])));
        bars(order);
        html_.element("h2", "From whom");
        for (const auto& seller : order["sellers"]) this->seller(seller);
        spares(order);
    }

    void compared(std::string_view what, const Json& other, const Json& best) {
        if (other.is_null()) return;
        std::vector<std::string> sellers;
        for (const auto& seller : other["sellers"]) sellers.push_back(seller["seller"].get<std::string>());
        html_.element(
            "li", fmt::format("{}: {}, {} more, {} ({}).", what, money(other["total_cents"]),
                              money(other["total_cents"].get<std::int64_t>() - best["total_cents"].get<std::int64_t>()),
                              here(other["days"]), fmt::join(sellers, ", ")));
    }

    void plan(std::string_view words, const Json& plan, bool best) {
        const auto section = html_.in("section", {{"class", best ? "plan best" : "plan"}});
        html_.element("h3", fmt::format("{}{}", words, best ? " (cheapest)" : ""));
        if (!plan["possible"].get<bool>()) {
            html_.element("p", fmt::format("Not possible: {}", plan["reason"].get<std::string>()));
            return;
        }
        html_.element(
            "p", fmt::format("{} expected, {} at worst.", money(plan["expected_cents"]), money(plan["worst_cents"])),
            {{"class", "total"}});
        const auto list = html_.in("ul");
        for (const auto& outcome : plan["outcomes"]) {
            std::string back;
            for (const auto& sent : outcome["sent_back"])
                back += fmt::format("; send back {} x {} to {}", sent["packs"].get<int>(),
                                    sent["item"].get<std::string>(), sent["seller"].get<std::string>());
            html_.element("li", fmt::format("where {} ({} %): {}{}", outcome["where"].get<std::string>(),
                                            plain_number(std::round(outcome["share"].get<double>() * 100), 0),
                                            money(outcome["total_cents"]), back));
        }
    }

private:
    // "LD-K4142 (gasket-t4-rigid)" is a part of a kit that is here: the kit's own number.
    static std::string number_of(const std::string& item) { return item.substr(0, item.find(" (")); }

    static std::string here(const Json& days) {
        if (days.is_null()) return "days not said";
        return days.get<int>() == 0 ? "here at once"
                                    : fmt::format("here in {}", plural(days.get<std::size_t>(), "day"));
    }

    static std::string arrival(const Json& order) {
        if (order["days"].is_null())
            return fmt::format("Arrival not known: days not said by {}",
                               fmt::join(order["days_not_said_by"].get<std::vector<std::string>>(), ", "));
        return fmt::format("Everything is {}{}", here(order["days"]),
                           order["days"].get<int>() > 0 ? ": start then, not before" : "");
    }

    void bars(const Json& order) {
        std::vector<Bar> bars;
        for (const auto& seller : order["sellers"]) {
            const auto cents = seller["goods_cents"].get<std::int64_t>() + seller["carriage_cents"].get<std::int64_t>();
            bars.push_back(
                {seller["seller"].get<std::string>(), money(cents), static_cast<double>(cents) / 100, false});
        }
        write_bars(html_, "The cheapest order by seller, carriage included", bars);
    }

    void seller(const Json& seller) {
        const auto name = seller["seller"].get<std::string>();
        html_.element("h3", name);
        const auto carriage = seller["own_shelf"].get<bool>()       ? std::string("no carriage")
                              : seller["carriage_free"].get<bool>() ? std::string("carriage free")
                                                                    : "carriage " + money(seller["carriage_cents"]);
        html_.element("p",
                      fmt::format("Goods {}, {}, {}.", money(seller["goods_cents"]), carriage, here(seller["days"])));
        HtmlTable table(html_, {"item", "packs", "price", "for"}, "From " + name, false);
        for (const auto& line : seller["lines"]) {
            const auto padding = line["padding"].get<int>();
            table.row(
                {number_of(line["item"].get<std::string>()),
                 fmt::format(
                     "{}{}", line["packs"].get<int>(),
                     padding > 0 ? fmt::format(" ({} only to reach free carriage or the least order)", padding) : ""),
                 money(line["cents"]), titles(line["serves"])});
        }
    }

    void spares(const Json& order) {
        std::vector<std::string> texts;
        for (const auto& bought : order["bought"]) {
            const auto spare = bought["spare"].get<double>();
            const auto unit = bought["unit"].get<std::string>();
            const auto role = title(bought["role"]);
            const auto amount = [&](double value) {
                return fmt::format("{}{}", plain_number(value, 2), unit == "each" ? "" : " " + unit);
            };
            const auto reserve = bought["reserve"].get<double>();
            if (spare > 1e-9) texts.push_back(fmt::format("Left over for the shelf: {} of {}.", amount(spare), role));
            if (reserve > 0)
                texts.push_back(fmt::format("Needed of {}: {}, of which {} reserve.", role,
                                            amount(bought["needed"].get<double>()), amount(reserve)));
        }
        write_list(html_, texts);
    }

    Html& html_;
    const Json& titles_;
    std::string currency_;
};

// The same order without the line is a link.
void write_blocked_line(Html& html, const Visit& visit, const std::string& vehicle, const Json& line) {
    const auto item = html.in("li");
    const auto key = line["may_leave_out"].get<std::string>();
    html.text(fmt::format("{}: {}. ", line["title"].get<std::string>(), line["why"].get<std::string>()));
    for (const auto& accept : line["accept"]) {
        auto as_if = visit.request.query;
        as_if.emplace_back("accept", accept.get<std::string>());
        html.link(address(vehicle_address(vehicle, "/order"), as_if),
                  fmt::format("Order as if {}; the order will say so",
                              condition_words(accept.get<std::string>(), visit.session.catalog().vocabularies())));
        html.text(". ");
    }
    if (key.empty()) return;
    auto query = visit.request.query;
    query.emplace_back("without", key);
    html.link(address(vehicle_address(vehicle, "/order"), query),
              fmt::format("Leave the {} out", line["title"].get<std::string>()));
}

void write_blocked(Html& html, const Visit& visit, const std::string& vehicle, const Json& buy) {
    const auto section = html.in("section", {{"class", "refused"}});
    html.element("h2", "Do not order yet");
    {
        const auto list = html.in("ul");
        std::set<std::string> said;
        for (const auto& line : buy["blocked"]) {
            write_blocked_line(html, visit, vehicle, line);
            said.insert(line["title"].get<std::string>());
        }
        for (const auto& open : buy["open"])
            if (said.insert(open.get<std::string>()).second)
                html.element("li", fmt::format("{}: check first", open.get<std::string>()));
    }
    const auto next = html.in("p");
    html.link(vehicle_address(vehicle), "What to find out next", {{"class", "button"}});
}

// Each line that nothing on file serves, with the parts that would: a link begins an offer for one.
void write_not_offered(Html& html, const OrderView& view, const Json& would_serve) {
    constexpr std::size_t most = 6;
    const auto list = html.in("ul");
    for (const auto& [role, items] : would_serve.items()) {
        const auto one = html.in("li");
        html.text(fmt::format("Nothing on file serves the {}{}", view.title(role),
                              items.empty() ? "." : ". Put an offer on file for "));
        for (std::size_t i = 0; i < items.size() && i < most; ++i) {
            if (i > 0) html.text(", ");
            const auto item = items[i].get<std::string>();
            html.link(address("/offers", {{"item", item}}), item);
        }
        if (items.size() > most) html.text(fmt::format(" and {} more", items.size() - most));
    }
}

// The same question as the list asks, and where none is left, what there is to do instead.
void write_next(Html& html, const Json& buy) {
    if (!buy["next"].is_null())
        html.element("p", fmt::format("Find out first: {}. {}", buy["next"]["title"].get<std::string>(),
                                      buy["next"]["how"].get<std::string>()));
    if (buy["choices"].empty()) return;
    html.element("p", "Nothing that can be got at would tell. What is left:");
    const auto list = html.in("ol");
    for (const auto& choice : buy["choices"]) html.element("li", choice.get<std::string>());
}

void write_unsure(Html& html, OrderView& view, const Json& buy) {
    const auto& unsure = buy["unsure"];
    {
        const auto row = html.in("p", {{"class", "verdict-line"}});
        write_verdict(html, Verdict::check_first);
        html.element("span", fmt::format("{}", fmt::join(buy["open"].get<std::vector<std::string>>(), ", ")));
    }
    if (!buy["settled_by"].empty()) html.element("p", fmt::format("It hangs on: {}.", view.titles(buy["settled_by"])));
    const auto possible = [&](const char* plan) { return unsure[plan]["possible"].get<bool>(); };
    if (!possible("find_out_first") && !possible("most_likely") && !possible("right_in_every")) {
        html.element("p", fmt::format("No order of what is on file: {}.", unsure["because"].get<std::string>()),
                     {{"class", "total"}});
        return write_not_offered(html, view, buy["would_serve"]);
    }
    html.element("p", unsure["because"].get<std::string>(), {{"class", "total"}});
    html.element("h2", "Three ways to order");
    const auto cheapest = unsure["cheapest"].get<std::string>();
    view.plan("Find out first", unsure["find_out_first"], cheapest == "find out first");
    view.plan(fmt::format("Order for {}", unsure["likely"].get<std::string>()), unsure["most_likely"],
              unsure["most_likely"]["possible"].get<bool>() && cheapest.find("likely") != std::string::npos);
    view.plan("Order what is right in every case", unsure["right_in_every"],
              cheapest.find("every") != std::string::npos);
    for (const auto& one : unsure["return_not_said"])
        html.element("p", fmt::format("{} by {}: return not said: ask first; counted as what cannot go back.",
                                      one["item"].get<std::string>(), one["seller"].get<std::string>()));
    if (possible("most_likely"))
        html.element("p",
                     fmt::format("An order for the most likely is wrong in {} % of cases, which costs {} on average.",
                                 plain_number(std::round(unsure["chance_wrong"].get<double>() * 100), 0),
                                 view.money(unsure["cost_of_being_wrong_cents"])));
}

void write_none(Html& html, const OrderView& view, const Json& buy) {
    if (buy["reason"].get<std::string>().empty() && buy["unmet"].empty()) {
        html.element("p", "Nothing needs to be ordered for this.");
        return;
    }
    html.element("p", fmt::format("No order: {}.", buy["reason"].get<std::string>()));
    std::vector<std::string> texts;
    for (const auto& unmet : buy["unmet"])
        texts.push_back(fmt::format("{}: {} {} missing: {}", view.title(unmet["role"]),
                                    plain_number(unmet["missing"].get<double>(), 2), unmet["unit"].get<std::string>(),
                                    unmet["reason"].get<std::string>()));
    write_list(html, texts);
    if (!buy["would_serve"].empty()) write_not_offered(html, view, buy["would_serve"]);
    const auto line = html.in("p");
    html.link("/offers", "Put an offer on file", {{"class", "button"}});
}

// Of an order that is released although something is in doubt, or assumed.
void write_return_cost(Html& html, const OrderView& view, const Json& cost) {
    if (cost.is_null()) return;
    for (const auto& reason : cost["in_doubt"])
        html.element(
            "p", fmt::format("In doubt, and this order is right whichever is true: {}.", reason.get<std::string>()));
    std::string terms = fmt::format("If it has to go back after all, {} of {} are lost", view.money(cost["lost_cents"]),
                                    view.money(cost["total_cents"]));
    const auto items = [&](const char* which) { return cost[which].get<std::vector<std::string>>(); };
    if (const auto never = items("cannot_go_back"); !never.empty())
        terms += fmt::format("; {} cannot go back", fmt::join(never, ", "));
    if (const auto unsaid = items("not_said"); !unsaid.empty())
        terms += fmt::format("; of {} the seller has not said whether it may: ask first", fmt::join(unsaid, ", "));
    html.element("p", terms + ".");
}

void write_buy(Html& html, const Visit& visit, const Situation& situation, const Json& buy) {
    OrderView view(html, buy);
    if (!buy["hearsay"].empty())
        html.element(
            "p", fmt::format("Right only if this is true: {}. Look for yourself before ordering.",
                             hearsay_joined(told_words(situation, buy["hearsay"].get<std::vector<std::string>>()))));
    if (!buy["left_out"].empty())
        html.element("p", fmt::format("Left out by hand: {}.",
                                      fmt::join(buy["left_out"].get<std::vector<std::string>>(), ", ")));
    write_next(html, buy);
    if (!buy["blocked"].empty()) return write_blocked(html, visit, situation.name(), buy);
    for (const auto& one : buy["not_taken"])
        html.element("p", fmt::format("{} by {} is not taken: days not said. Ask them.", one["item"].get<std::string>(),
                                      one["seller"].get<std::string>()));
    for (const auto& one : buy["shelf_not_used"])
        html.element("p", fmt::format("On the own shelf, and not used: {} for {}: {}.", one["item"].get<std::string>(),
                                      one["role"].get<std::string>(), one["why"].get<std::string>()));
    if (!buy["unsure"].is_null()) return write_unsure(html, view, buy);
    if (buy["order"].is_null()) return write_none(html, view, buy);
    view.order(buy["order"]);
    write_return_cost(html, view, buy["return_cost"]);
    const auto list = html.in("ul");
    html.element("li", buy["proven"].get<bool>() ? "Proven: no order of what is on file costs less."
                                                 : "Not proven: the search was stopped; an order may cost less.");
    view.compared("Next best", buy["next_best"], buy["order"]);
    view.compared("Fewer sellers", buy["fewer_sellers"], buy["order"]);
    view.compared("Sooner", buy["sooner"], buy["order"]);
    view.compared("With every day said", buy["days_said"], buy["order"]);
}

// What the answer is asked with again, when it has been ordered.
Args args_of(const Visit& visit, const std::string& vehicle) {
    Args args{{vehicle}, {}};
    for (const auto& job : visit.all_asked("job")) args.words.push_back(job);
    for (const char* option : {"within", "sellers", "reserve", "second-order"})
        if (!visit.asked(option).empty()) args.options[option] = {visit.asked(option)};
    for (const char* option : {"with", "without", "accept"})
        if (!visit.asked(option).empty()) args.options[option] = visit.all_asked(option);
    if (!visit.asked("no-core").empty()) args.options["no-core"] = {};
    return args;
}

std::string act_ordered(Visit& visit) {
    if (visit.words.empty() || visit.request.path.rfind("/order") != visit.request.path.size() - 6)
        throw Error(Exit::usage, "form: order from the page of an order");
    auto args = args_of(visit, visit.words[0]);
    args.options["ordered"] = {};
    run_command(visit.session, "buy", args);
    return vehicle_address(visit.words[0], "/record");
}

void show_order(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "what to order");
    const auto name = situation->name();
    auto& html = page.main;
    if (visit.all_asked("job").empty()) {
        html.element("p", "Choose a job first: its parts list leads back to the order.");
        write_jobs(html, visit, *situation);
        return write_vehicle_links(html, visit, name);
    }
    try {
        const auto buy = json_answer(visit.session, "buy", args_of(visit, name))["buy"];
        page.invented |= buy["invented"].get<bool>();
        write_buy(html, visit, *situation, buy);
        if (!buy["order"].is_null() || !buy["unsure"].is_null()) write_currency_hint(html, visit);
        if (!buy["order"].is_null()) write_form(html, visit, {"ordered", "", "This is ordered: write it down", {}});
    } catch (const Error& error) {
        if (error.exit() != Exit::usage && error.exit() != Exit::bad_data) throw;
        visit.refused = Refusal{"order", error.all()};
    }
    Fields jobs;
    for (const auto& job : visit.all_asked("job")) jobs.emplace_back("job", job);
    {
        const auto line = html.in("p");
        html.link(address("/vehicle/" + name + "/list", jobs), "The parts list again", {{"class", "button"}});
    }
    if (!visit.refused || visit.refused->form == "order") write_form(html, visit, order_wishes(visit, *situation));
    write_vehicle_links(html, visit, name);
}

}  // namespace

std::vector<Action> order_actions() { return {{"ordered", act_ordered}}; }

std::vector<Route> order_routes() { return {{"/vehicle/*/order", "", show_order}}; }

}  // namespace casebound
