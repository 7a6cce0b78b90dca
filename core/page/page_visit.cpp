#include "core/page/page_visit.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "core/contract/text.h"

namespace casebound {

namespace {

const std::string* first_of(const Fields& fields, std::string_view name) {
    const auto found = std::find_if(fields.begin(), fields.end(),
                                    [&](const auto& field) { return field.first == name; });
    return found == fields.end() ? nullptr : &found->second;
}

// The visit's address with another place to begin the list at.
std::string beginning_at(const Visit& visit, std::string_view name, std::size_t from) {
    Fields query;
    for (const auto& field : visit.request.query)
        if (field.first != name) query.push_back(field);
    if (from > 0) query.emplace_back(name, std::to_string(from));
    return address(visit.request.path, query);
}

}  // namespace

std::string Visit::asked(std::string_view name) const {
    const auto* found = first_of(request.query, name);
    return found ? std::string(trimmed(*found)) : "";
}

std::vector<std::string> Visit::all_asked(std::string_view name) const {
    std::vector<std::string> all;
    for (const auto& [key, value] : request.query)
        if (key == name && !trimmed(value).empty()) all.emplace_back(trimmed(value));
    return all;
}

std::string Visit::typed(std::string_view name) const {
    const auto* found = first_of(request.form, name);
    return found ? std::string(trimmed(*found)) : "";
}

std::string Visit::url() const { return address(request.path, request.query); }

std::string address(const std::string& path, const Fields& query) {
    std::string out;
    for (std::size_t from = 0; from < path.size();) {
        const auto slash = std::min(path.find('/', from), path.size());
        out += url_escaped(path.substr(from, slash - from));
        if (slash < path.size()) out += '/';
        from = slash + 1;
    }
    for (const auto& [name, value] : query)
        out += fmt::format("{}{}={}", out.find('?') == std::string::npos ? "?" : "&", url_escaped(name),
                           url_escaped(value));
    return out;
}

std::string vehicle_address(std::string_view vehicle, std::string_view rest) {
    return fmt::format("/vehicle/{}{}", url_escaped(vehicle), rest);
}

Stretch stretch_of(const Visit& visit, std::size_t all, std::size_t most, std::string_view name) {
    const auto text = visit.asked(name);
    std::size_t from = 0;
    std::from_chars(text.data(), text.data() + text.size(), from);
    from = all == 0 ? 0 : std::min(from, all - 1) / most * most;
    return {from, std::min(all, from + most), all};
}

void write_stretch(Html& html, const Visit& visit, const Stretch& stretch, std::size_t most, std::string_view name) {
    if (stretch.all <= most) return;
    const auto nav = html.in("nav", {{"class", "stretch"}, {"aria-label", "More of this list"}});
    html.element("span", fmt::format("{} to {} of {}", stretch.from + 1, stretch.to, stretch.all));
    if (stretch.from > 0)
        html.link(beginning_at(visit, name, stretch.from >= most ? stretch.from - most : 0), "Before");
    if (stretch.to < stretch.all) html.link(beginning_at(visit, name, stretch.to), "Next");
}

}  // namespace casebound
