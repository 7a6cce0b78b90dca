// Asking, on generated catalogs: it ends, with every line settled that can be; the greedy order is never better
// than the best tree and seldom much worse; what is said to settle a line does, and nothing smaller would.
#include <iostream>

#include "core/reason/question.h"
#include "core/verdict/parts_list.h"
#include "tests/must.h"
#include "tests/verdict/oracle_engine.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

// The truth's value for one attribute, as it reads off the vehicle.
PlainFact true_fact(const PlainCatalog& plain, const std::string& attribute, const Value& value) {
    PlainFact fact{attribute, value.text, TellEvidence::read, true, {}};
    for (std::size_t a = 0; a < plain.attributes.size(); ++a) {
        const auto& known = *plain.attributes[a];
        if (known.name != attribute) continue;
        for (const auto& configuration : plain.configurations)
            fact.on.push_back(right_side_holds(known, value.text, configuration[a], known.tolerance));
    }
    return fact;
}

std::vector<OpenLine> lines_of(const Judge& judge) {
    std::vector<OpenLine> lines;
    for (const auto& role : plain_roles())
        if (role != unloaded_role()) lines.push_back(open_line(judge.role(role)));
    return lines;
}

// What is left of `left` when configuration `i` is the truth and these columns are asked.
Bits left_after(const Possibilities& set, const std::vector<const Possibilities::Column*>& asked, const Bits& left,
                std::size_t i) {
    Bits rest = left;
    for (const auto* column : asked) {
        const auto& told = column->values[column->at[i]];
        Bits agreeing(set.size());
        for (std::size_t v = 0; v < column->values.size(); ++v) {
            const auto& recorded = column->values[v];
            const bool near = told.number && recorded.number &&
                              std::abs(*told.number - *recorded.number) <= column->attribute.tolerance + 1e-6;
            if (near || told == recorded) agreeing |= column->holding[v];
        }
        rest &= agreeing;
    }
    return rest;
}

bool settles(const Possibilities& set, const std::vector<const Possibilities::Column*>& asked, const Bits& left,
             const OpenLine& line) {
    bool all = true;
    left.for_each([&](std::size_t i) { all = all && line.settled(left_after(set, asked, left, i)); });
    return all;
}

std::vector<const Possibilities::Column*> columns_in(const Possibilities& set, unsigned mask) {
    std::vector<const Possibilities::Column*> columns;
    for (std::size_t a = 0; a < set.columns().size(); ++a)
        if (mask >> a & 1) columns.push_back(&set.columns()[a]);
    return columns;
}

double effort_of(const std::vector<const Possibilities::Column*>& columns) {
    double minutes = 0;
    for (const auto* column : columns) minutes += effort_minutes(column->attribute);
    return minutes;
}

}  // namespace

TEST_CASE("answering the questions in the order asked ends with nothing left to check that asking could settle") {
    Bench bench;
    std::size_t asked_in_all = 0, settled = 0, doubted = 0, longest = 0;
    for (int n = 0; n < 4000; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 8000000);
        Sizes sizes;
        sizes.objections = n % 4 == 0;
        const auto plain = some_catalog(dice, sizes);
        const Opened opened(bench, plain);
        const auto& set = opened.line().set;
        const auto truth_at = dice.below(set.size());  // core's number of it
        auto facts = some_facts(dice, plain, 2, opened.plain_of(truth_at));
        std::size_t asked = 0;
        for (;; ++asked) {
            const auto narrowing = opened.narrowed(facts);
            REQUIRE(narrowing.left.test(truth_at));
            const auto lines = lines_of(opened.judge(narrowing));
            const auto question = next_question(set, narrowing.left, lines, narrowing.not_asked());
            if (!question) break;
            REQUIRE(asked < set.columns().size());
            double shares = 0;
            for (const auto& [value, share] : question->answers) shares += share;
            must(std::abs(shares - 1) <= 1e-9, "the answers' shares sum to one", "");
            const auto& column = *question->column;
            std::erase_if(facts, [&](const PlainFact& fact) { return fact.attribute == column.attribute.name; });
            facts.push_back(true_fact(plain, column.attribute.name, column.values[column.at[truth_at]]));
            const auto after = opened.narrowed(facts);
            must(!(after.left == narrowing.left) || column.attribute.tolerance > 0, "every answer rules something out",
                 column.attribute.name);
        }
        asked_in_all += asked;
        longest = std::max(longest, asked);
        const auto narrowing = opened.narrowed(facts);
        const auto judge = opened.judge(narrowing);
        for (const auto& role : plain_roles()) {
            if (role == unloaded_role()) continue;
            const auto answer = judge.role(role);
            if (answer.verdict != Verdict::check_first) {
                ++settled;
                continue;
            }
            // Only a doubt of the domain may stay, or values that measuring cannot tell apart.
            ++doubted;
            auto every = columns_in(set, (1u << set.columns().size()) - 1);
            const auto told_once =
                narrowing.not_asked();  // a number told once is not asked again, though it may lie between two
            std::erase_if(every, [&](const Possibilities::Column* column) {
                return std::find(told_once.begin(), told_once.end(), column->attribute.name) != told_once.end();
            });
            bool could = false;
            narrowing.left.for_each(
                [&](std::size_t i) { could = could || answer.settled_on(left_after(set, every, narrowing.left, i)); });
            must(!could, "nothing more could settle the role", role);
        }
    }
    std::cout << "asking: " << asked_in_all << " questions, at most " << longest << " for a vehicle; " << settled
              << " roles settled, " << doubted << " left in a doubt that no answer settles\n";
    CHECK(asked_in_all > 1000);
    CHECK(doubted < settled / 20);
}

TEST_CASE("without doubts and tolerances, asking always ends with no role to check") {
    Bench bench;
    for (int n = 0; n < 1500; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 9000000);
        Sizes sizes;
        sizes.objections = false;
        const auto plain = some_catalog(dice, sizes);
        if (std::any_of(plain.attributes.begin(), plain.attributes.end(),
                        [](const PlainAttribute* a) { return a->tolerance > 0; }))
            continue;
        const Opened opened(bench, plain);
        const auto& set = opened.line().set;
        const auto lines = lines_of(opened.judge(opened.narrowed({})));
        const auto truth_at = dice.below(set.size());
        Bits left = set.all();
        while (const auto question = next_question(set, left, lines))
            left &= question->column->holding[question->column->at[truth_at]];
        for (const auto& line : lines) must(line.settled(left), "every role is settled", line.name);
    }
}

TEST_CASE("asking greedily is never better than the best tree, and on average within a quarter of it") {
    Bench bench;
    std::size_t instances = 0, equal = 0;
    double sum_of_ratios = 0, worst = 1, greedy_sum = 0, exact_sum = 0;
    for (int n = 0; n < 4000; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 10000000);
        Sizes sizes;
        sizes.attributes_high = 5;
        sizes.most_configurations = 20;
        sizes.objections = n % 3 == 0;
        const auto plain = some_catalog(dice, sizes);
        const Opened opened(bench, plain);
        const auto& set = opened.line().set;
        const auto lines = lines_of(opened.judge(opened.narrowed({})));
        const auto exact = least_minutes(set, set.all(), lines);
        REQUIRE(exact);
        const double greedy = greedy_minutes(set, set.all(), lines);
        must(greedy >= *exact - 1e-9, "no order is better than the best", "");
        must(*exact > 0 || greedy == 0, "nothing is asked when nothing need be", "");
        if (*exact <= 0) continue;
        ++instances;
        equal += greedy <= *exact + 1e-9;
        sum_of_ratios += greedy / *exact;
        worst = std::max(worst, greedy / *exact);
        greedy_sum += greedy;
        exact_sum += *exact;
    }
    const double mean = sum_of_ratios / static_cast<double>(instances);
    std::cout << fmt::format(
        "greedy against the best tree: {} instances, {} equal, mean ratio {:.3f}, worst {:.2f}, {:.2f} against {:.2f} "
        "min expected\n",
        instances, equal, mean, worst, greedy_sum / static_cast<double>(instances),
        exact_sum / static_cast<double>(instances));
    CHECK(instances > 1000);
    CHECK(mean < 1.25);
}

TEST_CASE("the attributes said to settle a line settle it, and no smaller or cheaper set does") {
    Bench bench;
    std::size_t sets = 0, several = 0, hopeless = 0;
    for (int n = 0; n < 2500; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 11000000);
        Sizes sizes;
        sizes.objections = n % 3 == 0;
        const auto plain = some_catalog(dice, sizes);
        const Opened opened(bench, plain);
        const auto& set = opened.line().set;
        const auto narrowing = opened.narrowed(some_facts(dice, plain, 1, dice.below(plain.configurations.size())));
        const auto& left = narrowing.left;
        for (const auto& line : lines_of(opened.judge(narrowing))) {
            if (line.settled(left)) continue;
            const auto names = settling_attributes(set, left, line);
            std::size_t smallest = set.columns().size() + 1;
            double cheapest = HUGE_VAL;
            for (unsigned mask = 1; mask < 1u << set.columns().size(); ++mask) {
                const auto columns = columns_in(set, mask);
                if (columns.size() > smallest || !settles(set, columns, left, line)) continue;
                if (columns.size() < smallest) cheapest = HUGE_VAL;
                smallest = columns.size();
                cheapest = std::min(cheapest, effort_of(columns));
            }
            if (smallest > set.columns().size()) {
                ++hopeless;
                must(names.empty(), "nothing is said to settle what nothing settles", line.name);
                continue;
            }
            ++sets;
            several += names.size() > 1;
            std::vector<const Possibilities::Column*> columns;
            for (const auto& name : names) columns.push_back(set.column(name));
            must(settles(set, columns, left, line), "what is said to settle it does", line.name);
            must(names.size() == smallest, "nothing smaller settles it", line.name);
            must(std::abs(effort_of(columns) - cheapest) <= 1e-9, "nothing as small settles it with less effort",
                 line.name);
        }
    }
    std::cout << "settling attributes: " << sets << " sets, " << several << " of more than one; " << hopeless
              << " lines that nothing settles\n";
    CHECK(sets > 500);
    CHECK(several > 100);
}

TEST_CASE("a measured number that leaves several values is not asked for again") {
    // 38 and 40 mm both lie within 1.5 mm of 39 mm: measuring 39 mm leaves all three.
    PlainCatalog plain;
    for (const auto& a : plain_attributes())
        if (a.name == "pan_depth" || a.name == "rod_length") plain.attributes.push_back(&a);
    for (const auto& [depth, rod] : {std::pair("38", "100"), std::pair("39", "105"), std::pair("40", "110")}) {
        plain.configuration_rows.emplace_back(fmt::format("pan_depth={} mm; rod_length={} mm", depth, rod),
                                              std::nullopt);
        plain.configurations.push_back(
            {plain_value(*plain.attributes[0], depth), plain_value(*plain.attributes[1], rod)});
    }
    plain.weights = {1, 1, 1};
    PlainRow row;
    row.role = "alpha-part";
    row.group = "a-group-0";
    row.condition = "pan_depth=38";
    row.line = 2;
    row.on = {true, false, false};
    plain.rows.push_back(row);
    Bench bench;
    const Opened opened(bench, plain);
    const auto& set = opened.line().set;
    const auto lines = lines_of(opened.judge(opened.narrowed({})));
    const auto asked = [&](const std::vector<PlainFact>& facts) {
        const auto narrowing = opened.narrowed(facts);
        const auto question = next_question(set, narrowing.left, lines, narrowing.not_asked());
        return question ? question->column->attribute.name : "";
    };
    CHECK(asked({}) == "pan_depth");  // the rod takes dismantling
    CHECK(asked({{"pan_depth", "39 mm", TellEvidence::measured, true, {}}}) == "rod_length");
    CHECK(asked({{"pan_depth", "37..41 mm", TellEvidence::assumed, true, {}}}) ==
          "pan_depth");                                                              // a range may be measured yet
    CHECK(asked({{"pan_depth", "40 mm", TellEvidence::measured, true, {}}}) == "");  // 39 or 40 mm: settled either way
    CHECK(settling_attributes(set, set.all(), lines[0]) == std::vector<std::string>{"rod_length"});
}
