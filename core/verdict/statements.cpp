#include "core/verdict/statements.h"

#include <algorithm>
#include <tuple>

namespace casebound {

namespace {

bool says_no(const ApplicationRow& row, std::int64_t group) {
    return row.says == Says::none_needed || (row.says == Says::does_not_fit && row.group == group);
}

bool only_fits(const Claims& claims) {
    return std::all_of(claims.begin(), claims.end(), [](const Claim& claim) { return claim.row->says == Says::fits; });
}

// Nobody says no: firm or from memory, it fits where any statement says so.
Standing undisputed(std::int64_t group, const Claims& claims, std::size_t size) {
    Standing result{Bits(size), Bits(size), Bits(size)};
    for (const auto& claim : claims)
        if (claim.row->group == group) result.on |= claim.on;
    return result;
}

// Where anything firmer than memory says that some group fits.
Bits firm_place(const Claims& claims, std::size_t size) {
    Bits on(size);
    for (const auto& claim : claims)
        if (claim.row->says == Says::fits && claim.evidence != Evidence::memory) on |= holds(claim, claims);
    return on;
}

// Memory alone does not say that a place is not there which something firmer fills.
Standing standing(std::int64_t group, const Claims& claims, const Bits& firm_place) {
    const auto size = firm_place.size();
    Bits yes(size), no(size), memory_yes(size), memory_no(size);
    for (const auto& claim : claims) {
        const bool memory = claim.evidence == Evidence::memory;
        const bool no_place = claim.row->says == Says::none_needed;
        if (memory && no_place) memory_no |= claim.on - firm_place;
        else if (says_no(*claim.row, group)) (memory ? memory_no : no) |= claim.on;
        else if (claim.row->says == Says::fits && claim.row->group == group)
            (memory ? memory_yes : yes) |= holds(claim, claims);
    }
    const Bits firm = yes | no;
    memory_yes -= firm;
    memory_no -= firm;
    return {(yes - no) | (memory_yes - memory_no), (yes & no) | (memory_yes & memory_no),
            (no - yes) | (memory_no - memory_yes)};
}

// Claims that say something of `left`, the first to be left out first.
std::vector<Claim> in_order_of_doubt(Claims claims, const Bits& left) {
    for (auto& claim : claims) claim.on &= left;
    std::erase_if(claims, [](const Claim& claim) { return claim.on.none(); });
    const auto doubt = [](const Claim& claim) {
        return std::tuple(claim.evidence, ~claim.on.count(), claim.row->origin);
    };
    std::sort(claims.begin(), claims.end(), [&](const Claim& a, const Claim& b) { return doubt(a) > doubt(b); });
    return claims;
}

// Where nobody says no, a statement is needless when others that are kept say as much of its group.
std::vector<bool> needed_for_cover(const Claims& claims, const Claims& doubtful_first) {
    std::vector<const Claim*> kept;
    for (const auto& claim : doubtful_first) kept.push_back(&claim);
    for (std::size_t i = 0; i < kept.size();) {
        Bits open = kept[i]->on;
        for (std::size_t j = 0; j < kept.size(); ++j)
            if (j != i && kept[j]->row->group == kept[i]->row->group) open -= kept[j]->on;
        if (open.none()) kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
        else ++i;
    }
    std::vector<bool> result;
    for (const auto& claim : claims)
        result.push_back(
            std::any_of(kept.begin(), kept.end(), [&](const Claim* one) { return one->row == claim.row; }));
    return result;
}

}  // namespace

Bits holds(const Claim& fits, const Claims& claims) {
    Bits on = fits.on;
    for (const auto& other : claims)
        if (other.row->source == fits.row->source && says_no(*other.row, fits.row->group)) on -= other.on;
    return on;
}

Weighed weigh(const Claims& claims, const std::vector<std::int64_t>& groups, std::size_t configurations) {
    Weighed weighed{{}, Bits(configurations)};
    for (const auto& claim : claims)
        if (claim.row->says == Says::none_needed) weighed.none |= claim.on;
    weighed.groups.reserve(groups.size());
    const bool undenied = only_fits(claims);
    const Bits firm = undenied ? Bits() : firm_place(claims, configurations);
    for (const auto group : groups) {
        const auto& one = weighed.groups.emplace_back(undenied ? undisputed(group, claims, configurations)
                                                               : standing(group, claims, firm));
        weighed.none -= one.on | one.disagreed;
    }
    return weighed;
}

std::vector<bool> needed(Claims claims, const std::vector<std::int64_t>& groups, const Bits& left) {
    auto kept = in_order_of_doubt(claims, left);
    if (only_fits(kept)) return needed_for_cover(claims, kept);
    const auto want = weigh(kept, groups, left.size());
    // Leaving one out can make another needless that was not before: until nothing changes.
    for (auto before = kept.size() + 1; kept.size() < before;) {
        before = kept.size();
        for (std::size_t i = 0; i < kept.size();) {
            auto rest = kept;
            rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
            if (weigh(rest, groups, left.size()) == want) kept = std::move(rest);
            else ++i;
        }
    }
    std::vector<bool> result;
    for (const auto& claim : claims)
        result.push_back(std::any_of(kept.begin(), kept.end(), [&](const Claim& one) { return one.row == claim.row; }));
    return result;
}

}  // namespace casebound
