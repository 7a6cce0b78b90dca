// Answering against the statement that merely fetches the rows: answer_bench CATALOG...
// For vehicles of random lines, of which one fact is told: `fits` for every role, verdicts and reasons included, over
// the hand-written prepared SELECT of the same rows, in one run. `first` meets a line for the first time, `again` has
// met it before, `in words` also writes every reason and its source out.
#include <algorithm>
#include <chrono>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "core/reason/reasoner.h"
#include "core/verdict/catalog.h"
#include "core/verdict/fits.h"
#include "tests/bench/synthetic_domain.h"

using namespace casebound;

namespace {

class NoView : public VehicleView {
public:
    explicit NoView(std::string line) : line_(std::move(line)) {}
    std::string name() const override { return "bench"; }
    std::string line() const override { return line_; }
    std::vector<PossibleValue> possible(std::string_view) const override { return {}; }
    std::vector<Told> told() const override { return {}; }
    Evidence left_rests_on() const override { return Evidence::invented; }
    Holds holds(std::string_view) const override { return Holds::open; }

private:
    std::string line_;
};

double median(std::vector<double> values) {
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2), values.end());
    return values[values.size() / 2];
}

template <class Work> double microseconds(Work work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start).count();
}

struct Figures {
    double select, first, again, words;
    std::size_t rows, left;
};

std::size_t in_words(const std::vector<RoleAnswer>& answers) {
    std::size_t length = 0;
    const auto write = [&](const std::vector<Leaf>& leaves) {
        for (const auto& leaf : leaves) length += leaf.text().size() + leaf.origin().source.size();
    };
    for (const auto& answer : answers) {
        for (const auto& group : answer.groups) write(group.leaves), write(group.against);
        write(answer.none_leaves), write(answer.told), write(answer.withdrawn);
    }
    return length;
}

std::size_t fetch(Statement& select, std::int64_t line) {
    std::size_t rows = 0;
    std::int64_t sum = 0;
    select.reset().bind(1, line << 20).bind(2, (line << 20) + 1048575);
    while (select.step()) {
        for (int c = 0; c < 7; ++c) sum += select.integer(c);
        sum += static_cast<std::int64_t>(select.text(7).size() + select.text(8).size());
        ++rows;
    }
    return rows + (sum == -1);
}

Figures measure(const std::string& path, int vehicles) {
    const Catalog catalog(path);
    const Engine engine;
    auto keys = catalog.line_keys();
    std::erase_if(keys, [](const std::string& key) { return key.rfind("line-", 0) != 0; });  // others have no market
    const auto market = parse_condition("market=north|south");
    std::mt19937 random(20261125);
    std::shuffle(keys.begin(), keys.end(), random);
    keys.resize(std::min<std::size_t>(keys.size(), static_cast<std::size_t>(vehicles)));
    Statement select(catalog.database(),
                     "SELECT role, says, item_group, condition, quantity, source, origin, note, withdrawn FROM "
                     "application WHERE id BETWEEN ? AND ? ORDER BY id");
    Figures figures{};
    std::vector<double> selects, firsts, agains, words;
    std::size_t seen = 0;
    for (const auto& key : keys) {
        const auto id = *catalog.id_of(key);
        fetch(select, id);  // the pages are in memory for both
        selects.push_back(microseconds([&] { figures.rows = fetch(select, id); }));
        const NoView view(key);
        const auto ask = [&](bool write) {
            const auto& line = *catalog.line(key);
            const Bits told = line.set.where(market);
            auto fact = told_fact("market", "north|south", TellEvidence::read, "2026-11-25");
            fact.applies = true;
            fact.holding = told;
            const Narrowing narrowing{{fact}, told};
            figures.left = narrowing.left.count();
            const Judge judge(catalog, bench::synthetic_plugins(), line, narrowing, view, engine);
            const auto answers = judge.roles();
            seen += write ? in_words(answers) : answers.size();
        };
        firsts.push_back(microseconds([&] { ask(false); }));
        agains.push_back(microseconds([&] { ask(false); }));
        words.push_back(microseconds([&] { ask(true); }));
    }
    if (seen == 0) fmt::print("nothing was answered\n");
    figures.select = median(selects);
    figures.first = median(firsts);
    figures.again = median(agains);
    figures.words = median(words);
    return figures;
}

}  // namespace

int main(int argc, char** argv) {
    start_single_threaded_sqlite();  // as the program does; the peer's SELECT gains as much
    fmt::print("{:<28} {:>5} {:>5} {:>9} {:>9} {:>9} {:>9} {:>8} {:>8} {:>8}\n", "catalog", "rows", "left", "select us",
               "first us", "again us", "words us", "first x", "again x", "words x");
    double smallest = 0;
    for (int i = 1; i < argc; ++i) {
        const std::string path = argv[i];
        const auto f = measure(path, 200);
        if (i == 1) smallest = f.again;
        fmt::print(
            "{:<28} {:>5} {:>5} {:>9.1f} {:>9.1f} {:>9.1f} {:>9.1f} {:>8.2f} {:>8.2f} {:>8.2f}   again over the first "
            "catalog's: {:.2f}\n",
            path.substr(path.rfind('/') + 1), f.rows, f.left, f.select, f.first, f.again, f.words, f.first / f.select,
            f.again / f.select, f.words / f.select, f.again / smallest);
    }
}
