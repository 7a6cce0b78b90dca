#include "core/page/page_once.h"

#include <algorithm>

#include "core/ground/file_stamp.h"
#include "core/ground/secret.h"

namespace casebound {

namespace {

constexpr std::size_t most_kept = 1000;

FormIdsMade* noting = nullptr;

// "" for a form without an id.
std::string key_of(const PageRequest& request) {
    bool has_id = false;
    std::string all = request.path;
    for (const auto* fields : {&request.query, &request.form})
        for (const auto& [name, value] : *fields) {
            has_id = has_id || (fields == &request.form && name == "once" && !value.empty());
            all.append(1, '\0').append(name).append(1, '\0').append(value);
        }
    for (const auto& file : request.files) all.append(1, '\0').append(file.field).append(stamp_file(file.path).sha256);
    return has_id ? sha256_of(all) : "";
}

}  // namespace

std::string new_form_ids(std::size_t count) { return new_secrets(count); }

FormIdsMade::FormIdsMade() { noting = this; }
FormIdsMade::~FormIdsMade() { noting = nullptr; }

std::string new_form_id() {
    auto id = new_secret();
    if (noting) noting->ids_.push_back(id);
    return id;
}

std::optional<PageReply> FormsDone::answer(const PageRequest& request) const {
    const auto key = key_of(request);
    const auto found = std::find_if(done_.begin(), done_.end(), [&](const auto& one) { return one.first == key; });
    return key.empty() || found == done_.end() ? std::nullopt : std::optional(found->second);
}

PageReply& FormsDone::begin(const PageRequest& request, PageReply reply) {
    done_.emplace_back(key_of(request), std::move(reply));
    if (done_.size() > most_kept) done_.pop_front();
    return done_.back().second;
}

void FormsDone::take_back() { done_.pop_back(); }

FormsDone& forms_done() {
    static FormsDone done;
    return done;
}

}  // namespace casebound
