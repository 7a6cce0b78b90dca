#include "core/deal/while_there.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

void check(const ExtraWork& work) {
    for (const double amount : {work.item, work.labour_now, work.labour_later, work.consumables_later, work.comeback})
        if (!(amount >= 0 && amount < std::numeric_limits<double>::infinity()))
            throw Error(Exit::bad_data,
                        fmt::format("while you are there: {}: cost {}: give 0 or more", work.name, amount));
    if (!(work.chance >= 0 && work.chance <= 1))
        throw Error(Exit::bad_data,
                    fmt::format("while you are there: {}: chance {}: give 0 to 1", work.name, work.chance));
}

// Now costs item + labour now for certain; later costs everything, with the chance that it is needed.
ExtraAdvice advice(const ExtraWork& work) {
    check(work);
    const double now = work.item + work.labour_now;
    const double later = work.item + work.labour_later + work.consumables_later + work.comeback;
    const double never = std::numeric_limits<double>::infinity();
    const double break_even = now == 0 ? 0 : later == 0 ? never : now / later;
    return {work, break_even, work.chance > break_even};
}

}  // namespace

std::vector<ExtraAdvice> while_there(const std::vector<ExtraWork>& works) {
    std::vector<ExtraAdvice> sorted;
    for (const ExtraWork& work : works) sorted.push_back(advice(work));
    const auto lead = [](const ExtraAdvice& a) { return a.work.chance - a.break_even; };
    std::sort(sorted.begin(), sorted.end(), [&](const ExtraAdvice& a, const ExtraAdvice& b) {
        return lead(a) != lead(b) ? lead(a) > lead(b) : a.work.name < b.work.name;
    });
    return sorted;
}

}  // namespace casebound
