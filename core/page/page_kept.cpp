#include "core/page/page_kept.h"

#include <utility>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/page/page_once.h"
#include "core/shop/shop_backup.h"

namespace casebound {

namespace {

constexpr std::size_t most_bytes = std::size_t{4} << 20;

// With its length, so that two lists of texts never come out alike.
void add(std::string& key, std::string_view text) { key += fmt::format("{}:{}", text.size(), text); }

// Where each of them begins; nothing when one is missing, or stands there twice.
std::optional<std::vector<std::size_t>> places_of(const std::vector<std::string>& texts, const std::string& body) {
    std::vector<std::size_t> places;
    std::size_t from = 0;
    for (const auto& text : texts) {
        const auto at = body.find(text, from);
        if (at == std::string::npos || body.find(text, at + 1) != std::string::npos) return std::nullopt;
        places.push_back(at);
        from = at + text.size();
    }
    return places;
}

}  // namespace

std::optional<std::string> kept_under(const Visit& visit) {
    const auto moment = visit.session.moment();
    if (!moment) return std::nullopt;
    const auto& request = visit.request;
    const auto day = today();
    const auto backup = last_backup(visit.session.options().shop).value_or(LastBackup{});
    std::string key;
    for (const std::string_view part :
         {std::string_view(*moment), std::string_view(day), std::string_view(backup.date),
          std::string_view(backup.path), std::string_view(request.form_token),
          std::string_view(request.may_edit ? "edit" : "look"), std::string_view(request.path)})
        add(key, part);
    for (const auto& [name, value] : request.query) add(key, name), add(key, value);
    return key;
}

std::optional<std::string> KeptPages::find(std::string_view key) const {
    const auto found = kept_.find(key);
    if (found == kept_.end()) return std::nullopt;
    auto body = found->second.body;
    const auto& places = found->second.form_ids;
    const auto ids = new_form_ids(places.size());
    for (std::size_t i = 0; i < places.size(); ++i)
        body.replace(places[i], form_id_letters, ids, i * form_id_letters, form_id_letters);
    return body;
}

void KeptPages::keep(std::string key, std::string body, const std::vector<std::string>& form_ids) {
    auto places = places_of(form_ids, body);
    const auto bytes = key.size() + body.size();
    if (!places || bytes > most_bytes) return;
    if (bytes_ + bytes > most_bytes) {
        kept_.clear();
        bytes_ = 0;
    }
    if (kept_.try_emplace(std::move(key), Kept{std::move(body), std::move(*places)}).second) bytes_ += bytes;
}

KeptPages& kept_pages() {
    static KeptPages kept;
    return kept;
}

}  // namespace casebound
