#include "core/serve/form_body.h"

#include "core/serve/form_fields.h"

namespace casebound {

std::optional<FormParts> SentForm::read() {
    if (parts_) return parts_->whole();
    auto fields = form_of(text_);
    return fields ? std::optional(FormParts{std::move(*fields), {}}) : std::nullopt;
}

}  // namespace casebound
