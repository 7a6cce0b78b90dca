// Photos as the page shows them: small, each a link to itself.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/page/page_visit.h"
#include "core/shop/shop_photos.h"

namespace casebound {

inline constexpr std::string_view photo_address = "/photo/";

// Nothing for none. `what` is said for who does not see it: "pan depth 41 mm".
void write_photos(Html& html, const std::vector<Photo>& photos, const std::string& what);

// Every photo of a vehicle with what it shows, each to be taken back by who may edit.
void write_photo_section(Html& html, const Visit& visit, const std::string& vehicle);

}  // namespace casebound
