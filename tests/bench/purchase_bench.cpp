// The cheapest order, proven, against COIN-OR CBC (C interface, one thread, gap 0) on the same generated parts lists
// in one run: purchase_bench [LISTS OF 15 LINES] [LISTS OF 30 LINES]. Both solve the list from needs and market on;
// CBC's program is written before its clock starts. Ends with 1 when an optimum differs, or when ours is slower in
// the median or at worst.
#include <algorithm>
#include <cfloat>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>

#include <coin/Cbc_C_Interface.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include "core/cover/purchase.h"
#include "tests/cover/purchase_instances.h"
#include "tests/cover/purchase_mip.h"

using namespace casebound;

namespace {

struct Size {
    int lines, offers, sellers, lists, shared;
};

template <class Work> double milliseconds(Work work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

// CBC prints to the standard output whatever its log level is.
class Silence {
public:
    Silence() {
        std::fflush(stdout);
        const int nothing = ::open("/dev/null", O_WRONLY);
        ::dup2(nothing, 1);
        ::close(nothing);
    }
    ~Silence() {
        std::fflush(stdout);
        ::dup2(kept_, 1);
        ::close(kept_);
    }
    Silence(const Silence&) = delete;
    Silence& operator=(const Silence&) = delete;

private:
    int kept_ = ::dup(1);
};

struct Columns {  // of the program's matrix, as CBC takes it
    std::vector<int> start{0}, row;
    std::vector<double> factor, low, at_least, no_end;
};

Columns columns_of(const Mip& mip) {
    std::vector<std::vector<std::pair<int, double>>> by_variable(mip.cost.size());
    Columns columns;
    for (std::size_t r = 0; r < mip.rows.size(); ++r) {
        for (const auto& [variable, factor] : mip.rows[r].terms)
            by_variable[static_cast<std::size_t>(variable)].emplace_back(static_cast<int>(r), factor);
        columns.at_least.push_back(mip.rows[r].at_least);
    }
    for (const auto& entries : by_variable) {
        for (const auto& [row, factor] : entries) columns.row.push_back(row), columns.factor.push_back(factor);
        columns.start.push_back(static_cast<int>(columns.row.size()));
    }
    columns.low.resize(mip.cost.size());
    columns.no_end.assign(mip.rows.size(), DBL_MAX);
    return columns;
}

// The optimum in cents; -1 when CBC proves none.
std::int64_t solve_with_cbc(const Mip& mip, const Columns& columns) {
    Cbc_Model* const model = Cbc_newModel();
    Cbc_setLogLevel(model, 0);
    for (const char* gap : {"ratioGap", "allowableGap"}) Cbc_setParameter(model, gap, "0");
    Cbc_loadProblem(model, static_cast<int>(mip.cost.size()), static_cast<int>(mip.rows.size()), columns.start.data(),
                    columns.row.data(), columns.factor.data(), columns.low.data(), mip.most.data(), mip.cost.data(),
                    columns.at_least.data(), columns.no_end.data());
    for (std::size_t v = 0; v < mip.cost.size(); ++v)
        if (mip.whole[v]) Cbc_setInteger(model, static_cast<int>(v));
    Cbc_solve(model);
    const std::int64_t cost = Cbc_isProvenOptimal(model) ? std::llround(Cbc_getObjValue(model)) : -1;
    Cbc_deleteModel(model);
    return cost;
}

struct Times {
    std::vector<double> ms;
    double median() {
        std::sort(ms.begin(), ms.end());
        return ms[ms.size() / 2];
    }
    double worst() const { return *std::max_element(ms.begin(), ms.end()); }
};

bool compare(const Size& size) {
    Times ours, theirs;
    int differ = 0, unproven = 0;
    for (int list = 0; list < size.lists; ++list) {
        PurchaseGenerator generator(1000 + static_cast<std::uint64_t>(list));
        PurchaseInstance made = generator.make(size.lines, size.offers, size.sellers);
        generator.share(made, size.shared);
        PurchaseAnswer answer;
        ours.ms.push_back(milliseconds([&] { answer = cheapest_order(made.needs, made.market); }));
        const Mip mip = mip_of(made.needs, made.market);
        const Columns columns = columns_of(mip);
        std::int64_t cost = 0;
        {
            const Silence silence;
            theirs.ms.push_back(milliseconds([&] { cost = solve_with_cbc(mip, columns); }));
        }
        unproven += !answer.proven;
        differ += (answer.order ? answer.order->total_cents : -1) != cost;
    }
    const double median = ours.median(), their_median = theirs.median();
    fmt::print(
        "{} lines, {} offers, {} sellers, {} parts shared, {} lists: ours median {:.2f} ms, worst {:.1f}; CBC median "
        "{:.1f} ms, worst "
        "{:.1f}; "
        "ratio median {:.3f}, worst {:.3f}; optimum differs in {}, not proven {}\n",
        size.lines, size.offers, size.sellers, size.shared, size.lists, median, ours.worst(), their_median,
        theirs.worst(), median / their_median, ours.worst() / theirs.worst(), differ, unproven);
    return differ == 0 && unproven == 0 && median < their_median && ours.worst() < theirs.worst();
}

}  // namespace

int main(int argc, char** argv) {
    const int small = argc > 1 ? std::atoi(argv[1]) : 60, large = argc > 2 ? std::atoi(argv[2]) : 20;
    bool holds = true;
    for (const Size& size : {Size{15, 60, 5, small, 0}, Size{15, 60, 5, small, 6}, Size{30, 200, 8, large, 0},
                             Size{30, 200, 8, large, 12}})
        holds = (size.lists < 1 || compare(size)) && holds;
    return holds ? 0 : 1;
}
