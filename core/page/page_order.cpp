// What to order for the jobs, from whom, and what it costs: the answer of `buy` as a page.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/buy/buy_asked.h"
#include "core/buy/useless_pieces.h"
#include "core/ground/file_stamp.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/html/svg.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_order_form.h"
#include "core/page/page_order_stop.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/say/in_words.h"
#include "core/say/report.h"
#include "core/verdict/parts_list.h"

namespace casebound {

namespace {

// What an answer says, in the words of a page.
class OrderView {
public:
    OrderView(Html& html, const Buying& buying, const BuyAnswer& answer)
        : html_(html), buying_(buying), answer_(answer) {}

    std::string money(std::int64_t cents) const { return money_text(cents, answer_.currency); }

    void order(const Order& order) {
        html_.element("p", fmt::format("{}. {}.", total_text(order, answer_.currency), arrival(order)),
                      {{"class", "total"}});
        if (const auto tax = tax_cents(order, answer_.tax_percent); tax > 0)
            html_.element("p", fmt::format("Tax of {} on top.", money(tax)));
        if (const auto cores = cores_text(order, answer_.currency); !cores.empty()) html_.element("p", cores);
        bars(order);
        html_.element("h2", "From whom");
        lines(order);
    }

    void lines(const Order& order) {
        for (const auto& seller : order.sellers) this->seller(seller);
        spares(order);
    }

    void compared(std::string_view what, const std::optional<Order>& other) {
        if (!other) return;
        std::vector<std::string> sellers;
        for (const auto& seller : other->sellers) sellers.push_back(seller.seller);
        html_.element("li", fmt::format("{}: {}, {} more, {} ({}).", what, money(other->total_cents),
                                        money(other->total_cents - answer_.best.order->total_cents), here(other->days),
                                        fmt::join(sellers, ", ")));
    }

    void plan(std::string_view words, const UnsurePlan& plan, UnsureChoice choice) {
        const bool best = plan.possible() && answer_.unsure->cheapest == choice;
        const auto section = html_.in("section", {{"class", best ? "plan best" : "plan"}});
        html_.element("h3", fmt::format("{}{}", words, best ? " (cheapest)" : ""));
        if (!plan.possible()) {
            html_.element("p", fmt::format("Not possible: {}", plan.reason));
            return;
        }
        html_.element("p",
                      fmt::format("{} expected, {} at worst.", money(plan.expected_cents), money(plan.worst_cents)),
                      {{"class", "total"}});
        const auto same = same_in_all(plan);
        if (plan.order) html_.element("p", fmt::format("Order now: {}.", fmt::join(parts_of(*plan.order), ", ")));
        if (!same.empty()) html_.element("p", fmt::format("Then in every case: {}.", fmt::join(same, ", ")));
        const auto list = html_.in("ul");
        for (const auto& outcome : plan.outcomes) {
            std::string back = then_text(outcome, same);
            for (const auto& sent : outcome.sent_back)
                back += fmt::format("; send back {} to {}", not_needed_text(sent), sent.seller);
            for (const auto& kept : outcome.left_over) back += fmt::format("; left over: {}", not_needed_text(kept));
            html_.element("li", fmt::format("where {} ({} %): {}{}", outcome.name, whole_percent(outcome.share),
                                            money(outcome.total_cents), back));
        }
    }

    // What is ordered, part by part: "2 x Q-QF4-5 from Pier"; not what is at hand already.
    std::vector<std::string> parts_of(const Order& order) const {
        std::vector<std::string> parts;
        for (const auto& seller : order.sellers) {
            if (seller.seller == here_name) continue;
            const auto from = seller.own_shelf ? std::string("off the own shelf") : "from " + seller.seller;
            for (const auto& line : seller.lines)
                parts.push_back(fmt::format("{} x {} {}", line.packs, item_words(buying_, line.item), from));
        }
        return parts;
    }

    static std::string whole_percent(double share) { return plain_number(std::round(share * 100), 0); }

private:
    static std::string here(std::optional<int> days) {
        if (!days) return "days not said";
        return *days == 0 ? "here at once" : fmt::format("here in {}", plural(static_cast<std::size_t>(*days), "day"));
    }

    static std::string arrival(const Order& order) {
        if (!order.days)
            return fmt::format("Arrival not known: days not said by {}", fmt::join(days_not_said_by(order), ", "));
        return fmt::format("Everything is {}{}", here(order.days), *order.days > 0 ? ": start then, not before" : "");
    }

    // What is ordered whichever it turns out to be.
    std::vector<std::string> same_in_all(const UnsurePlan& plan) const {
        if (plan.outcomes.size() < 2 || !plan.outcomes.front().more) return {};
        auto same = parts_of(*plan.outcomes.front().more);
        for (const auto& outcome : plan.outcomes) {
            const auto parts = outcome.more ? parts_of(*outcome.more) : std::vector<std::string>{};
            std::erase_if(same, [&](const std::string& one) { return !among(parts, one); });
        }
        return same;
    }

    std::string then_text(const Outcome& outcome, const std::vector<std::string>& same) const {
        if (!outcome.more) return "";
        auto parts = parts_of(*outcome.more);
        std::erase_if(parts, [&](const std::string& one) { return among(same, one); });
        return parts.empty() ? "" : fmt::format("; then order {}", fmt::join(parts, ", "));
    }

    void bars(const Order& order) {
        std::vector<Bar> bars;
        for (const auto& seller : order.sellers) {
            const auto cents = seller.goods_cents + seller.carriage_cents;
            bars.push_back({seller.seller, money(cents), static_cast<double>(cents) / 100, false});
        }
        write_bars(html_, "The cheapest order by seller, carriage included", bars);
    }

    void seller(const SellerOrder& seller) {
        html_.element("h3", seller.seller);
        const auto carriage = seller.own_shelf       ? std::string("no carriage")
                              : seller.carriage_free ? std::string("carriage free")
                                                     : "carriage " + money(seller.carriage_cents);
        html_.element("p", fmt::format("Goods {}, {}, {}.", money(seller.goods_cents), carriage, here(seller.days)));
        HtmlTable table(html_, {"item", "packs", "price", "for", "terms"}, "From " + seller.seller, false);
        for (const auto& line : seller.lines)
            table.row(
                {item_words(buying_, line.item),
                 fmt::format("{}{}", packs_words(buying_, seller, line),
                             line.padding > 0
                                 ? fmt::format(" ({} only to reach free carriage or the least order)", line.padding)
                                 : ""),
                 money(line.cents), titles_of(buying_, line.serves), about(seller, line)});
    }

    // Its name and its terms: may it go back, what is kept then, the charge for the old part. Padding is said before.
    std::string about(const SellerOrder& seller, OrderLine line) const {
        line.padding = 0;
        auto notes = line_terms(buying_, seller, line, answer_.currency);
        if (const auto title = title_of(buying_, line.item); title != line.item) notes.insert(notes.begin(), title);
        return fmt::format("{}", fmt::join(notes, "; "));
    }

    void spares(const Order& order) {
        std::vector<std::string> texts;
        for (const auto& bought : order.bought) {
            const auto place = title_of(buying_, bought.line);
            if (bought.spare() > 1e-9)
                texts.push_back(
                    fmt::format("Left over for the shelf: {} of {}.", amount_text(bought.spare(), bought.unit), place));
            if (bought.reserve > 0)
                texts.push_back(fmt::format("Needed of {}: {}, of which {} reserve.", place,
                                            amount_text(bought.needed, bought.unit),
                                            amount_text(bought.reserve, bought.unit)));
        }
        write_list(html_, texts);
    }

    Html& html_;
    const Buying& buying_;
    const BuyAnswer& answer_;
};

// The same question as the list asks, and where none is left, what there is to do instead.
void write_next(Html& html, const Buying& buying, const BuyAnswer& answer) {
    if (asks_first(buying)) {
        const auto& attribute = buying.list.next->column->attribute;
        html.element("p", fmt::format("Find out first: {}. {}", attribute.title, attribute.how));
    }
    if (answer.choices.empty()) return;
    html.element("p", "Nothing that can be got at would tell. What is left:");
    const auto list = html.in("ol");
    for (const auto& choice : answer.choices) html.element("li", choice);
}

void write_unsure(Html& html, OrderView& view, const Situation& situation, const Buying& buying,
                  const UnsureAdvice& unsure) {
    {
        const auto row = html.in("p", {{"class", "verdict-line"}});
        write_verdict(html, Verdict::check_first);
        html.element("span", listed_titles(buying.open));
    }
    if (!buying.deciding.empty())
        html.element("p", fmt::format("It hangs on: {}.", attribute_titles(situation, buying.deciding)));
    if (!unsure.find_out_first.possible() && !unsure.most_likely.possible() && !unsure.right_in_every.possible()) {
        html.element("p", fmt::format("No order of what is on file: {}.", unsure.because), {{"class", "total"}});
        return write_not_offered(html, buying);
    }
    html.element("p", unsure.because, {{"class", "total"}});
    html.element("h2", "Three ways to order");
    view.plan("Find out first", unsure.find_out_first, UnsureChoice::find_out_first);
    view.plan(fmt::format("Order for {}", unsure.likely), unsure.most_likely, UnsureChoice::most_likely);
    view.plan("Order what is right in every case", unsure.right_in_every, UnsureChoice::right_in_every);
    for (const auto& [seller, items] : return_not_said(buying))
        for (const auto& item : items)
            html.element("p", fmt::format("{} by {}: return not said: ask first; counted as what cannot go back.", item,
                                          seller));
    if (unsure.most_likely.possible())
        html.element(
            "p",
            fmt::format("An order for the most likely is wrong in {} % of cases, which costs {} on average.",
                        OrderView::whole_percent(unsure.chance_wrong), view.money(unsure.cost_of_being_wrong_cents)));
    const auto& plan = unsure.cheapest == UnsureChoice::most_likely ? unsure.most_likely : unsure.right_in_every;
    if (unsure.cheapest == UnsureChoice::find_out_first || !plan.order) return;
    html.element("h2", "The order of the cheapest way");
    view.order(*plan.order);
}

void write_none(Html& html, const Buying& buying, const PurchaseAnswer& best) {
    if (best.reason.empty() && best.unmet.empty()) {
        html.element("p", "Nothing needs to be ordered for this.");
        return;
    }
    html.element("p", fmt::format("No order: {}.", best.reason));
    std::vector<std::string> texts;
    for (const auto& unmet : best.unmet)
        texts.push_back(
            fmt::format("{}: {} missing: {}", unmet.title, amount_text(unmet.missing, unmet.unit), unmet.reason));
    write_list(html, texts);
    write_not_offered(html, buying);
    const auto line = html.in("p");
    html.link("/offers", "Put an offer on file", {{"class", "button"}});
}

// Of an order that is released although something is in doubt, or assumed.
void write_return_cost(Html& html, const OrderView& view, const ReturnCost& cost) {
    for (const auto& reason : cost.in_doubt)
        html.element("p", fmt::format("In doubt, and this order is right whichever is true: {}.", reason));
    std::string terms = fmt::format("If it has to go back after all, {} of {} are lost", view.money(cost.lost_cents),
                                    view.money(cost.total_cents));
    if (!cost.cannot_go_back.empty()) terms += fmt::format("; {} cannot go back", fmt::join(cost.cannot_go_back, ", "));
    if (!cost.not_said.empty())
        terms += fmt::format("; of {} the seller has not said whether it may: ask first",
                             fmt::join(cost.not_said, ", "));
    html.element("p", terms + ".");
}

bool nothing_left(const BuyAnswer& answer) { return answer.ready() && bought_from(*answer.best.order).empty(); }

void write_buy(Html& html, const Visit& visit, const BuyAsked& asked) {
    const auto& [situation, wish, buying, answer] = asked;
    OrderView view(html, buying, answer);
    if (!buying.list.hearsay.empty())
        html.element("p", fmt::format("Right only if this is true: {}. Look for yourself before ordering.",
                                      hearsay_joined(told_words(*situation, buying.list.hearsay))));
    if (!buying.left_out.empty())
        html.element("p", fmt::format("Left out by hand: {}.", listed_titles(buying.left_out)));
    if (!buying.fitted.empty()) html.element("p", fmt::format("Fitted already: {}.", fmt::join(buying.fitted, ", ")));
    if (!buying.left_in.empty())
        html.element("p", fmt::format("Looked at and left in: {}.", fmt::join(buying.left_in, ", ")));
    for (const auto& useless : useless_words(buying, visit.session.catalog())) html.element("p", useless);
    write_next(html, buying, answer);
    if (!buying.blocked.empty()) return write_blocked(html, visit, situation->name(), buying);
    for (const auto& [seller, items] : not_taken(buying, answer))
        for (const auto& item : items)
            html.element("p", fmt::format("{} by {} is not taken: days not said. Ask them.", item, seller));
    for (const auto& one : answer.shelf_left)
        html.element("p", fmt::format("On the own shelf, and not used: {} for {}: {}.", one.item, one.line, one.why));
    if (answer.unsure) return write_unsure(html, view, *situation, buying, *answer.unsure);
    if (!answer.best.order) return write_none(html, buying, answer.best);
    if (nothing_left(answer)) {
        html.element("p", "Nothing is left to order: all of it is on order or here.", {{"class", "total"}});
        return view.lines(*answer.best.order);
    }
    view.order(*answer.best.order);
    if (answer.return_cost) write_return_cost(html, view, *answer.return_cost);
    const auto list = html.in("ul");
    html.element("li", answer.best.proven ? "Proven: no order of what is on file costs less."
                                          : "Not proven: the search was stopped; an order may cost less.");
    view.compared("Next best", answer.runner_up);
    view.compared("Fewer sellers", answer.fewer);
    view.compared("Sooner", answer.sooner);
    view.compared("With every day said", answer.days_said);
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

// Of all that stands there to be ordered, with its terms; "": nothing does. What changes a word of it changes the mark.
std::string order_mark(const BuyAsked& asked) {
    const auto& [situation, wish, buying, answer] = asked;
    if (!answer.ready() || nothing_left(answer)) return "";
    const auto& order = *answer.best.order;
    auto text = fmt::format("{} {}", order.total_cents, answer.currency);
    for (const auto& seller : order.sellers) {
        text += fmt::format("\n{}: {} {}", seller.seller, seller.carriage_cents, here_text(seller.days));
        for (const auto& line : seller.lines)
            text += fmt::format("\n{} {} {} {} {}", line.packs, line.item, line.cents, fmt::join(line.serves, " "),
                                fmt::join(line_terms(buying, seller, line, answer.currency), "; "));
    }
    return sha256_of(text);
}

// What was shown is what is written down, or nothing: an offer may have changed meanwhile.
std::string act_ordered(Visit& visit) {
    if (visit.words.empty() || visit.request.path.rfind("/order") != visit.request.path.size() - 6)
        throw Error(Exit::usage, "form: order from the page of an order");
    auto args = args_of(visit, visit.words[0]);
    Transaction compared_and_written(visit.session.shop());
    const auto now = order_mark(buy_asked(visit.session, args));
    if (now.empty() || now != visit.typed("shown"))
        throw Error(Exit::usage, "This is not the order that was shown: it has changed since. Look at it again.");
    args.options["ordered"] = {};
    run_command(visit.session, "buy", args);
    compared_and_written.commit();
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
        const auto buy = buy_asked(visit.session, args_of(visit, name));
        page.invented |= buy.buying.list.invented;
        write_buy(html, visit, buy);
        if (buy.answer.best.order || buy.answer.unsure) write_currency_hint(html, visit);
        if (const auto mark = order_mark(buy); !mark.empty())
            write_form(html, visit, {"ordered", "", "This is ordered: write it down", {}, {}, {{"shown", mark}}});
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
