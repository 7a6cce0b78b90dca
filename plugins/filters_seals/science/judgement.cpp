#include "science/judgement.h"

namespace casebound::filters_seals {

SourceNote note(const Source& source) { return {source.kind, std::string(source.work)}; }

std::string_view text(Judgement judgement) {
    switch (judgement) {
        case Judgement::fits: return "fits";
        case Judgement::check_first: return "check first";
        case Judgement::does_not_fit: return "does not fit";
    }
    return "check first";
}

Place place_in(Stacked value, const Window& window) {
    const Range band{value.min - window.edge_unsure, value.max + window.edge_unsure};
    if (window.allowed.contains(band)) return Place::inside;
    if (band.high < window.allowed.low) return Place::below;
    if (band.low > window.allowed.high) return Place::above;
    return Place::straddles;
}

Judgement judge(Stacked value, const Window& window) {
    if (window.source.kind == Evidence::memory) return Judgement::check_first;
    switch (place_in(value, window)) {
        case Place::inside: return Judgement::fits;
        case Place::straddles: return Judgement::check_first;
        default: return Judgement::does_not_fit;
    }
}

}  // namespace casebound::filters_seals
