#include "core/serve/form_parts.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "core/serve/form_fields.h"
#include "core/shop/shop_photos.h"

namespace casebound {

namespace {

constexpr std::size_t most_name_bytes = 255, most_head_bytes = 2048, most_text_bytes = 256 * 1024, most_files = 20;
constexpr std::string_view head_end = "\r\n\r\n";

std::string small(std::string_view text) {
    std::string out(text);
    for (auto& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return out;
}

// "x" of: name="x"; browsers write a quote within as %22.
std::optional<std::string> parameter(std::string_view line, std::string_view name) {
    const auto mark = fmt::format("; {}=\"", name);
    const auto at = small(line).find(mark);
    if (at == std::string::npos) return std::nullopt;
    const auto from = at + mark.size();
    const auto end = line.find('"', from);
    if (end == std::string_view::npos || end - from > most_name_bytes) return std::nullopt;
    return std::string(line.substr(from, end - from));
}

// The line of the part's head that says what it is; "" when there is none.
std::string_view disposition(std::string_view head) {
    while (!head.empty()) {
        const auto end = std::min(head.find("\r\n"), head.size());
        const auto line = head.substr(0, end);
        if (small(line).rfind("content-disposition: form-data;", 0) == 0) return line;
        head.remove_prefix(std::min(end + 2, head.size()));
    }
    return {};
}

}  // namespace

std::string boundary_in(std::string_view content_type) {
    constexpr std::size_t most = 70;
    const auto all = small(content_type);
    if (all.rfind("multipart/form-data", 0) != 0) return {};
    const auto at = all.find("boundary=");
    if (at == std::string::npos) return {};
    auto boundary = content_type.substr(at + 9);
    boundary = boundary.substr(0, boundary.find(';'));
    if (boundary.size() > 1 && boundary.front() == '"' && boundary.back() == '"')
        boundary = boundary.substr(1, boundary.size() - 2);
    const bool sound = !boundary.empty() && boundary.size() <= most &&
                       std::all_of(boundary.begin(), boundary.end(), [](char c) { return c > ' ' && c < 0x7f; });
    return sound ? std::string(boundary) : std::string();
}

PartsReader::PartsReader(std::string_view boundary, std::string folder)
    : mark_(fmt::format("\r\n--{}", boundary)), folder_(std::move(folder)), waiting_("\r\n") {
}  // the first has no line before it

bool PartsReader::take(std::string_view bytes) {
    if (at_ == At::wrong) return false;
    if (at_ == At::end) return true;  // what stands behind it is nobody's
    waiting_ += bytes;
    while (step()) {}
    return at_ != At::wrong;
}

bool PartsReader::step() {
    const auto wrong = [&] {
        at_ = At::wrong;
        return false;
    };
    switch (at_) {
        case At::beginning:
            if (waiting_.size() < mark_.size()) return mark_.starts_with(waiting_) ? false : wrong();
            if (!waiting_.starts_with(mark_)) return wrong();
            waiting_.erase(0, mark_.size());
            at_ = At::behind_mark;
            return true;
        case At::behind_mark:
            if (waiting_.size() < 2) return false;
            if (waiting_.starts_with("--")) {
                waiting_.clear();
                at_ = At::end;
                return false;
            }
            if (!waiting_.starts_with("\r\n")) return wrong();
            waiting_.erase(0, 2);
            at_ = At::head;
            return true;
        case At::head: {
            const auto end = waiting_.find(head_end);
            if (end > most_head_bytes)
                return end == std::string::npos && waiting_.size() <= most_head_bytes ? false : wrong();
            if (!begin_part(std::string_view(waiting_).substr(0, end))) return wrong();
            waiting_.erase(0, end + head_end.size());
            at_ = At::content;
            return true;
        }
        case At::content: {
            const auto end = waiting_.find(mark_);
            const auto sure = end != std::string::npos ? end
                                                       : waiting_.size() - std::min(waiting_.size(), mark_.size() - 1);
            content(std::string_view(waiting_).substr(0, sure));
            waiting_.erase(0, sure);
            if (texts_ > most_text_bytes) return wrong();
            if (end == std::string::npos) return false;
            if (!end_part()) return wrong();
            waiting_.erase(0, mark_.size());
            at_ = At::behind_mark;
            return true;
        }
        case At::end:
        case At::wrong: return false;
    }
    return false;
}

bool PartsReader::begin_part(std::string_view head) {
    const auto line = disposition(head);
    const auto name = parameter(line, "name");
    if (!name || !is_form_text(*name, false)) return false;
    name_ = *name;
    text_.clear();
    file_.reset();
    const auto file = parameter(line, "filename");
    is_file_ = file.has_value();
    if (!file || file->empty()) return true;
    if (!is_form_text(*file, false) || parts_.files.size() == most_files) return false;
    file_ = std::make_shared<PassingFile>(folder_, sent_photo);
    parts_.files.push_back({name_, *file, file_->path(), file_});
    return true;
}

void PartsReader::content(std::string_view bytes) {
    if (file_) file_->write(bytes);
    if (is_file_) return;
    texts_ += bytes.size();
    text_ += bytes;
}

bool PartsReader::end_part() {
    if (is_file_) return true;
    if (!is_form_text(text_, true)) return false;
    parts_.fields.emplace_back(name_, std::move(text_));
    return parts_.fields.size() <= most_fields;
}

std::optional<FormParts> PartsReader::whole() {
    file_.reset();
    return at_ == At::end ? std::optional(std::move(parts_)) : std::nullopt;
}

std::optional<FormParts> parts_of(std::string_view body, std::string_view boundary) {
    PartsReader reader(boundary, {});
    return reader.take(body) ? reader.whole() : std::nullopt;
}

}  // namespace casebound
