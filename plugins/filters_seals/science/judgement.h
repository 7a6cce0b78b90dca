// Three-valued verdicts for geometry and materials, each with the source that
// decided it. A limit known only from memory may sort and warn, but it never
// makes a firm yes or no.
#pragma once

#include <string>
#include <string_view>

#include "core/contract/facts.h"
#include "science/measure.h"

namespace casebound::filters_seals {

using casebound::Evidence;

// `work` is borrowed: string literals here, the caller's row elsewhere.
struct Source {
    Evidence kind;
    std::string_view work;
};

SourceNote note(const Source& source);

constexpr Source weakest(Source a, Source b) { return b.kind > a.kind ? b : a; }

enum class Judgement { fits, check_first, does_not_fit };

std::string_view text(Judgement judgement);

// A firm no wins over an open question, an open question over a yes.
constexpr Judgement worse(Judgement a, Judgement b) { return a > b ? a : b; }

struct Finding {
    Judgement judgement;
    std::string reason;
    Source source;
};

// An allowed range. `edge_unsure` is how far either edge itself may be off
// (a window taken from an old pair inherits the ruler's error).
struct Window {
    Range allowed;
    Source source;
    double edge_unsure = 0.0;
};

enum class Place { inside, below, above, straddles };

// Straddles: the band crosses an edge, or could.
Place place_in(Stacked value, const Window& window);

// inside -> fits, wholly outside -> does_not_fit, straddles -> check_first.
// With a window from memory the answer is always check_first.
Judgement judge(Stacked value, const Window& window);

}  // namespace casebound::filters_seals
