// The unit that the name of a column ends with, as every table here is written: "height_mm" is a height in mm.
#pragma once

#include <string_view>

namespace casebound {

struct ColumnUnit {
    std::string_view stem, unit;  // "height", "mm"; the whole name and "" when it ends in none
};

ColumnUnit column_unit(std::string_view column);

}  // namespace casebound
