// What stands in a request: target, form, cookie, parts; the first line is the boundary of the parts in the rest.
#include "core/ground/utf8.h"
#include "core/serve/form_fields.h"
#include "core/serve/form_parts.h"
#include "tests/fuzz/target.h"

using namespace casebound;

namespace {

void are_text(const Fields& fields) {
    fuzz::promised(fields.size() <= most_fields, "no more fields than there may be");
    for (const auto& [name, value] : fields)
        fuzz::promised(is_form_text(name, true) && is_form_text(value, true), "fields are text");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto text = fuzz::text_of(data, size);
    if (const auto target = target_of(text)) {
        fuzz::promised(target->path.starts_with("/") && !target->path.starts_with("//"), "a target is a path here");
        are_text(target->query);
    }
    if (const auto form = form_of(text)) are_text(*form);
    fuzz::promised(cookie_of(text, "casebound").size() <= size, "a cookie lies in its field");
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return 0;
    const auto boundary = boundary_in(text.substr(0, end));
    fuzz::promised(boundary.size() <= 70, "a boundary is no longer than it may be");
    const auto body = text.substr(end + 1);
    static const fuzz::Folder folder;
    const auto read = [&](std::size_t piece) {
        PartsReader reader(boundary, folder.file(""));
        for (std::size_t at = 0; at < body.size(); at += piece)
            if (!reader.take(body.substr(at, piece))) return std::optional<FormParts>();
        return reader.whole();
    };
    const auto whole = read(std::max<std::size_t>(body.size(), 1)), in_pieces = read(1 + size % 7);
    fuzz::promised(whole.has_value() == in_pieces.has_value(), "a body that comes in pieces is the same body");
    if (!whole) return 0;
    are_text(whole->fields);
    fuzz::promised(whole->fields == in_pieces->fields && whole->files.size() == in_pieces->files.size(),
                   "a body that comes in pieces is the same body");
    for (std::size_t i = 0; i < whole->files.size(); ++i) {
        const auto one = ScratchFolder::read(whole->files[i].path);
        fuzz::promised(one.size() <= body.size() && one == ScratchFolder::read(in_pieces->files[i].path),
                       "a file that comes in pieces is the same file");
    }
    return 0;
}
