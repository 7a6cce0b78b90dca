// What stands in the body of a form that sends a file: multipart/form-data (RFC 7578). Text fields as form_fields.h takes
// them; a file is bytes, and its name is only ever shown. Bounded by the body's own limit.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/page/page_request.h"

namespace casebound {

struct FormParts {
    Fields fields;
    std::vector<SentFile> files;
};

// Of a Content-Type field that is multipart/form-data (RFC 2046, 5.1.1: 1 to 70 characters); "" when it is none.
std::string boundary_in(std::string_view content_type);

// Nothing when it is not well formed, or a field is no text.
std::optional<FormParts> parts_of(std::string_view body, std::string_view boundary);

}  // namespace casebound
