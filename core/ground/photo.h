// A photo: as it is kept, what is known of the file beside the shop file; and its bytes, freed of what they say beside
// the picture. Data alone.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace casebound {

struct Photo {
    std::int64_t number{};                    // in the shop file; what a person calls it by
    std::string sha256, type;                 // jpeg, png, webp
    std::int64_t bytes{}, width{}, height{};  // in pixels, as it is shown
    std::string taken, entered;  // the day by the camera's clock, "" when it does not say; the day it was kept
    std::string path;            // of its file; it may have been taken away by hand
};

struct CleanPhoto {
    std::string_view type{};          // jpeg, png, webp
    std::uint32_t width{}, height{};  // in pixels, as it is shown: turned
    int turn = 1;                     // Exif 2.3, tag 274: 1 is upright; 2 to 8
    std::string taken{};              // the day, by the clock of what took it: YYYY-MM-DD; "" when it is not said
    std::string bytes{};              // the picture without what is left out
};

}  // namespace casebound
