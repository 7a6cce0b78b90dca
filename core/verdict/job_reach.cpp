#include "core/verdict/job_reach.h"

namespace casebound {

namespace {

using ByReach = std::array<Bits, 4>;

Bits& of(ByReach& reaches, Reach reach) { return reaches.at(static_cast<std::size_t>(reach)); }

Bits together(const ByReach& reaches) { return reaches[0] | reaches[1] | reaches[2] | reaches[3]; }

ByReach nowhere(std::size_t size) { return {Bits(size), Bits(size), Bits(size), Bits(size)}; }

}  // namespace

void JobReach::add(const std::string& job, bool of_line, Reach reach, const Bits& on) {
    size_ = on.size();
    if (never_.size() != size_) never_ = Bits(size_);
    auto& said = said_.try_emplace(job, Said{nowhere(size_), nowhere(size_)}).first->second;
    of(of_line ? said.of_line : said.general, reach) |= on;
}

void JobReach::never_again(const Bits& on) { never_ |= on; }

ByReach JobReach::reached() const {
    auto all = nowhere(size_);
    for (const auto& [job, said] : said_) {
        const auto refined = together(said.of_line);
        for (std::size_t i = 0; i < all.size(); ++i) all[i] |= said.of_line[i] | (said.general[i] - refined);
    }
    const Bits used_up = of(all, Reach::disturbs) & never_;
    of(all, Reach::consumes) |= used_up;
    Bits stronger(size_);
    for (auto& on : all) {
        on -= stronger;
        stronger |= on;
    }
    return all;
}

Bits JobReach::must() const {
    auto all = reached();
    return of(all, Reach::needs) | of(all, Reach::consumes);
}

Bits JobReach::all() const { return together(reached()); }

Reach JobReach::strongest(const Bits& on) const {
    const auto all = reached();
    std::size_t at = 0;
    while (at + 1 < all.size() && !all[at].meets(on)) ++at;
    return static_cast<Reach>(at);
}

}  // namespace casebound
