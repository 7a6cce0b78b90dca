#include "core/page/page_photos.h"

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/page/page_form.h"
#include "core/sheets/photo_words.h"

namespace casebound {

void write_photos(Html& html, const std::vector<Photo>& photos, const std::string& what) {
    if (photos.empty()) return;
    const auto row = html.in("span", {{"class", "photos"}});
    for (const auto& photo : photos) {
        const auto address = std::string(photo_address) + photo_file_name(photo);
        const auto link = html.in("a", {{"href", address}});
        html.empty("img", {{"src", address},
                           {"alt", fmt::format("Photo {}{}{}", photo.number, what.empty() ? "" : ": ", what)},
                           {"width", std::to_string(photo.width)},
                           {"height", std::to_string(photo.height)},
                           {"loading", "lazy"}});
    }
}

void write_photo_section(Html& html, const Visit& visit, const std::string& vehicle) {
    const auto all = worded_photos(visit.session, vehicle);
    std::size_t standing = 0;
    for (const auto& one : all) standing += one.stands();
    if (standing == 0) return;
    const auto section = html.in("details", {{"id", "photos"}});
    html.element("summary", fmt::format("Photos ({})", standing));
    const auto list = html.in("ul", {{"class", "told"}});
    for (const auto& one : all) {
        if (!one.stands()) continue;
        const auto item = html.in("li");
        html.element("strong", fmt::format("Photo {}", one.number));
        for (const auto& what : one.of) html.element("span", what);
        html.element("span", fmt::format("{}, kept {}", photo_measure(one), one.entered));
        if (one.there) write_photos(html, {one}, one.of.empty() ? "" : one.of.front());
        else html.element("span", "Its file is gone: put it back from a backup.", {{"class", "stays"}});
        write_form(html, visit,
                   {fmt::format("photo-back/{}", one.number),
                    "",
                    fmt::format("Take back photo {}", one.number),
                    {},
                    {},
                    {{"number", std::to_string(one.number)}}});
    }
}

}  // namespace casebound
