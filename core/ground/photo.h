// A photo as it is kept: what is known of the file beside the shop file. Data alone.
#pragma once

#include <cstdint>
#include <string>

namespace casebound {

struct Photo {
    std::int64_t number{};                    // in the shop file; what a person calls it by
    std::string sha256, type;                 // jpeg, png, webp
    std::int64_t bytes{}, width{}, height{};  // in pixels, as it is shown
    std::string taken, entered;  // the day by the camera's clock, "" when it does not say; the day it was kept
    std::string path;            // of its file; it may have been taken away by hand
};

}  // namespace casebound
