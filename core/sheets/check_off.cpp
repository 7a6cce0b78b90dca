#include "core/sheets/check_off.h"

#include <algorithm>
#include <memory>
#include <optional>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/buy/looked_at.h"
#include "core/buy/needs.h"
#include "core/buy/rounding.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/say/report.h"
#include "core/session/typed_names.h"
#include "core/shop/shop_records.h"
#include "core/work/item_doubt.h"
#include "core/work/open_work.h"

namespace casebound {

namespace {

std::string state_words(const LineEvent& event) {
    if (event.event == "matched") return "matches the old one";
    if (event.event == "mismatched") return "DOES NOT MATCH: send it back";
    if (event.event == "core_returned") return "old part returned";
    return spaced(event.event);
}

std::string doubt_words(const ItemDoubt& doubt) { return (doubt.unfit ? "BUT BY THE CATALOG: " : "") + doubt.words; }

// What is asked of a line that nothing has happened to yet.
std::string state_of(const ListLine& line) {
    if (line.answer.verdict == Verdict::none_needed) return "none needed";
    if (!line.must_order())
        return line.reach == Reach::look_first ? "look first" : "look first: goes back unless damaged";
    return line.blocks() ? "TO ORDER, " + std::string(verdict_words(line.answer.verdict)) : "TO ORDER";
}

class CheckOff {
public:
    CheckOff(Session& session, const std::string& vehicle)
        : session_(session), vehicle_(vehicle), records_(session.shop()),
          fitted_too_(fitted_for_open_jobs(session, vehicle)) {
        for (auto& event : records_.events(vehicle))
            if (event.stands) events_.push_back(std::move(event));
    }

    std::vector<CheckOffLine> lines() {
        const auto open = jobs_not_closed(session_, vehicle_);
        for (const auto& job : open) open_.insert(job.id);
        for (const auto& job : open) add_job(job);
        for (const auto& event : events_) add_other(event);
        return std::move(lines_);
    }

private:
    std::string title_of_job(const std::string& job) const {
        const auto& rows = session_.catalog().facts().rows("jobs", "job", job);
        return rows.empty() ? job : std::string(rows.front().text("title"));
    }

    // An event of no job, or of another that is open, belongs to the line of its role in every open job.
    std::vector<const LineEvent*> events_of(std::int64_t job, const std::string& role) const {
        std::vector<const LineEvent*> found;
        for (const auto& event : events_)
            if (event.role == role && is_of_open(event)) found.push_back(&event);
        for (const auto& one : fitted_too_)
            if (one.open_job == job && one.event.role == role) found.push_back(&one.event);
        return found;
    }

    bool is_of_open(const LineEvent& event) const { return !event.job || open_.contains(*event.job); }

    // Its kit came, was fitted or goes back as one.
    std::vector<const LineEvent*> events_of_kit(const std::vector<std::string>& kits) const {
        std::vector<const LineEvent*> found;
        for (const auto& event : events_)
            if (event.event != "fitted" && event.event != "left_over" && is_of_open(event) &&
                std::find(kits.begin(), kits.end(), event.item) != kits.end())
                found.push_back(&event);
        return found;
    }

    // So much is there, or on its way, that has not gone back: what went back is wanted again. What was written down
    // without a quantity is all that is needed.
    struct There {
        double wanted{};  // 0: whatever came is enough
        double ordered{}, came{}, back{}, unfit{}, in_place{};
        bool counted = true, done{};
        bool add(const LineEvent& event) {
            const double quantity = event.quantity.value_or(1);
            if (event.event == "ordered") ordered += quantity;
            if (event.event == "received") came += quantity;
            if (event.event == "ordered" || event.event == "received") counted = counted && event.quantity;
            if (event.event == "returned") back += event.quantity.value_or(std::max({1.0, ordered, came}) - back);
            if (event.event == "mismatched") unfit += quantity;
            if (event.event == "fitted") in_place += event.quantity.value_or(std::max(wanted, 1.0));
            done = done || event.event == "left_over" || (in_place > 0 && in_place + rounding >= wanted);
            if (event.event == "mismatched" || event.event == "returned") return is_enough() || (done && unfit == 0);
            return done || (ordered == 0 && came == 0 && in_place == 0) || is_enough();
        }
        double left() const { return std::max(ordered, came) - std::max(back, unfit); }
        bool is_enough() const { return left() > 0 && (!counted || left() + rounding >= wanted); }
    };

    // What happened to a line, for what follows from it; its words are for people.
    struct Happened {
        std::string last;  // the newest event
        bool ever_fitted{}, looked_at{}, found_bad{};
        bool any() const { return !last.empty(); }
        bool gone() const { return last == "returned" || last == "left_over" || last == "core_returned"; }
    };

    // `wanted`: how much of it is enough; 0: whatever came.
    static Happened tell_events(CheckOffLine& line, const std::vector<const LineEvent*>& events, double wanted) {
        There there{wanted};
        Happened happened;
        const bool needed = line.to_order;
        for (const auto* event : events) {
            line.so_far += fmt::format("{}{} {}", line.so_far.empty() ? "" : ", ", spaced(event->event), event->date);
            line.state = state_words(*event);
            happened.last = event->event;
            happened.ever_fitted = happened.ever_fitted || event->event == "fitted";
            const bool is_there = there.add(*event);
            if (event->event != "core_returned") line.to_order = !is_there && (needed || event->event == "mismatched");
            if (!event->item.empty()) line.item = event->item;
            if (!event->return_by.empty()) line.return_by = event->return_by;
            if (!event->core_by.empty()) line.core_by = event->core_by;
            if (event->event == "fitted" || event->event == "returned") line.return_by.clear();
            if (event->event == "core_returned") line.core_by.clear();
        }
        line.fitted = happened.last == "fitted";
        return happened;
    }

    void add_line(const StartedJob& job, const ListLine& listed) {
        CheckOffLine line{job.id,
                          job.job,
                          listed.answer.role,
                          listed.answer.title,
                          need_text(listed),
                          state_of(listed),
                          {},
                          {},
                          {},
                          {},
                          {},
                          false,
                          listed.blocks(),
                          true,
                          false};
        line.job_title = title_of_job(job.job);
        line.to_order = listed.must_order() && listed.answer.verdict != Verdict::none_needed;
        const auto own = events_of(job.id, line.role);
        const auto in_kit = own.empty() ? events_of_kit(listed.kits) : std::vector<const LineEvent*>{};
        auto happened = tell_events(line, own.empty() ? in_kit : own, own.empty() ? 0 : listed.quantity_low);
        if (!in_kit.empty())
            line.state += fmt::format(" in kit {}", line.item), line.return_by.clear(), line.core_by.clear();
        tell_looked_at(job, listed, line, happened);
        finish(line, listed, happened);
        told_of_.insert({job.id, line.role});
        lines_.push_back(std::move(line));
    }

    // What was found sound stays in, unless it is used once; what was found bad is to be replaced, also where it is only
    // looked at first.
    void tell_looked_at(const StartedJob& job, const ListLine& listed, CheckOffLine& line, Happened& happened) const {
        for (const auto& record : records_.records(vehicle_)) {
            if (!record.stands || record.what != "looked_at" || record.role != line.role ||
                (record.job && *record.job != job.id))
                continue;
            line.so_far += fmt::format("{}looked at{}, not replaced {}", line.so_far.empty() ? "" : ", ",
                                       record.state.empty() ? "" : ": " + record.state, record.date);
            happened.found_bad = found_bad(record);
            happened.looked_at = !happened.found_bad && !goes_in_new(listed);
            if (happened.looked_at) line.state = "looked at", line.to_order = line.fitted = false;
            else if (happened.found_bad && !happened.any())
                line.state = "TO ORDER, " + record.state, line.to_order = true;
        }
    }

    // A part that does not fit is not done, whatever was written down.
    void finish(CheckOffLine& line, const ListLine& listed, const Happened& happened) {
        const bool needed = happened.found_bad ||
                            (listed.must_order() && listed.answer.verdict != Verdict::none_needed);
        const bool under_way = happened.any() && !happened.gone();
        const bool done = happened.looked_at || (happened.ever_fitted && !line.to_order);
        line.unfinished = !done && (needed || under_way);
        if (!happened.any() || (happened.gone() && !happened.looked_at)) return;
        if (companions_.contains({line.role, line.item})) return;
        const auto doubt = item_doubt(*situation_, listed.answer, line.item);
        if (!doubt) return;
        line.doubt = doubt_words(*doubt);
        line.to_order |= doubt->unfit && needed;
        line.unfinished = true, line.fitted = false;
    }

    // A pack that was dropped must not keep the person from writing down what was done.
    void add_job(const StartedJob& job) {
        try {
            if (!situation_) situation_ = session_.situation(vehicle_);
            const auto& places = situation_->places();
            const auto list = make_parts_list(places, {job.job});
            for (const auto& line : list.lines) find_companions(places, line);
            for (const auto& line : list.lines) add_line(job, line);
        } catch (const Error&) {}
    }

    // What goes in with a part that stands in and was ordered or came: right in its place beside that one.
    void find_companions(const Places& places, const ListLine& line) {
        for (const auto& part : line.answer.with_others) {
            const auto members = places.members(line.answer, part);
            const bool taken = std::any_of(events_.begin(), events_.end(), [&](const LineEvent& event) {
                return event.role == line.answer.role &&
                       std::any_of(members.begin(), members.end(),
                                   [&](const Member& member) { return member.item == event.item; });
            });
            if (!taken) continue;
            for (const auto& one : part.goes_with)
                for (const auto& member : places.members_beside(one)) companions_.insert({one.role, member.item});
        }
    }

    void add_other(const LineEvent& event) {
        for (const auto& [job, role] : told_of_)
            if (role == event.role && (!event.job || *event.job == job)) return;
        const auto job = event.job.value_or(0);
        if (!told_of_.insert({job, event.role}).second) return;
        CheckOffLine line{
            job,   {},    event.role, place_title(session_.catalog(), event.role), "-", {}, {}, {}, {}, {}, {}, false,
            false, false, false};
        for (const auto& started : ShopRecords(session_.shop()).jobs(vehicle_))
            if (started.id == job) line.job_key = started.job, line.job_title = title_of_job(started.job);
        std::vector<const LineEvent*> events;
        for (const auto& other : events_)
            if (other.role == event.role && other.job == event.job) events.push_back(&other);
        tell_events(line, events, 0);
        if (const auto doubt = item_doubt(session_, vehicle_, line.role, line.item))
            line.doubt = doubt_words(*doubt), line.fitted = false;
        lines_.push_back(std::move(line));
    }

    Session& session_;
    const std::string& vehicle_;
    ShopRecords records_;
    std::set<std::int64_t> open_;  // jobs
    std::vector<FittedFor> fitted_too_;
    std::vector<LineEvent> events_;
    std::vector<CheckOffLine> lines_;
    std::unique_ptr<Situation> situation_;
    std::set<std::pair<std::int64_t, std::string>> told_of_;
    std::set<std::pair<std::string, std::string>> companions_;  // role and item
};

}  // namespace

std::string CheckOffLine::state_with_doubt() const { return doubt.empty() ? state : state + "; " + doubt; }

std::vector<CheckOffLine> check_off(Session& session, const std::string& vehicle) {
    return CheckOff(session, vehicle).lines();
}

std::string still_to_order_text(const std::vector<CheckOffLine>& lines) {
    std::vector<std::string> roles;
    bool open = false;
    for (const auto& line : lines) {
        open |= line.open_job;
        if (line.to_order && line.open_job) roles.push_back(line.title.empty() ? line.role : line.title);
    }
    if (!roles.empty()) return wrapped(fmt::format("Still to order: {}.", fmt::join(roles, ", ")), 0, 2);
    return open ? "Nothing is left to order.\n" : "";
}

std::string check_off_text(const std::vector<CheckOffLine>& lines) {
    if (lines.empty()) return wrapped("No job is started and nothing is checked off yet.");
    std::string out, job;
    Table table({"place", "need", "state", "so far"});
    const auto end_job = [&] {
        if (!job.empty()) out += job + "\n" + table.text(), table = Table({"place", "need", "state", "so far"});
    };
    for (const auto& line : lines) {
        const auto title = line.job ? fmt::format("{} (job {})", named(line.job_title, line.job_key), line.job)
                                    : std::string("of no job");
        if (title != job) end_job(), job = title;
        table.row({named(line.title.empty() ? line.role : line.title, line.role), line.need, line.state, line.so_far});
        if (!line.doubt.empty()) table.under(line.doubt);
    }
    end_job();
    return still_to_order_text(lines) + out;
}

Json json_of(const CheckOffLine& line) {
    return {{"job", line.job ? Json(line.job) : Json(nullptr)},
            {"job_key", line.job_key},
            {"role", line.role},
            {"title", line.title},
            {"need", line.need},
            {"state", line.state_with_doubt()},
            {"so_far", line.so_far},
            {"item", line.item},
            {"return_by", line.return_by},
            {"core_by", line.core_by},
            {"to_order", line.to_order},
            {"blocked", line.blocked}};
}

}  // namespace casebound
