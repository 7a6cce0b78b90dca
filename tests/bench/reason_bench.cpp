// Reasoning against Z3 in one run: 2,000 conditions over 3,570 configurations, each decided (holds on all, some or
// none); the same verdicts are required. Then the next question over 2,000 open lines.
#include <algorithm>
#include <ctime>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <z3++.h>

#include "core/reason/possibilities.h"
#include "core/reason/question.h"

using namespace casebound;

namespace {

constexpr std::size_t attributes = 8, configurations = 3570, conditions = 2000;

enum class State { none, some, all };

// Of the processor: both work on one thread, and a busy machine would make the longer one longer still.
double processor_ms() { return 1e3 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

struct World {
    std::vector<Attribute> words;
    std::vector<std::vector<int>> cells;  // configuration, attribute
    std::vector<Condition> conditions;
    std::vector<std::vector<std::vector<int>>> allowed;  // condition, attribute: values; empty: any
};

World make_world() {
    World world;
    std::mt19937 random(7);
    const std::vector<int> sizes{7, 6, 5, 5, 4, 4, 3, 3};
    for (std::size_t a = 0; a < attributes; ++a) {
        Attribute attribute;
        attribute.name = fmt::format("a{}", a);
        world.words.push_back(attribute);
    }
    for (std::size_t i = 0; i < configurations; ++i) {
        std::vector<int> row;
        for (const int size : sizes) row.push_back(static_cast<int>(random() % static_cast<unsigned>(size)));
        world.cells.push_back(row);
    }
    for (std::size_t c = 0; c < conditions; ++c) {
        std::vector<std::vector<int>> allowed(attributes);
        std::string text;
        for (std::size_t n = 0, terms = 1 + random() % 3; n < terms; ++n) {
            const auto a = random() % attributes;
            if (!allowed[a].empty()) continue;
            std::string values;
            for (int v = 0; v < sizes[a]; ++v)
                if (random() % 2 || (v + 1 == sizes[a] && allowed[a].empty())) {
                    allowed[a].push_back(v);
                    values += (values.empty() ? "" : "|") + fmt::format("v{}", v);
                }
            text += fmt::format("{}a{}={}", text.empty() ? "" : "; ", a, values);
        }
        world.conditions.push_back(parse_condition(text));
        world.allowed.push_back(allowed);
    }
    return world;
}

Possibilities possibilities_of(const World& world) {
    std::vector<std::vector<Value>> cells;
    for (const auto& row : world.cells) {
        std::vector<Value> values;
        for (const int v : row) values.push_back({fmt::format("v{}", v), std::nullopt});
        cells.push_back(values);
    }
    return {world.words, cells, std::vector<double>(configurations, 1.0)};
}

std::vector<State> by_bits(const World& world, const Possibilities& set) {
    std::vector<State> states;
    const auto all = set.all();
    for (const auto& condition : world.conditions) {
        const auto on = set.where(condition);
        states.push_back(on.none() ? State::none : on == all ? State::all : State::some);
    }
    return states;
}

std::vector<State> by_z3(const World& world) {
    z3::context context;
    std::vector<z3::expr> variables;
    for (std::size_t a = 0; a < attributes; ++a) variables.push_back(context.int_const(fmt::format("a{}", a).c_str()));
    z3::solver solver(context);
    z3::expr_vector built(context);
    for (const auto& row : world.cells) {
        z3::expr_vector parts(context);
        for (std::size_t a = 0; a < attributes; ++a) parts.push_back(variables[a] == row[a]);
        built.push_back(z3::mk_and(parts));
    }
    solver.add(z3::mk_or(built));
    solver.check();
    std::vector<State> states;
    for (const auto& allowed : world.allowed) {
        z3::expr_vector terms(context);
        for (std::size_t a = 0; a < attributes; ++a) {
            if (allowed[a].empty()) continue;
            z3::expr_vector any(context);
            for (const int v : allowed[a]) any.push_back(variables[a] == v);
            terms.push_back(z3::mk_or(any));
        }
        const auto condition = z3::mk_and(terms);
        const auto possible = [&](const z3::expr& what) {
            solver.push();
            solver.add(what);
            const bool yes = solver.check() == z3::sat;
            solver.pop();
            return yes;
        };
        states.push_back(!possible(condition) ? State::none : possible(!condition) ? State::some : State::all);
    }
    return states;
}

// Of several runs: one alone of so few milliseconds says more of the machine than of the work.
template <class Work> double median_ms(Work work) {
    std::vector<double> times;
    for (int run = 0; run < 31; ++run) {
        const double start = processor_ms();
        work();
        times.push_back(processor_ms() - start);
    }
    std::nth_element(times.begin(), times.begin() + 15, times.end());
    return times[15];
}

}  // namespace

int main() {
    const auto world = make_world();
    const auto set = possibilities_of(world);
    std::vector<State> ours;
    const double bits_ms = median_ms([&] { ours = by_bits(world, set); });
    const double start = processor_ms();
    const auto theirs = by_z3(world);
    const double z3_ms = processor_ms() - start;
    fmt::print("{} conditions over {} configurations: {:.2f} ms; Z3 {:.0f} ms; {:.0f} times; same verdicts: {}\n",
               conditions, configurations, bits_ms, z3_ms, z3_ms / bits_ms, ours == theirs ? "yes" : "NO");

    std::vector<OpenLine> lines;
    for (const auto& condition : world.conditions) {
        const auto on = set.where(condition);
        lines.push_back({"line", [on](const Bits& cell) { return on.contains(cell) || !on.meets(cell); }, {on}});
    }
    std::optional<Question> next;
    const double next_ms = median_ms([&] { next = next_question(set, set.all(), lines); });
    fmt::print("next question over {} lines: {:.2f} ms ({})\n", lines.size(), next_ms,
               next ? next->column->attribute.name : "none");
    return ours == theirs ? 0 : 1;
}
