// What lies in the pan, read as evidence on whether a cheap fix will do. Weights
// are defaults from memory: the result moves a probability, names what to look
// at next, and never condemns or clears a gearbox by itself.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "science/judgement.h"

namespace casebound::filters_seals {

enum class Debris {
    grey_paste_thin,
    grey_paste_thick,
    brass_flakes,
    steel_pieces,
    black_flakes,
    aluminium_glitter,
    varnish_film,
    plastic_bits,
    loose_plug_with_oring,
    sealant_strings,
};

// `steps`: each -1 halves the odds that the cheap fix works, each +1 doubles
// them. `reading_source` backs what the finding reads as; the usual steps are
// from memory, steps that a pack gives otherwise are its own.
struct DebrisRow {
    Debris finding;
    std::string_view found;
    std::string_view reads_as;
    double steps;
    std::string_view look_next;  // empty: nothing to add
    bool stop_and_decide;        // open the go / no-go question again
    Source reading_source;
};

std::span<const DebrisRow> debris_table();
const DebrisRow& debris_row(Debris finding);

struct DebrisAnswer {
    double p_cheap_fix;  // after the findings
    double steps;        // total, each kind of finding counted once
    bool stop_and_decide;
    std::vector<std::string> readings;
    std::vector<std::string> look_next;
    Source weakest;  // from memory once a usual weight moved anything
};

// No findings means nobody has looked: the prior comes back unchanged.
// `recorded`: rows of packs; a finding they hold is read as they say.
// Throws std::domain_error for a prior outside 0 to 1.
DebrisAnswer weigh_debris(double prior, std::span<const Debris> findings, std::span<const DebrisRow> recorded = {});

// "likely" from 0.6, "unlikely" to 0.2, "possible" between. Words, from memory.
std::string_view chance_word(double probability);

// Moves a probability by steps of odds. Throws std::domain_error outside 0 to 1.
double shift_odds(double probability, double steps);

}  // namespace casebound::filters_seals
