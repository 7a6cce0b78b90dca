// have-ready, packs: how much fluid to have ready before the plug comes out, and the cheapest whole packs that leave
// a reserve. Never takes a dry fill for a service, and never rounds a need down.
#include <algorithm>
#include <cmath>
#include <set>

#include "answer_parts.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "known.h"
#include "on_vehicle.h"
#include "science/quantity.h"

namespace casebound::transmission_fluids {

namespace {

constexpr const char* fills = "transmission_fluids_fills";

// One owner drained 4.0 US qt with a front wheel raised and 2.6 to 2.7 level (published report, low authority).
constexpr double tilted_drain_ratio = 1.5;

// ---------------------------------------------------------------- packs

struct Shelf {
    std::vector<Pack> packs;
    std::vector<double> sizes_l;
    bool priced = true;
};

std::set<double> recorded_sizes(const Given& given, const Services& services) {
    std::set<double> sizes;
    if (!given.has("fluid")) return sizes;
    for (const auto& member : services.facts.rows("group_members", "group_key", given.text("fluid")))
        for (const auto& item : services.facts.rows("items", "item", member.text("item")))
            if (const auto size = item.number("pack_quantity"); size && item.text("withdrawn").empty())
                sizes.insert(*size);
    return sizes;
}

void check_prices(const std::vector<double>& prices, std::size_t sizes) {
    if (prices.size() == sizes) return;
    refuse("prices", std::to_string(prices.size()) + " prices for " + std::to_string(sizes) + " sizes",
           "one price for each size, in the same order");
}

// Without prices the volume is the price: the least that holds the need is then the cheapest.
Shelf shelf_of(const Given& given, const Services& services) {
    Shelf shelf;
    if (given.has("sizes")) shelf.sizes_l = given.numbers("sizes");
    else
        for (const double size : recorded_sizes(given, services)) shelf.sizes_l.push_back(size);
    shelf.priced = given.has("prices");
    if (shelf.priced) check_prices(given.numbers("prices"), shelf.sizes_l.size());
    for (std::size_t i = 0; i < shelf.sizes_l.size(); ++i) {
        const double price = shelf.priced ? given.numbers("prices")[i] * 100 : shelf.sizes_l[i] * 1000;
        shelf.packs.push_back({shelf.sizes_l[i], std::llround(price), std::nullopt});
    }
    if (!given.has("on_hand")) return shelf;
    for (const double size : given.numbers("on_hand")) {
        shelf.sizes_l.push_back(size);
        shelf.packs.push_back({size, 0, 1});
    }
    return shelf;
}

std::string choice_text(const PackChoice& choice, const Shelf& shelf) {
    std::string text;
    for (std::size_t i = 0; i < choice.counts.size(); ++i) {
        if (choice.counts[i] == 0) continue;
        text += (text.empty() ? "" : " + ") + std::to_string(choice.counts[i]) + " x " +
                quantity_text(shelf.sizes_l[i], "L", 3);
        if (shelf.packs[i].at_most) text += " on hand";
    }
    return text;
}

void say_choice(const std::string& which, const PackChoice& choice, const Shelf& shelf, Answer& answer) {
    const auto source = computed("least price over every combination of packs");
    answer.lines.push_back(line(which, choice_text(choice, shelf), source));
    answer.lines.push_back(line(which + ": left over", choice.leftover_l, "L", 2, source));
    if (shelf.priced)
        answer.lines.push_back(
            line(which + ": price", price_text(static_cast<double>(choice.price_hundredths)), source));
}

void say_advice(const PackAdvice& advice, const Shelf& shelf, double reserve_l, Answer& answer) {
    say_choice(shelf.priced ? "cheapest packs" : "fewest litres", advice.cheapest, shelf, answer);
    if (!shelf.priced) answer.assumptions.push_back("No prices are given: the packs that leave least over are taken.");
    if (!advice.reserve_too_small) {
        answer.headline += " Take " + choice_text(advice.cheapest, shelf) + ".";
        return;
    }
    answer.cautions.push_back("The cheapest packs leave " + quantity_text(advice.cheapest.leftover_l, "L") +
                              ": no reserve for a spill at the funnel.");
    if (advice.with_reserve) {
        say_choice("with a reserve of " + quantity_text(reserve_l, "L"), *advice.with_reserve, shelf, answer);
        answer.headline += " Take " + choice_text(*advice.with_reserve, shelf) + ".";
    } else {
        answer.headline += " Take " + choice_text(advice.cheapest, shelf) + "; there is no more to be had.";
    }
}

LeftoverWorth leftover_worth(const Given& given) {
    return {std::llround(given.maybe_number("leftover_price").value_or(0) * 100),
            given.maybe_number("leftover_used").value_or(0)};
}

void say_packs(double need_l, const Given& given, const Services& services, Answer& answer) {
    const Shelf shelf = shelf_of(given, services);
    if (shelf.packs.empty()) return;
    const double reserve_l = given.number("reserve");
    const auto advice = choose_packs(need_l, shelf.packs, reserve_l, leftover_worth(given));
    if (advice) return say_advice(*advice, shelf, reserve_l, answer);
    lower(answer, Verdict::does_not_fit);
    answer.headline += " The packs there are do not hold it.";
}

std::vector<Input> pack_inputs() {
    return {text_input("fluid", "spec on record: its packs are the sizes offered"),
            numbers_input("sizes", "pack sizes offered", "L", 0.1, 250),
            numbers_input("prices", "their prices, in the same order", "", 0, 10000),
            numbers_input("on_hand", "full packs on the own shelf, one number each", "L", 0.1, 250),
            assumed(number_input("reserve", "least to be left over", "L", 0, 20), "0.25"),
            number_input("leftover_price", "what a litre left over is worth", "", 0, 1000),
            number_input("leftover_used", "how much of it will be used in time", "L", 0, 100)};
}

Answer answer_packs(const Given& given, const Services& services) {
    Answer answer;
    const double need_l = given.number("need");
    answer.headline = quantity_text(need_l, "L") + " needed.";
    say_packs(need_l, given, services, answer);
    if (answer.lines.empty() && answer.verdict == Verdict::fits) {
        missing(answer, "sizes", "the pack sizes the seller has, or fluid, a spec on record.");
        answer.headline = "Cannot tell yet: no pack sizes are known.";
    }
    return answer;
}

Inquiry packs_inquiry() {
    auto inputs = pack_inputs();
    inputs.insert(inputs.begin(), required(number_input("need", "how much is needed", "L", 0.01, 100)));
    return {"packs", "Cheapest whole packs that hold a volume and leave a reserve", std::move(inputs), answer_packs};
}

// ---------------------------------------------------------------- have ready

Wanted what_comes_out(const std::string& job) {
    const bool with_filter = job == "pan_and_filter";
    return {"drained",
            fills,
            with_filter ? "pan_filter_refill_l" : "service_refill_l",
            with_filter ? "refill after pan and filter" : "service refill",
            "L",
            2,
            "catch it in a measuring jug, or read the service refill; a dry fill is that of an empty unit."};
}

void say_attitude(double need_l, const Given& given, Answer& answer) {
    if (given.text("attitude") == "level") return;
    answer.cautions.push_back("Check the level with all four wheels raised equally or none: tilted it reads wrong.");
    if (given.has("drained")) return;
    lower(answer, Verdict::check_first);
    answer.lines.push_back(
        line("if as much more drains as in one report", tilted_drain_ratio * need_l, "L", 2,
             common_practice("one owner's published report, one front wheel raised; low authority")));
    answer.next.push_back("Measure what comes out: a tilted vehicle drains another volume than the handbook's.");
}

// How firm the need is: certain, resting on conditions that are not known to hold, or the most of several records.
struct Firmness {
    bool most = false;
    std::string condition = {};
};

void say_need(double need_l, const Firmness& firm, SourceNote source, Answer& answer) {
    const std::string need = rounded(need_l, 2) + " L";
    if (firm.most)
        answer.headline = "Have up to " + need + " ready: the records differ, and which one holds is not known.";
    else if (firm.condition.empty()) answer.headline = "Have " + need + " ready.";
    else
        answer.headline = "Cannot tell yet: only where " + firm.condition + " is a volume on record, " + need +
                          " to have ready.";
    if (!firm.condition.empty() && !firm.most)
        answer.next.push_back("Find out whether it is one with " + firm.condition +
                              ": otherwise this figure is not on record.");
    answer.lines.push_back(line(firm.most ? "to have ready, at most" : "to have ready", need_l, "L", 2,
                                resting_on(std::move(source), answer)));
}

std::optional<double> need_for_drain(const std::string& job, const Given& given, const Services& services,
                                     Answer& answer) {
    const auto wanted = what_comes_out(job);
    const auto known = known_number(wanted, given, services, answer);
    const auto drained = known ? known : most_recorded(wanted, services);
    if (!drained) return std::nullopt;
    const Firmness firm{!known, open_condition(wanted, given, services)};
    const DrainAndFill work{given.has("drained") ? CapacityKind::measured_drain : CapacityKind::service_refill,
                            *drained,
                            whole("number of drain-and-fills", given.number("changes")),
                            given.number("allowance") / 100,
                            given.number("spill"),
                            given.number("filter_and_cooler")};
    const double need_l = have_ready_l(work);
    say_need(need_l, firm, common_practice("changes x drained x (1 + allowance) + spill + filter and cooler"), answer);
    say_attitude(need_l, given, answer);
    return need_l;
}

std::optional<double> need_for_unit(const Given& given, const Services& services, Answer& answer) {
    const Wanted dry_fill{
        "dry_fill", fills, "dry_fill_l", "dry fill", "L", 2, "the fill of an empty unit, from the handbook."};
    const Wanted cooler_fill{"cooler",
                             fills,
                             "cooler_l",
                             "cooler and pipes",
                             "L",
                             2,
                             "what cooler and pipes hold; 0 if they are not emptied."};
    const auto dry = known_number(dry_fill, given, services, answer);
    const auto cooler = known_number(cooler_fill, given, services, answer);
    const auto dry_most = dry ? dry : most_recorded(dry_fill, services);
    const auto cooler_most = cooler ? cooler : most_recorded(cooler_fill, services);
    if (!dry_most || !cooler_most) return std::nullopt;
    const double need_l = have_ready_for_unit_l(*dry_most, *cooler_most);
    auto condition = open_condition(dry_fill, given, services);
    if (condition.empty()) condition = open_condition(cooler_fill, given, services);
    say_need(need_l, {!dry || !cooler, condition}, common_practice("(dry fill + cooler) x 1.05"), answer);
    return need_l;
}

Answer answer_have_ready(const Given& given, const Services& services) {
    Answer answer;
    const std::string& job = given.text("job");
    const auto need_l = job == "new_unit" ? need_for_unit(given, services, answer)
                                          : need_for_drain(job, given, services, answer);
    if (!need_l) {
        answer.headline = "Cannot tell yet: what comes out is not known.";
        return answer;
    }
    say_packs(*need_l, given, services, answer);
    if (recorded_text(services, fills, "reuse_clean") == "no")
        answer.cautions.push_back("The maker forbids putting drained fluid back.");
    answer.next.push_back("Note volume and temperature of what comes out: the same goes back in.");
    return answer;
}

Inquiry have_ready_inquiry() {
    auto inputs = pack_inputs();
    const std::vector<Input> own{
        assumed(choice_input("job", "what is done", {"drain", "pan_and_filter", "new_unit"}), "drain"),
        told(number_input("drained", "what comes out each time", "L", 0.01, 100), "fluid_drained"),
        assumed(number_input("changes", "number of drain-and-fills", "", 1, 20), "1"),
        assumed(number_input("allowance", "allowance; 3 to 5 % is common practice", "%", 0, 25), "3"),
        assumed(number_input("spill", "lost at funnel and plug; 0.2 to 0.5 L is common practice", "L", 0, 5), "0.3"),
        assumed(number_input("filter_and_cooler", "what a new filter and an emptied cooler take", "L", 0, 20), "0"),
        assumed(choice_input("attitude", "how the vehicle stands while it drains",
                             {"level", "front_raised", "rear_raised", "one_side_raised"}),
                "level"),
        number_input("dry_fill", "fill of an empty unit, for new_unit", "L", 0.1, 100),
        number_input("cooler", "cooler and pipes, for new_unit", "L", 0, 20)};
    inputs.insert(inputs.begin(), own.begin(), own.end());
    return {"have-ready", "Fluid to have ready for a drain, a pan and filter, or a new unit, and the packs for it",
            std::move(inputs), answer_have_ready};
}

}  // namespace

std::vector<Inquiry> quantity_inquiries() { return {have_ready_inquiry(), packs_inquiry()}; }

}  // namespace casebound::transmission_fluids
