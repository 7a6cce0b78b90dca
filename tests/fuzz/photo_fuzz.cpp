// A photo: refused or taken within its bounds, and what was taken is taken again as it is.
#include "core/ground/error.h"
#include "core/ground/photo_bytes.h"
#include "tests/fuzz/target.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const auto photo = casebound::clean_photo(fuzz::text_of(data, size), "fuzzed");
        constexpr std::size_t most_added = 64;
        fuzz::promised(photo.bytes.size() <= size + most_added, "it grows by no more than its turn");
        fuzz::promised(photo.width > 0 && photo.height > 0, "it has a size");
        fuzz::promised(casebound::clean_photo(photo.bytes, "again").bytes == photo.bytes, "it is taken again as it is");
    } catch (const casebound::Error&) {}
    return 0;
}
