// A row of any table of a pack as a form: a field a column, with the column's own words, unit and choices. What is known
// of the row (its source, whether it is withdrawn, the vehicle's line) has no field. Writes nothing.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/pack/pack_shape.h"
#include "core/page/page_form.h"

namespace casebound {

Field role_field(Session& session, const std::string& name, const std::string& role, bool required);

// `value`: what stands in the field of a column.
Form table_form(Session& session, const TableShape& table, const std::string& key,
                const std::function<std::string(const std::string&)>& value);

// The columns that such a form has a field for.
std::vector<std::string> field_columns(const TableShape& table);

// "COLUMN=VALUE" of each that was sent; empty ones too when `blank`.
std::vector<std::string> cells_of(const Visit& visit, const TableShape& table, bool blank);

}  // namespace casebound
