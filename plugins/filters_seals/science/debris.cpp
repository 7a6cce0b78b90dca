#include "science/debris.h"

#include <array>
#include <cmath>

namespace casebound::filters_seals {
namespace {

constexpr Source kWeights{Evidence::memory, "weights of debris findings"};
constexpr Source kPages{Evidence::common_practice, "study guides and shop pages on pan debris"};
constexpr Source kManual{Evidence::maker, "a maker's workshop manual: large metal may mean overhaul"};
constexpr Source kMemory{Evidence::memory, "from memory"};
constexpr Source kForum{Evidence::common_practice, "owners' threads on the assembly plug"};
constexpr Source kPractice{Evidence::common_practice, "common practice, no source"};

// In the order of the enum.
constexpr std::array<DebrisRow, 10> kTable{{
    {Debris::grey_paste_thin, "thin grey paste on the magnet", "normal wear", 0.0, "", false, kPages},
    {Debris::grey_paste_thick, "thick paste, no particles", "a long interval, neglected wear", -0.5,
     "ask when the fluid was last changed", false, kPractice},
    {Debris::brass_flakes, "brass or gold flakes", "bushings or thrust washers", -2.0, "cut the filter open", false,
     kPages},
    {Debris::steel_pieces, "steel slivers or chips that can be picked up", "gears or bearings", -3.0,
     "photograph them, cut the filter open", true, kManual},
    {Debris::black_flakes, "black flakes like coffee grounds", "friction linings", -3.0,
     "smell the fluid, cut the filter open", true, kPages},
    {Debris::aluminium_glitter, "aluminium glitter", "case, pump or converter wear", -2.0,
     "look for the rubbed surface", false, kMemory},
    {Debris::varnish_film, "varnish, brown film", "heat", -1.0, "check the cooler flow", false, kPractice},
    {Debris::plastic_bits, "plastic bits of a clip or sleeve", "a loose harness guide", 0.0,
     "inspect the harness and its clips", false, kPractice},
    {Debris::loose_plug_with_oring, "a loose plug with an O-ring",
     "the plug of the assembly line: the pan has probably never been off", 0.0, "", false, kForum},
    {Debris::sealant_strings, "strings of sealant", "somebody was here before", 0.0,
     "check the filter screen and the passages", false, kPractice},
}};

bool seen_before(std::span<const Debris> findings, std::size_t at) {
    for (std::size_t i = 0; i < at; ++i)
        if (findings[i] == findings[at]) return true;
    return false;
}

const DebrisRow& row_for(Debris finding, std::span<const DebrisRow> recorded) {
    for (const DebrisRow& row : recorded)
        if (row.finding == finding) return row;
    return debris_row(finding);
}

// The usual steps are from memory, whoever repeats them; other steps carry the row's own source.
bool are_usual(const DebrisRow& row) { return row.steps == debris_row(row.finding).steps; }

void take(const DebrisRow& row, DebrisAnswer& out) {
    out.steps += row.steps;
    out.stop_and_decide = out.stop_and_decide || row.stop_and_decide;
    out.readings.push_back(std::string(row.found) + ": " + std::string(row.reads_as));
    if (!row.look_next.empty()) out.look_next.emplace_back(row.look_next);
    out.weakest = weakest(out.weakest, row.steps != 0.0 && are_usual(row) ? kWeights : row.reading_source);
}

}  // namespace

std::span<const DebrisRow> debris_table() { return kTable; }

const DebrisRow& debris_row(Debris finding) { return kTable[static_cast<std::size_t>(finding)]; }

DebrisAnswer weigh_debris(double prior, std::span<const Debris> findings, std::span<const DebrisRow> recorded) {
    DebrisAnswer out{prior, 0.0, false, {}, {}, {Evidence::measured, "looked at here"}};
    for (std::size_t i = 0; i < findings.size(); ++i)
        if (!seen_before(findings, i)) take(row_for(findings[i], recorded), out);
    if (findings.empty()) out.look_next.emplace_back("nobody has looked in the pan");
    out.p_cheap_fix = shift_odds(prior, out.steps);
    return out;
}

std::string_view chance_word(double probability) {
    in_range("probability", probability, {0.0, 1.0});
    if (probability >= 0.6) return "likely";
    return probability <= 0.2 ? "unlikely" : "possible";
}

double shift_odds(double probability, double steps) {
    in_range("probability", probability, {0.0, 1.0});
    const double factor = std::exp2(steps);
    return probability * factor / (probability * factor + (1.0 - probability));
}

}  // namespace casebound::filters_seals
