#include "core/verdict/parts_list.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/verdict/deciding_columns.h"
#include "core/verdict/job_reach.h"
#include "core/verdict/list_kits.h"
#include "core/verdict/list_sum.h"
#include "core/verdict/open_worlds.h"

namespace casebound {

namespace {

constexpr std::array<std::string_view, 4> reaches{"needs", "consumes", "disturbs", "look_first"};

Reach reach_from(std::string_view text) {
    return static_cast<Reach>(std::find(reaches.begin(), reaches.end(), text) - reaches.begin());
}

// Rows of a job that may concern this line: unconditional ones, or ones that name it.
std::vector<Row> rows_of_job(const Judge& judge, std::string_view table, const std::string& job) {
    auto rows = judge.catalog().facts().rows(table, "job", job);
    std::erase_if(rows,
                  [&](const Row& row) { return !row.text("line").empty() && row.text("line") != judge.line().key; });
    return rows;
}

Bits on_line(const Judge& judge, std::string_view condition) {
    return judge.line().set.where(parse_condition(condition));
}

std::string where_text(const Judge& judge, const Bits& part, const std::vector<std::string>& speaks_of) {
    const auto& left = judge.narrowing().left;
    return pieces_text(describe_in_pieces(judge.line().set, part & left, left, speaks_of));
}

// What a domain wants found out, as a mechanic reads it.
std::string question_words(const Judge& judge, const std::string& name) {
    const auto* attribute = judge.catalog().vocabularies().attribute(name);
    return attribute ? fmt::format("{}. {}", attribute->title, attribute->how) : name;
}

void add_once(std::vector<std::string>& list, std::string_view text) {
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end()) list.emplace_back(text);
}

// May the old one go back? A job says so; a domain's "never" of a part that may be ordered overrules it later.
void settle_reuse(ListLine& line, Reach reach, std::string job_says) {
    line.reach = reach;
    line.reuse = std::move(job_says);
}

struct Builder {
    const Places& places;
    const Judge& judge = places.judge();
    PartsList list{};
    std::map<std::string, std::size_t> at{};    // role -> line
    std::map<std::string, JobReach> reached{};  // by role

    void add_job(const std::string& job) {
        const auto& facts = judge.catalog().facts();
        const auto found = facts.rows("jobs", "job", job);
        if (found.empty()) {
            const auto near = judge.catalog().near(job, "jobs");
            throw Error(Exit::usage, fmt::format("{}: no such job: {}", job,
                                                 near.empty() ? "`casebound list VEHICLE` names them all"
                                                              : fmt::format("did you mean {}?", near.front())));
        }
        list.jobs.push_back(job);
        list.titles.emplace_back(found[0].text("title"));
        for (const auto& row : rows_of_job(judge, "job_roles", job)) add_role(row, job);
        for (const auto& row : rows_of_job(judge, "cautions", job))
            if (on_line(judge, row.text("condition")).meets(judge.narrowing().left))
                add_caution({std::string(row.text("caution")), row_source(row)});
    }

    void add_caution(Caution caution) {
        const bool said = std::any_of(list.cautions.begin(), list.cautions.end(),
                                      [&](const Caution& one) { return one.text == caution.text; });
        if (!said) list.cautions.push_back(std::move(caution));
    }

    void add_role(const Row& row, const std::string& job) {
        const Bits applies = on_line(judge, row.text("condition"));
        if (!applies.meets(judge.narrowing().left))
            for (const auto* fact : places.hearsay_against(applies)) add_once(list.hearsay, fact->said());
        if (!applies.meets(may_be_true(judge.narrowing()))) return;
        const std::string role{row.text("role")};
        const auto reach = reach_from(row.text("reach"));
        const bool of_line = !row.text("line").empty();
        reached[role].add(job, of_line, reach, applies);
        const auto [found, fresh] = at.try_emplace(role, list.lines.size());
        if (fresh) {
            ListLine line;
            line.answer = places.role(role);
            settle_reuse(line, reach, std::string(row.text("reuse")));
            list.lines.push_back(std::move(line));
        }
        auto& line = list.lines[found->second];
        // What is said of this line outranks what the job says of every line; of two jobs the stronger reach counts.
        const bool refines = of_line && line.jobs == std::vector<std::string>{job};
        const bool whole = applies.contains(judge.narrowing().left);
        if (!fresh && ((refines && whole) || reach < line.reach))
            settle_reuse(line, reach, std::string(row.text("reuse")));
        if (!fresh && refines) line.notes.clear();
        add_once(line.jobs, job);
        add_once(line.notes, row.text("note"));
    }

    // A place that only a doubt may bring stays in the list where it would be ordered then.
    void leave_out_the_unreached() {
        const auto& left = judge.narrowing().left;
        std::erase_if(list.lines, [&](const ListLine& line) {
            const auto& reach = reached.at(line.answer.role);
            return !reach.all().meets(left) && !reach.must().meets(may_be_true(judge.narrowing()));
        });
        at.clear();
        for (std::size_t i = 0; i < list.lines.size(); ++i) at[list.lines[i].answer.role] = i;
    }

    void leave_out_what_no_doubt_brings() {
        std::erase_if(list.lines, [&](const ListLine& line) {
            return !line.must_order() && !reached.at(line.answer.role).all().meets(judge.narrowing().left);
        });
    }

    // Where a part that may be ordered never goes back; what stands in counts where nothing is recorded to fit.
    Bits never_again(const ListLine& line) const {
        Bits direct(judge.line().set.size()), never = direct, by_others = direct;
        for (const auto& group : line.answer.groups) {
            const Bits on = group.on_line - group.doubted_line;
            if (group.stands_in_for.empty()) direct |= on;
            if (group.never_again) (group.stands_in_for.empty() ? never : by_others) |= on;
        }
        return never | (by_others - direct);
    }

    // Is it ordered on all of what is left, on some, or on none? And would a doubt change that?
    void settle_reach(ListLine& line) {
        const auto& left = judge.narrowing().left;
        auto& reach = reached.at(line.answer.role);
        reach.never_again(never_again(line));
        const Bits must = reach.must();
        const Bits ordered = line.answer.none_line.size() ? must - line.answer.none_line : must;
        const bool everywhere = ordered.contains(left), nowhere = !ordered.meets(left);
        if (!ordered.meets(may_be_true(judge.narrowing()))) line.doubts.clear();  // of what is never ordered
        for (const auto& doubt : judge.narrowing().doubts) {
            const bool changes = (everywhere && !ordered.contains(doubt.worlds)) ||
                                 (nowhere && ordered.meets(doubt.worlds));
            const bool said = std::any_of(line.doubts.begin(), line.doubts.end(), [&](const Doubt& one) {
                return one.attribute == doubt.attribute && one.reason == doubt.reason;
            });
            if (changes && !said) line.doubts.push_back(doubt);
        }
        const bool by_doubt = nowhere && !line.doubts.empty();
        const bool is_ordered = !nowhere || (by_doubt && ordered.meets(may_be_true(judge.narrowing())));
        const Bits otherwise = everywhere ? judge.line().set.all() - must : ordered;
        if (everywhere || nowhere)
            for (const auto* fact : places.hearsay_against(otherwise)) add_once(list.hearsay, fact->said());
        line.applies = is_ordered ? must : reach.all();
        const Bits not_asked_for = left - must;  // where the job does not order it; elsewhere there is no such place
        line.reach = reach.strongest(!nowhere ? left : is_ordered ? must : not_asked_for.any() ? not_asked_for : left);
        if (line.applies.meets(left) && !line.applies.contains(left))
            line.only_where = where_text(judge, line.applies, line.answer.speaks_of());
    }

    // A job that needs only what is due by age or distance mends nothing.
    bool is_cure(const std::string& job) const {
        const auto rows = rows_of_job(judge, "job_roles", job);
        const auto needs = [](const Row& row) { return reach_from(row.text("reach")) == Reach::needs; };
        const auto upkeep = [&](const Row& row) {
            const auto* role = declared_role(judge.plugins(), row.text("role"));
            return !needs(row) || (role && role->upkeep);
        };
        return std::none_of(rows.begin(), rows.end(), needs) || !std::all_of(rows.begin(), rows.end(), upkeep);
    }

    // What is brought by another part is asked for by every job.
    bool of_cure(const ListLine& line) const {
        const auto& jobs = line.jobs.empty() ? list.jobs : line.jobs;
        return std::any_of(jobs.begin(), jobs.end(), [&](const std::string& job) { return is_cure(job); });
    }

    // What stops every cure holds the line; a hold that asks for nothing more is not said beside it.
    void hold(ListLine& line) const {
        const auto& all = judge.holds();
        if (all.empty()) return;
        const bool cure = of_cure(line);
        for (const auto& held : all)
            if (held.concerns(line.answer.role, list.jobs, cure)) line.held.push_back(held);
        std::vector<std::string> stops;
        for (const auto& held : line.held)
            if (held.hold.every_cure)
                stops.insert(stops.end(), held.hold.attributes.begin(), held.hold.attributes.end());
        std::erase_if(line.held, [&](const HeldOrder& held) {
            const auto& asks = held.hold.attributes;
            return !held.hold.every_cure && !asks.empty() &&
                   std::all_of(asks.begin(), asks.end(), [&](const std::string& one) {
                       return std::find(stops.begin(), stops.end(), one) != stops.end();
                   });
        });
    }

    void offer(ListLine& line, const GroupAnswer& group) const {
        line.options.push_back(option(line, group));
        line.quantity_low = line.quantity_high == 0 ? group.quantity_low
                                                    : std::min(line.quantity_low, group.quantity_low);
        line.quantity_high = std::max(line.quantity_high, group.quantity_high);
        line.amount_open = line.amount_open || group.amount_open;
        if (line.answer.unit == "L" && line.quantity_high > 0) line.reserve = spill_reserve_l(line.quantity_high);
        if (group.never_again) line.reuse = "never";
    }

    // What stands in for one group here and for another there, and so fits, without standing in for either outright.
    void offer_by_several_ways(ListLine& line) const {
        for (const auto& group : line.answer.groups) {
            if (group.verdict != Verdict::fits || group.stands_in_for.empty()) continue;
            const bool listed = std::any_of(line.stand_ins.begin(), line.stand_ins.end(), [&](const SwapAnswer& one) {
                return one.offered_group == group.key && one.verdict == SwapVerdict::yes && one.also_requires.empty();
            });
            if (!listed) offer(line, group);
        }
    }

    void fill(ListLine& line) {
        const auto& left = judge.narrowing().left;
        hold(line);
        line.doubts = places.doubts(line.answer);
        settle_reach(line);
        if (line.answer.verdict == Verdict::check_first) {
            if (line.answer.none_line.meets(left))
                line.none_where = where_text(judge, line.answer.none_line, line.answer.speaks_of());
            if (line.answer.blank.any())
                line.blank_where = where_text(judge, line.answer.blank, line.answer.speaks_of());
        }
        const bool direct = std::any_of(
            line.answer.groups.begin(), line.answer.groups.end(),
            [](const GroupAnswer& one) { return one.stands_in_for.empty() && one.verdict == Verdict::fits; });
        for (const auto& group : line.answer.groups) {
            if (group.on.none() || (line.answer.verdict == Verdict::fits && group.verdict != Verdict::fits)) continue;
            // What stands in is listed with what it stands in for, where that fits.
            if (!group.stands_in_for.empty() && (direct || group.verdict != Verdict::fits)) continue;
            offer(line, group);
            for (const auto& question : group.questions)
                if (group.verdict == Verdict::check_first || group.doubted_line.meets(left))
                    add_once(list.domain_questions, question_words(judge, question));
        }
        for (const auto& part : line.answer.parts) offer(line, part);
        if (!line.answer.plain())
            for (const auto& part : line.answer.with_others) offer(line, part);
        if (!line.answer.exact_only) add_stand_ins(line);
        if (direct) offer_by_several_ways(line);
        if (line.answer.verdict == Verdict::not_recorded && line.must_order())
            add_once(line.notes, on_the_old_one(line.answer.role));
    }

    // What to read off the old part where nobody has said: what its domain compares parts of this place by.
    std::string on_the_old_one(std::string_view place) const {
        const auto* role = declared_role(judge.plugins(), place);
        std::string text = "on the old one: the number on it";
        if (role)
            for (const auto& deciding : role->decided_by.columns)
                if (deciding.column != "group_key") text += "; " + deciding.title;
        return text;
    }

    // Of two ways the one that needs nothing beside it.
    static bool better(const SwapAnswer& one, const SwapAnswer& other) {
        return std::pair(one.verdict, !one.also_requires.empty()) <
               std::pair(other.verdict, !other.also_requires.empty());
    }

    // What stands in for any group that fits, each once, by the best way.
    void add_stand_ins(ListLine& line) const {
        for (const auto& group : line.answer.groups) {
            if (group.verdict != Verdict::fits || !group.stands_in_for.empty()) continue;
            for (auto& swap : places.stand_ins_for(line.answer, group)) {
                const auto known = std::find_if(line.stand_ins.begin(), line.stand_ins.end(), [&](const auto& one) {
                    return one.offered_group == swap.offered_group;
                });
                if (known == line.stand_ins.end()) line.stand_ins.push_back(std::move(swap));
                else if (better(swap, *known)) *known = std::move(swap);
            }
        }
        const bool with = std::any_of(line.stand_ins.begin(), line.stand_ins.end(),
                                      [](const SwapAnswer& one) { return !one.also_requires.empty(); });
        if (with && line.answer.with_others.empty()) places.add_with_others(line.answer);
    }

    static double with_reserve(const ListLine& line, const GroupAnswer& group) {
        if (group.amount_open) return 0;  // no pack is a guess
        return group.quantity_high + (line.answer.unit == "L" ? spill_reserve_l(group.quantity_high) : 0);
    }

    Option option(const ListLine& line, const GroupAnswer& group) const {
        Option option;
        option.group = group.key;
        option.title = group.title;
        option.only_part = group.only_part;
        option.goes_with = group.goes_with;
        for (const auto& member : judge.catalog().members(group.id))
            if (member.withdrawn.empty() && member.basis == Basis::claimed) option.claimed.push_back(member);
        option.members = places.members(line.answer, group);
        if (group.on != judge.narrowing().left) option.where = where_text(judge, group.on, line.answer.speaks_of());
        option.share = judge.line().set.weight(group.on) / judge.line().set.weight(judge.narrowing().left);
        if (line.answer.unit != "each") option.containers = whole_containers(with_reserve(line, group), option.members);
        return option;
    }

    // A place that the job itself only looks at, or disturbs, is filled anew with the part that needs it; whatever the job
    // says of the old one, it is brought new.
    void need_beside(ListLine& line, const Companion& companion) {
        const bool listed = line.must_order();
        settle_reuse(line, listed ? line.reach : Reach::needs, "never");
        if (listed) return;
        reached[companion.role].add("", false, Reach::needs, judge.line().set.all());
        line.companion_of = companion.reason;
    }

    // A part that fits may need another that no job names.
    void add_companions() {
        for (std::size_t i = 0; i < list.lines.size(); ++i) {
            const auto* best = list.lines[i].answer.best();
            if (!best || list.lines[i].reach == Reach::look_first) continue;  // nothing goes in where one only looks
            const auto companions = best->companions;                         // copied: the lines may move
            for (const auto& companion : companions) {
                if (const auto known = at.find(companion.role); known != at.end()) {
                    need_beside(list.lines[known->second], companion);
                    continue;
                }
                ListLine line;
                line.answer = places.role(companion.role);
                settle_reuse(line, Reach::needs, "never");  // it is brought new
                reached[companion.role].add("", false, Reach::needs, judge.line().set.all());
                line.companion_of = companion.reason;
                at[companion.role] = list.lines.size();
                list.lines.push_back(std::move(line));
            }
        }
    }

    void add_stays() {
        for (const auto& line : list.lines)
            for (const auto& row : judge.catalog().facts().rows("stays_behind", "role", line.answer.role)) {
                if (row.text("line") != judge.line().key) continue;
                Stay stay{line.answer.role, line.answer.title, std::string(row.text("place")),
                          std::string(row.text("see")), std::string(row.text("remove")), "",
                          // What is poured is not counted, whatever is written.
                          line.answer.by_the_piece() ? static_cast<std::int64_t>(row.number("count").value_or(0)) : 0,
                          on_line(judge, row.text("condition")), row.origin};
                if (!stay.on.meets(judge.narrowing().left)) continue;
                if (!stay.on.contains(judge.narrowing().left))
                    stay.where = where_text(judge, stay.on, line.answer.speaks_of());
                list.stays.push_back(std::move(stay));
            }
    }
};

}  // namespace

std::string_view reach_name(Reach reach) { return reaches.at(static_cast<std::size_t>(reach)); }

PartsList make_parts_list(const Places& places, const std::vector<std::string>& jobs) {
    Builder builder{places};
    for (const auto& job : std::set<std::string>(jobs.begin(), jobs.end())) builder.add_job(job);
    builder.leave_out_the_unreached();
    builder.add_companions();
    for (auto& line : builder.list.lines) builder.fill(line);
    builder.leave_out_what_no_doubt_brings();
    std::stable_sort(builder.list.lines.begin(), builder.list.lines.end(),
                     [](const ListLine& a, const ListLine& b) { return a.reach < b.reach; });
    builder.add_stays();
    add_kits(builder.list, builder.judge);
    sum_up(builder.list, places);
    return std::move(builder.list);
}

}  // namespace casebound
