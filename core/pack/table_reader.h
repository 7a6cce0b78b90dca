// Reads one CSV file, or one sheet, of a pack: its header against the table, each cell against its column, and hands the rows on.
// A row with faults is handed on too, so that its key is known and one fault does not become a hundred.
#pragma once

#include <cstdint>
#include <string>

#include "core/book/workbook.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"

namespace casebound {

// Returns the bytes read. Throws Error(no_input) when the file cannot be read.
std::uint64_t read_table(const std::string& path, const TableShape& table, PackData& data, FaultList& faults);

// The same of a sheet of a workbook. What a text must be and is not one there, a number in a column of keys, a date and the
// error of a formula are faults of their own.
void read_sheet(const Workbook& book, std::size_t sheet, const TableShape& table, PackData& data, FaultList& faults);

}  // namespace casebound
