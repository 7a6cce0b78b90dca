// have-ready, packs: how much fluid to have ready before the plug comes out, and the cheapest whole containers that leave
// a reserve. Never takes a dry fill for a service, and never rounds a need down.
#include <cmath>
#include <set>
#include <utility>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "science/quantity.h"

namespace casebound::transmission_fluids {

namespace {

// One owner drained 4.0 US qt with a front wheel raised and 2.6 to 2.7 level (published report, low authority).
constexpr double tilted_drain_ratio = 1.5;

// ---------------------------------------------------------------- containers

struct Shelf {
    std::vector<Container> containers;
    std::vector<double> sizes_l;
    bool priced = true;
};

std::set<double> recorded_sizes(const Given& given, const Services& services) {
    std::set<double> sizes;
    if (!given.has("fluid")) return sizes;
    for (const auto& member : services.facts.rows("group_members", "group_key", given.text("fluid")))
        for (const auto& item : services.facts.rows("items", "item", member.text("item")))
            if (const auto size = item.number("pack_quantity"); size && !item.stated("withdrawn")) sizes.insert(*size);
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
        shelf.containers.push_back({shelf.sizes_l[i], std::llround(price), std::nullopt});
    }
    if (!given.has("on_hand")) return shelf;
    for (const double size : given.numbers("on_hand")) {
        shelf.sizes_l.push_back(size);
        shelf.containers.push_back({size, 0, 1});
    }
    return shelf;
}

std::string choice_text(const ContainerChoice& choice, const Shelf& shelf) {
    std::string text;
    for (std::size_t i = 0; i < choice.counts.size(); ++i) {
        if (choice.counts[i] == 0) continue;
        text += (text.empty() ? "" : " + ") + std::to_string(choice.counts[i]) + " x " +
                quantity_text(shelf.sizes_l[i], "L", 3);
        if (shelf.containers[i].at_most) text += " on hand";
    }
    return text;
}

void say_choice(const std::string& which, const ContainerChoice& choice, const Shelf& shelf, Answer& answer) {
    const auto source = computed("least price over every combination of packs");
    answer.lines.push_back(text_line(which, choice_text(choice, shelf), source));
    answer.lines.push_back(measure_line(which + ": left over", choice.leftover_l, "L", 2, source));
    if (shelf.priced)
        answer.lines.push_back(
            text_line(which + ": price", fixed(static_cast<double>(choice.price_hundredths) / 100, 2), source));
}

void say_advice(const ContainerAdvice& advice, const Shelf& shelf, double reserve_l, Answer& answer) {
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

void say_containers(double need_l, const Given& given, const Services& services, Answer& answer) {
    const Shelf shelf = shelf_of(given, services);
    if (shelf.containers.empty()) return;
    const double reserve_l = given.number("reserve");
    const auto advice = choose_containers(need_l, shelf.containers, reserve_l, leftover_worth(given));
    if (advice) return say_advice(*advice, shelf, reserve_l, answer);
    answer.lower(Verdict::does_not_fit);
    answer.headline += " The packs there are do not hold it.";
}

std::vector<Input> container_inputs() {
    return {text_input("fluid", "spec on record: its packs are the sizes offered"),
            numbers_input("sizes", "pack sizes offered", "L", 0.1, 250),
            numbers_input("prices", "their prices, in the same order", "", 0, 10000),
            numbers_input("on_hand", "full packs on the own shelf, one number each", "L", 0.1, 250),
            assumed(number_input("reserve", "least to be left over", "L", 0, 20), "0.25"),
            number_input("leftover_price", "what a litre left over is worth", "", 0, 1000),
            number_input("leftover_used", "how much of it will be used in time", "L", 0, 100)};
}

Answer answer_containers(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const double need_l = given.number("need");
    answer.headline = quantity_text(need_l, "L") + " needed.";
    say_containers(need_l, given, services, answer);
    if (answer.lines.empty() && !answer.verdict) {
        missing(answer, "sizes", "the pack sizes the seller has, or fluid, a spec on record.");
        answer.headline = "Cannot tell yet: no pack sizes are known.";
    }
    return answer;
}

Inquiry containers_inquiry() {
    auto inputs = container_inputs();
    inputs.insert(inputs.begin(), required(number_input("need", "how much is needed", "L", 0.01, 100)));
    return {"packs", "Cheapest whole packs that hold a volume and leave a reserve", std::move(inputs),
            answer_containers, "need=4.7L sizes=1L,4L,5L prices=9.5,32,38"};
}

// ---------------------------------------------------------------- have ready

Input drained_each_time() {
    return found_by(told(number_input("drained", "what comes out each time", "L", 0.01, 100), "fluid_drained"),
                    "catch it in a measuring jug, or read the service refill; a dry fill is that of an empty unit.");
}

// Where the handbook has what comes out.
const char* refill_of(const std::string& job) { return job == "pan_and_filter" ? "pan_refill" : "service_refill"; }

void say_attitude(double need_l, const Given& given, Answer& answer) {
    if (given.text("attitude") == "level") return;
    answer.cautions.push_back("Check the level with all four wheels raised equally or none: tilted it reads wrong.");
    if (given.has("drained")) return;
    answer.lower(Verdict::check_first);
    answer.lines.push_back(
        measure_line("if as much more drains as in one report", tilted_drain_ratio * need_l, "L", 2,
                     practice("one owner's published report, one front wheel raised; low authority")));
    answer.next.push_back("Measure what comes out: a tilted vehicle drains another volume than the handbook's.");
}

// How firm the need is: certain, resting on conditions that are not known to hold, or the most of several records.
struct Firmness {
    bool most = false;
    std::string condition = {};
};

void say_need(double need_l, const Firmness& firm, const SourceNote& source, Answer& answer) {
    const std::string need = fixed(need_l, 2) + " L";
    if (firm.most)
        answer.headline = "Have up to " + need + " ready: the records differ, and which one holds is not known.";
    else if (firm.condition.empty()) answer.headline = "Have " + need + " ready.";
    else
        answer.headline = "Cannot tell yet: only where " + firm.condition + " is a volume on record, " + need +
                          " to have ready.";
    if (!firm.condition.empty() && !firm.most)
        answer.next.push_back("Find out whether it is one with " + firm.condition +
                              ": otherwise this figure is not on record.");
    answer.lines.push_back(
        measure_line(firm.most ? "to have ready, at most" : "to have ready", need_l, "L", 2, source));
}

struct Volume {
    double l;
    Firmness firm;
    SourceNote source;
};

// Given, told or on record; where the records differ, the most of them. Nothing: the answer says what is missing.
std::optional<Volume> volume_of(const Input& input, const Given& given, Answer& answer) {
    if (const auto* value = given.find(input.name))
        return Volume{value->numbers.at(0), {false, value->only_where}, value->source};
    if (const auto most = most_undecided(input.name, given)) {
        SourceNote source = practice();
        for (const auto& one : given.undecided.find(input.name)->second) source = weaker(source, one.source);
        return Volume{*most, {true, ""}, source};
    }
    missing(answer, input.name, input.how);
    return std::nullopt;
}

std::optional<Volume> what_comes_out(const Given& given, Answer& answer) {
    if (given.has("drained")) return volume_of(drained_each_time(), given, answer);
    Input refill = drained_each_time();
    refill.name = refill_of(given.text("job"));
    if (given.has(refill.name) || given.undecided.count(refill.name) != 0) return volume_of(refill, given, answer);
    missing(answer, "drained", refill.how);
    return std::nullopt;
}

std::optional<double> need_for_drain(const Given& given, Answer& answer) {
    const auto out = what_comes_out(given, answer);
    if (!out) return std::nullopt;
    const DrainAndFill work{given.has("drained") ? CapacityKind::measured_drain : CapacityKind::service_refill,
                            out->l,
                            static_cast<int>(given.number("changes")),
                            given.number("allowance") / 100,
                            given.number("spill"),
                            given.number("filter_and_cooler")};
    const double need_l = have_ready_l(work);
    say_need(need_l, out->firm,
             fed_with(practice("changes x drained x (1 + allowance) + spill + filter and cooler"), out->source),
             answer);
    say_attitude(need_l, given, answer);
    return need_l;
}

Input dry_fill() {
    return recorded(found_by(number_input("dry_fill", "fill of an empty unit, for new_unit", "L", 0.1, 100),
                             "the fill of an empty unit, from the handbook."),
                    fills, "dry_fill_l");
}
Input cooler() {
    return recorded(found_by(number_input("cooler", "cooler and pipes, for new_unit", "L", 0, 20),
                             "what cooler and pipes hold; 0 if they are not emptied."),
                    fills, "cooler_l");
}

std::optional<double> need_for_unit(const Given& given, Answer& answer) {
    const auto dry = volume_of(dry_fill(), given, answer), pipes = volume_of(cooler(), given, answer);
    if (!dry || !pipes) return std::nullopt;
    const double need_l = have_ready_for_unit_l(dry->l, pipes->l);
    const auto& condition = dry->firm.condition.empty() ? pipes->firm.condition : dry->firm.condition;
    say_need(need_l, {dry->firm.most || pipes->firm.most, condition},
             fed_with(fed_with(practice("(dry fill + cooler) x 1.05"), dry->source), pipes->source), answer);
    return need_l;
}

// By every record that may hold.
bool reuse_forbidden(const Services& services) {
    const auto rows = rows_here(services, fills);
    return !rows.empty() &&
           std::all_of(rows.begin(), rows.end(), [](const HeldRow& held) { return held->text("reuse_clean") == "no"; });
}

Answer answer_have_ready(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto need_l = given.text("job") == "new_unit" ? need_for_unit(given, answer) : need_for_drain(given, answer);
    if (!need_l) {
        answer.headline = "Cannot tell yet: what comes out is not known.";
        return answer;
    }
    say_containers(*need_l, given, services, answer);
    if (reuse_forbidden(services)) answer.cautions.push_back("The maker forbids putting drained fluid back.");
    answer.next.push_back("Note volume and temperature of what comes out: the same goes back in.");
    return answer;
}

Inquiry have_ready_inquiry() {
    std::vector<Input> inputs{
        assumed(choice_input("job", "what is done", {"drain", "pan_and_filter", "new_unit"}), "drain"),
        drained_each_time(),
        recorded(found_by(number_input("service_refill", "service refill", "L", 0.01, 100), drained_each_time().how),
                 fills, "service_refill_l"),
        recorded(found_by(number_input("pan_refill", "refill after pan and filter", "L", 0.01, 100),
                          drained_each_time().how),
                 fills, "pan_filter_refill_l"),
        assumed(whole(number_input("changes", "number of drain-and-fills", "", 1, 20)), "1"),
        assumed(number_input("allowance", "allowance; 3 to 5 % is common practice", "%", 0, 25), "3"),
        assumed(number_input("spill", "lost at funnel and plug; 0.2 to 0.5 L is common practice", "L", 0, 5), "0.3"),
        assumed(number_input("filter_and_cooler", "what a new filter and an emptied cooler take", "L", 0, 20), "0"),
        assumed(choice_input("attitude", "how the vehicle stands while it drains",
                             {"level", "front_raised", "rear_raised", "one_side_raised"}),
                "level"),
        dry_fill(),
        cooler()};
    for (auto& input : container_inputs()) inputs.push_back(std::move(input));
    return {"have-ready", "Fluid to have ready for a drain, a pan and filter, or a new unit, and the packs for it",
            std::move(inputs), answer_have_ready, "drained=4.7L changes=1 sizes=1L,4L,5L prices=9.5,32,38"};
}

}  // namespace

std::vector<Inquiry> quantity_inquiries() { return {have_ready_inquiry(), containers_inquiry()}; }

}  // namespace casebound::transmission_fluids
