// The photos of a vehicle, each with what it shows in words. Reads only.
#pragma once

#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/shop/shop_photos.h"

namespace casebound {

struct WordedPhoto : KeptPhoto {
    std::vector<std::string> of{};  // "pan depth, rail to floor: 41 mm (measured), 2026-11-25"
    bool there{};                   // its file
    bool stands() const { return taken_back.empty(); }
};

std::vector<WordedPhoto> worded_photos(Session& session, const std::string& vehicle);  // oldest first

// "4032 x 3024 pixels, 3.4 MB, taken 2026-11-24"
std::string photo_measure(const Photo& photo);

}  // namespace casebound
