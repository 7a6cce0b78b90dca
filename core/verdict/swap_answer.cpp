#include "core/verdict/swap_answer.h"

#include <array>

#include <fmt/format.h>

namespace casebound {

namespace {

constexpr std::array<std::string_view, 8> swaps{"yes",          "yes_if",   "differs",      "no",
                                                "claimed_only", "disagree", "not_recorded", "not_answered"};
constexpr std::array<std::string_view, 8> swaps_said{"MAY STAND IN",
                                                     "MAY STAND IN, ON CONDITIONS",
                                                     "BOLTS UP, BUT DIFFERS",
                                                     "NO",
                                                     "NOT CONFIRMED: ONLY ITS SELLER CLAIMS IT",
                                                     "SOURCES DISAGREE",
                                                     "NOT RECORDED",
                                                     "NOT ANSWERED"};

}  // namespace

std::string_view swap_words(SwapVerdict verdict) { return swaps_said.at(static_cast<std::size_t>(verdict)); }
std::string_view swap_name(SwapVerdict verdict) { return swaps.at(static_cast<std::size_t>(verdict)); }

int badness(SwapVerdict verdict) {
    switch (verdict) {
        case SwapVerdict::yes: return 0;
        case SwapVerdict::yes_if: return 1;
        case SwapVerdict::differs: return 2;
        case SwapVerdict::claimed_only: return 3;
        case SwapVerdict::not_recorded: return 4;
        case SwapVerdict::disagree: return 5;
        case SwapVerdict::no: return 6;
        case SwapVerdict::not_answered: return 7;
    }
    return 7;
}

void lower_to(SwapAnswer& answer, SwapVerdict verdict) {
    if (badness(verdict) > badness(answer.verdict)) answer.verdict = verdict;
}

Leaf leaf_of(const Edge& edge) {
    std::string text = fmt::format("{} {} {}", edge.offered, relation_words(edge.relation), edge.wanted);
    if (!edge.condition.empty()) text += fmt::format(" where {}", edge.condition);
    if (!edge.withdrawn.empty()) text += fmt::format(" (withdrawn: {})", edge.withdrawn);
    return {std::move(text), edge.origin};
}

}  // namespace casebound
