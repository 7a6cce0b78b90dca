// Rows of a large table, taken on a second thread while the next are read: to look names up takes as long as to read them.
#pragma once

#include <memory>

#include "core/pack/pack_data.h"

namespace casebound {

// Gives `taker` the same rows in the same order, in batches; from the first row until finish() nobody else may use what it
// fills. What taking throws comes out of a later take() or of finish(). Rows never finished may be lost. That there is no
// room for as many rows as are expected is no fault: the rows themselves may have it.
std::unique_ptr<RowTaker> taken_beside(std::unique_ptr<RowTaker> taker);

}  // namespace casebound
