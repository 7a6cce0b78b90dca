// Rows of packs that a question is about, as the computations take them, each with where it stands.
// A row whose condition is ruled out on the vehicle is left out; one that may or may not apply is kept
// and shown with its condition. Never guesses a cell that is not stated.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "debris.h"
#include "elastomer.h"
#include "gasket.h"
#include "ring_size.h"

namespace casebound::filters_seals {

// The row of `table` for a group, or for the group an item is in. Nothing when there is none.
std::optional<Row> recorded(const Facts& facts, std::string_view table, std::string_view group_or_item);

SourceNote row_note(const Row& row);  // "demo-fleet, filters_seals_pans.csv:4"
SourceNote weaker(SourceNote a, SourceNote b);

enum class Applies { yes, no, cannot_tell };

// Three-valued, each term judged by itself; reads `attribute=a|b` and `not`, any other term cannot be told here.
// Without a vehicle only an empty condition is a yes.
Applies applies(std::string_view condition, const VehicleView* vehicle);

// Rows of the vehicle's line that are not ruled out. Empty without a vehicle.
std::vector<Row> rows_of_line(const Services& services, std::string_view table);

// " where engine=2.6" for a row that may or may not apply, else "".
std::string where_text(const Row& row, const VehicleView* vehicle);

// Neck diameters of the recorded filters that some application names for this line and that are made for this
// form of seal, smallest first.
std::vector<double> necks_on_line(const Services& services, std::string_view seal_form);

// As the computations take them; `rows` must outlive what is returned. A row with a word that is not known is left out.
std::vector<RingSize> ring_sizes(const std::vector<Row>& rows);
std::vector<RingSize> ring_sizes_and_built_in(
    const std::vector<Row>& rows);  // a built-in size only where no row has its number
SourceNote ring_size_note(const std::vector<Row>& rows, std::string_view number);
std::vector<FluidCell> fluid_cells(const std::vector<Row>& rows);
std::vector<RecordedListing> gasket_listings(const std::vector<Row>& rows);
std::vector<DebrisRow> debris_rows(const std::vector<Row>& rows);

}  // namespace casebound::filters_seals
