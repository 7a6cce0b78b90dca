// What there is to say of one thing in the place of another, as a value and in words. Decides nothing.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/verdict/fits.h"
#include "core/verdict/stand_in_graph.h"

namespace casebound {

// What `swap` answers. `yes`: may stand in, with what follows. `differs`: goes on and works differently.
enum class SwapVerdict : std::uint8_t { yes, yes_if, differs, no, claimed_only, disagree, not_recorded, not_answered };

struct SwapAnswer {
    SwapVerdict verdict = SwapVerdict::not_recorded;
    std::string wanted, offered;  // as asked
    std::string wanted_group, offered_group;
    std::vector<Edge> path;                  // from the offered group to the wanted one
    std::vector<std::string> conditions;     // vehicle conditions not known to hold yet
    std::vector<std::string> requirements;   // in words
    std::vector<std::string> also_requires;  // groups to fit with it
    std::vector<std::string> differences;
    std::vector<std::string> reasons;
    std::vector<Caution> cautions;
    std::vector<Leaf> leaves, withdrawn;  // rows the answer rests on; statements that no longer count
    std::vector<std::string> equal_by;    // a proposal: computed from these columns, nobody has stated it
    Evidence weakest = Evidence::law;
    bool invented{};
};

std::string_view swap_words(SwapVerdict verdict);  // "may stand in", "not recorded", ...
std::string_view swap_name(SwapVerdict verdict);   // for JSON

int badness(SwapVerdict verdict);  // worse is larger, in the order a person would care
void lower_to(SwapAnswer& answer, SwapVerdict verdict);
Leaf leaf_of(const Edge& edge);

}  // namespace casebound
