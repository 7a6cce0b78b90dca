#include "core/ground/photo_bytes.h"

#include <utility>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/photo_parts.h"

namespace casebound {

namespace {

constexpr std::string_view taken_kinds = "a photo is taken as JPEG, PNG or WebP";

// ISO/IEC 14496-12, 4.3: a box `ftyp`; what phones save when they are told to save space is of this kind.
bool is_media_container(std::string_view bytes) { return bytes.substr(4, 4) == "ftyp"; }

CleanPhoto read_photo(std::string_view bytes) {
    if (bytes.size() > most_photo_bytes)
        throw PhotoFault(
            fmt::format("it has more than {} MB: set the camera to a smaller size", most_photo_bytes >> 20));
    if (bytes.empty()) throw PhotoFault("it is empty: send it again");
    if (bytes.substr(0, 2) == "\xff\xd8") return jpeg_photo(bytes);
    if (bytes.substr(0, 4) == "\x89PNG") return png_photo(bytes);
    if (bytes.substr(0, 4) == "RIFF" && bytes.size() >= 12 && bytes.substr(8, 4) == "WEBP") return webp_photo(bytes);
    if (bytes.size() >= 12 && is_media_container(bytes))
        throw PhotoFault(
            fmt::format("it is HEIC, AVIF or a film, and {}: set the camera to save JPEG, which it may "
                        "call the most compatible",
                        taken_kinds));
    throw PhotoFault(fmt::format("by its content it is no picture that is known here: {}", taken_kinds));
}

}  // namespace

CleanPhoto clean_photo(std::string_view bytes, const std::string& path) {
    try {
        auto picture = read_photo(bytes);
        if (picture.width == 0 || picture.height == 0) throw PhotoFault("it is no pixel wide or high: send it again");
        if (std::uint64_t{picture.width} * picture.height > most_photo_pixels)
            throw PhotoFault(
                fmt::format("it has {} x {} pixels, more than a phone can show: set the camera to a "
                            "smaller size",
                            picture.width, picture.height));
        constexpr int turned_aside = 5;  // 5 to 8 stand on their side
        if (picture.turn >= turned_aside) std::swap(picture.width, picture.height);
        return picture;
    } catch (const PhotoFault& fault) { throw Error(Exit::bad_data, fmt::format("photo: {}: {}", path, fault.what())); }
}

std::string_view media_type(std::string_view type) {
    return type == "jpeg" ? "image/jpeg" : type == "png" ? "image/png" : "image/webp";
}

std::string_view file_ending(std::string_view type) {
    return type == "jpeg" ? ".jpg" : type == "png" ? ".png" : ".webp";
}

}  // namespace casebound
