// libFuzzer on what reads photos: whatever is sent is refused or taken, within its bounds, and what was taken is taken
// again as it is. Begin with the small ones: photo_fuzz FOLDER tests/ground/photos
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/ground/error.h"
#include "core/ground/photo_bytes.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const auto photo = casebound::clean_photo({reinterpret_cast<const char*>(data), size}, "fuzzed");
        constexpr std::size_t most_added = 64;
        if (photo.bytes.size() > size + most_added || photo.width == 0 || photo.height == 0) std::abort();
        if (casebound::clean_photo(photo.bytes, "again").bytes != photo.bytes) std::abort();
    } catch (const casebound::Error&) {}
    return 0;
}
