// The seal of a workbook: its sha256 in a file beside it, as sha256sum writes and checks it. A folder has its own in the
// descriptor. A workbook without one is taken as it is.
#pragma once

#include <string>

#include "core/ground/file_stamp.h"
#include "core/pack/pack_faults.h"

namespace casebound {

std::string workbook_seal_path(const std::string& workbook);  // "fleet.xlsx.sha256"

// A workbook that was sealed must still be what it was.
void check_workbook_seal(const std::string& workbook, const FileStamp& stamp, FaultList& faults);

void seal_workbook(const std::string& workbook);

}  // namespace casebound
