// Reads one CSV file of a pack: its header against the table, each cell against its column, and hands the rows on.
// A row with faults is handed on too, so that its key is known and one fault does not become a hundred.
#pragma once

#include <cstdint>
#include <string>

#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"

namespace casebound {

// Returns the bytes read. Throws Error(no_input) when the file cannot be read.
std::uint64_t read_table(const std::string& path, const TableShape& table, PackData& data, FaultList& faults);

}  // namespace casebound
