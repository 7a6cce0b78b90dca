// O-rings in a radial gland: squeeze, stretch, section lost by stretching and
// gland fill, with tolerances stacked, read against published guidance that
// does not agree with itself. A squeeze of zero or less is the answer "leak
// path", not an error. Concentric parts; an offset neck is not modelled.
// Never picks the elastomer, and never calls a ring good from its size alone.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "science/judgement.h"

namespace casebound::filters_seals {

enum class GlandUse { static_radial, static_face, reciprocating, rotary };

// How the section thins when the ring is stretched over `inner_mm`. The three
// formulas differ by about 1 % of section at 4 % stretch: the answer names one.
enum class SectionLoss {
    none,
    torus_volume,      // volume of the torus kept, section stays round
    square_root,       // section * sqrt(ID / inner)
    two_thirds_power,  // section * (ID / inner)^(2/3)
};

std::string_view text(SectionLoss method);

struct Ring {
    std::optional<Toleranced> id_mm;
    std::optional<Toleranced> section_mm;
};

// inner_mm: groove of a piston, rod, or filter neck: what the ring is stretched
// over. outer_mm: bore, or groove of a rod seal. width_mm: along the axis.
struct Gland {
    std::optional<Toleranced> outer_mm;
    std::optional<Toleranced> inner_mm;
    std::optional<Toleranced> width_mm;
};

// A published range of squeeze, in percent. `at_most`: only the upper end was
// published, so it can object but not approve.
struct SqueezeGuidance {
    GlandUse use;
    Range percent;
    bool at_most;
    Source source;
};

std::span<const SqueezeGuidance> squeeze_guidance();

enum class SqueezeState { unknown, leak_path, leak_path_possible, sealed, does_not_enter };

struct GuidanceReading {
    const SqueezeGuidance* guidance;  // static storage
    Place place;
};

struct OringAnswer {
    std::optional<Stacked> height_mm;
    std::optional<Stacked> section_mm;       // as fitted, after the loss by stretch
    std::optional<Stacked> squeeze_percent;  // of the free section where the ring's inside diameter is not known
    std::optional<Stacked> stretch_percent;
    std::optional<Stacked> fill_percent;
    SectionLoss method;
    SqueezeState state;
    Finding squeeze;
    Finding stretch;
    Finding fill;
    Judgement overall;
    std::vector<GuidanceReading> guidance;  // every range for this use, agreeing or not
    std::vector<std::string> measure_next;
};

// 100 (section - height) / section, height = (outer - inner) / 2 in a radial
// gland (squeeze as in MIL-G-5514G 3.6.2); negative when the ring does not touch.
double squeeze_percent(double section_mm, double height_mm);
Stacked squeeze_percent(const Toleranced& section_mm, const Toleranced& height_mm);

// A stacked squeeze against the ranges published for that use; the only reading
// a face gland needs (its height is the groove depth, nothing is stretched).
Finding read_squeeze(Stacked squeeze_percent, GlandUse use);

// What a squeeze that touches both walls comes to. May leak: it can be under 10 %, by the design guide that says so (not
// for a rotary ring, which is run with less). Over the limit: it can be over a published ceiling for that use.
enum class SqueezeReading { settled, may_leak, over_limit, unsettled };
SqueezeReading squeeze_reading(Stacked squeeze_percent, GlandUse use);
inline constexpr double may_leak_under_percent = 10.0;
inline constexpr Source may_leak_source{Evidence::common_practice,
                                        "second O-ring design guide: below 10 % leaks, above 25 % sets"};
// The lowest ceiling published for the use; nullptr where none is.
const SqueezeGuidance* squeeze_ceiling(GlandUse use);

// 100 (inner - id) / id; negative when the ring is loose on it.
double stretch_percent(double id_mm, double inner_mm);

// Section of the ring once it sits on `inner_mm`. Unchanged when not stretched.
double stretched_section_mm(double id_mm, double section_mm, double inner_mm, SectionLoss method);

// Section area over gland area, percent. Requires: height and width above 0.
double fill_percent(double section_mm, double height_mm, double width_mm);

// For a radial gland; a face gland goes to read_squeeze.
// Throws std::domain_error outside: ID, inner, outer 0.3 to 2000 mm; section
// and width 0.3 to 100 mm.
OringAnswer examine_gland(const Ring& ring, const Gland& gland, GlandUse use,
                          SectionLoss method = SectionLoss::torus_volume);

// Depth of a radial gland for the five usual sections, in inch, from memory:
// a demo default, with squeeze bands that hang together.
struct GlandDepth {
    Toleranced section_in;
    Range static_depth_in;
    Range dynamic_depth_in;
};

std::span<const GlandDepth> gland_depths();
Source gland_depths_source();

}  // namespace casebound::filters_seals
