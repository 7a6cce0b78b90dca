#include "core/pack/csv_lines.h"

#include <cstring>

namespace casebound {

void CsvLines::fill() {
    if (dry_) return;
    std::memmove(buffer_.data(), buffer_.data() + at_, end_ - at_);
    end_ -= at_;
    at_ = 0;
    const std::size_t want = buffer_.size() - end_;
    const std::size_t got = file_.read(buffer_.data() + end_, want);
    dry_ = got < want;
    end_ += got;
    bytes_read_ += got;
}

void CsvLines::skip_line() {
    for (;;) {
        const auto* found = static_cast<const char*>(std::memchr(buffer_.data() + at_, '\n', end_ - at_));
        if (found) {
            at_ = static_cast<std::size_t>(found - buffer_.data()) + 1;
            return;
        }
        at_ = end_;
        if (dry_) return;
        fill();
    }
}

bool CsvLines::next() {
    if (skip_) skip_line();
    skip_ = too_long_ = false;
    const auto find = [&] { return static_cast<const char*>(std::memchr(buffer_.data() + at_, '\n', end_ - at_)); };
    const char* found = find();
    if (!found && !dry_) {
        fill();
        found = find();
    }
    if (at_ == end_) return false;
    const char* const start = buffer_.data() + at_;
    too_long_ = skip_ = !found && !dry_;
    std::size_t length = found ? static_cast<std::size_t>(found - start) : end_ - at_;
    at_ += length + (found ? 1 : 0);
    if (found && length > 0 && start[length - 1] == '\r') --length;
    text_ = {start, length};
    ++number_;
    return true;
}

}  // namespace casebound
