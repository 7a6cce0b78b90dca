// What stands in the body of a form that sends a file: multipart/form-data (RFC 7578), read piece by piece as it comes.
// Text fields as form_fields.h takes them, bounded; a file goes to the disk, and its name is only ever shown.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/ground/replacement.h"
#include "core/page/page_request.h"

namespace casebound {

struct FormParts {
    Fields fields;
    std::vector<SentFile> files;
};

// Of a Content-Type field that is multipart/form-data (RFC 2046, 5.1.1: 1 to 70 characters); "" when it is none.
std::string boundary_in(std::string_view content_type);

class PartsReader {
public:
    // Files go to `folder`, as PassingFile takes it.
    PartsReader(std::string_view boundary, std::string folder);

    // False from the first byte on that is not well formed, or is more than may be. Throws as PassingFile does.
    bool take(std::string_view bytes);
    std::optional<FormParts> whole();  // nothing when it has not ended, or a field is no text

private:
    enum class At : std::uint8_t { beginning, behind_mark, head, content, end, wrong };
    bool step();  // false: more is needed
    bool begin_part(std::string_view head);
    void content(std::string_view bytes);
    bool end_part();

    std::string mark_, folder_, waiting_;  // waiting_: what has come and is not read yet
    At at_ = At::beginning;
    FormParts parts_;
    std::string name_, text_;            // of the field that is read
    std::size_t texts_ = 0;              // bytes of all fields together
    bool is_file_ = false;               // of the part that is read
    std::shared_ptr<PassingFile> file_;  // none for a file that was not chosen
};

// Of a whole body.
std::optional<FormParts> parts_of(std::string_view body, std::string_view boundary);

}  // namespace casebound
