// What stands of the work on a vehicle, in a few sentences: on the yard beside it, and first on its own page.
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/buy/order_text.h"
#include "core/cover/purchase.h"
#include "core/page/page_vehicle.h"
#include "core/sheets/check_off.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

// The last thing that happened to each place.
std::map<std::string, LineEvent> last_events(Session& session, const std::string& vehicle) {
    std::map<std::string, LineEvent> last;
    for (auto& event : ShopRecords(session.shop()).events(vehicle))
        if (event.stands && event.event != "core_returned") last.insert_or_assign(event.role, std::move(event));
    return last;
}

std::string ordered_words(const std::string& title, const LineEvent& event) {
    return fmt::format("{} ({}{}{})", title, event.item.empty() ? "" : event.item + ", ",
                       event.seller.empty() ? "" : event.seller + ", ", event.date);
}

// What the check-off comes to, by what is to be done next.
struct State {
    std::vector<std::string> to_order, waits, coming, due;
};

State state_of(Session& session, const std::string& vehicle) {
    State state;
    const auto last = last_events(session, vehicle);
    std::set<std::string> said;
    for (const auto& line : check_off(session, vehicle)) {
        const auto& title = line.title.empty() ? line.role : line.title;
        if (!line.return_by.empty() && said.insert(line.item + line.return_by).second)
            state.due.push_back(fmt::format("{} may go back until {}", line.item, line.return_by));
        if (!line.core_by.empty() && said.insert(line.item + line.core_by).second)
            state.due.push_back(fmt::format("old part of {} back by {}", line.item, line.core_by));
        const auto event = last.find(line.role);
        if (event != last.end() && event->second.event == "ordered")
            state.coming.push_back(ordered_words(title, event->second));
        if (line.open_job && line.to_order) (line.blocked ? state.waits : state.to_order).push_back(title);
    }
    return state;
}

}  // namespace

std::vector<StartedJob> jobs_begun(Session& session, const std::string& vehicle) {
    const ShopRecords records(session.shop());
    std::set<std::int64_t> closed;
    for (const auto& one : records.closings(vehicle)) closed.insert(one.job);
    std::vector<StartedJob> open;
    for (auto& job : records.jobs(vehicle))
        if (!closed.contains(job.id)) open.push_back(std::move(job));
    return open;
}

std::vector<std::string> state_of_work(Session& session, const std::string& vehicle) {
    std::vector<std::string> said;
    const auto say = [&](std::string_view what, const std::vector<std::string>& of) {
        if (!of.empty()) said.push_back(fmt::format("{}: {}.", what, fmt::join(of, ", ")));
    };
    std::vector<std::string> begun;
    for (const auto& job : jobs_begun(session, vehicle))
        begun.push_back(fmt::format("{}, begun {}", job_title(session, job.job), job.started));
    say("Open", begun);
    const auto state = state_of(session, vehicle);
    say("To order", state.to_order);
    say("Waits for an answer", state.waits);
    say("On its way", state.coming);
    say("Due", state.due);
    if (!begun.empty() && said.size() == 1) said.emplace_back("Nothing is left to order.");
    if (const auto spent = ShopRecords(session.shop()).spent_cents(vehicle); spent != 0)
        said.push_back(fmt::format("Cost so far: {}.", money_text(spent, currency_of(session))));
    return said;
}

void write_open_work(Html& html, Session& session, const Situation& situation) {
    const auto begun = jobs_begun(session, situation.name());
    if (begun.empty()) return;
    const auto section = html.in("section", {{"class", "open-work"}, {"aria-labelledby", "open-work"}});
    html.element("h2", "Open job", {{"id", "open-work"}});
    write_list(html, state_of_work(session, situation.name()), "state");
    Fields jobs;
    for (const auto& job : begun) jobs.emplace_back("job", job.job);
    const auto line = html.in("p", {{"class", "stretch"}});
    html.link(address(vehicle_address(situation.name(), "/list"), jobs), "Its parts list");
    html.link(vehicle_address(situation.name(), "/record"), "Write down what was done");
}

}  // namespace casebound
