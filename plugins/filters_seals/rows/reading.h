// Rows of packs as the computations take them, each with where it stands. Never guesses a cell that is not stated; a row
// with a word that is not known is left out.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/debris.h"
#include "science/elastomer.h"
#include "science/gasket.h"
#include "science/ring_size.h"

namespace casebound::filters_seals {

// A statement that also rests on what was told of the vehicle: its own row stays, the evidence is the weaker.
SourceNote with_told(SourceNote source, const Told& told);

// Neck diameters of the recorded filters that some application names for this vehicle and that are made for this form
// of seal, smallest first.
std::vector<double> necks_on_line(const Services& services, std::string_view seal_form);

// `rows` must outlive what is returned.
std::vector<RingSize> ring_sizes(const std::vector<Row>& rows);
// A built-in size only where no row has its number.
std::vector<RingSize> ring_sizes_and_built_in(const std::vector<Row>& rows);
SourceNote ring_size_note(const std::vector<Row>& rows, std::string_view number);
std::vector<FluidCell> fluid_cells(const std::vector<Row>& rows, std::optional<Elastomer> only = std::nullopt);
std::vector<RecordedListing> gasket_listings(const std::vector<Row>& rows);
std::vector<DebrisRow> debris_rows(const std::vector<Row>& rows);
// The row that a pack has for it, else the usual one.
const DebrisRow& debris_as_recorded(Debris finding, std::span<const DebrisRow> recorded);

GasketDesign design_of(const Row& gasket, GasketMaterial material);

}  // namespace casebound::filters_seals
