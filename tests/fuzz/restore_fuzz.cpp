// A file to restore the shop from: taken whole, or refused and nothing written.
#include "core/ground/error.h"
#include "core/shop/shop_backup.h"
#include "core/shop/shop_file.h"
#include "core/store/sqlite.h"
#include "tests/fuzz/target.h"

using namespace casebound;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const fuzz::Folder folder;
    const auto file = folder.write("backup.tar", fuzz::text_of(data, size));
    const auto home = folder.fresh("home");
    std::filesystem::create_directories(home);
    try {
        const auto restored = restore_shop(file, home + "/shop.sqlite", home + "/packs");
        fuzz::promised(std::filesystem::exists(restored.shop), "what is restored is there");
        Database shop(restored.shop, Database::Mode::read_only);
    } catch (const Error&) {
        fuzz::promised(!std::filesystem::exists(home + "/shop.sqlite"), "what is refused is not written");
    }
    return 0;
}
