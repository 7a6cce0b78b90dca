#include "core/pack/reference_packs.h"

#include <filesystem>
#include <system_error>

#include "core/pack/pack_descriptor.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

// "" where there is none.
std::string pack_of(const LoadedDomain& domain) {
    const auto beside = fs::path(domain.path).parent_path();
    std::error_code ignored;
    for (const auto& folder : {beside / domain.name, beside / "../../../share/casebound/packs" / domain.name})
        if (fs::is_regular_file(folder / descriptor_file, ignored)) return fs::weakly_canonical(folder).string();
    return {};
}

// What cannot be read is left for the one who loads it to find.
bool says_invented(const std::string& folder) {
    FaultList faults;
    const auto descriptor = read_descriptor(folder, faults);
    return descriptor && descriptor->invented;
}

}  // namespace

std::vector<ReferencePack> reference_packs(const Plugins& plugins) {
    std::vector<ReferencePack> packs;
    for (const auto& domain : plugins.domains)
        if (auto folder = pack_of(domain); !folder.empty())
            packs.push_back({domain.name, folder, says_invented(folder)});
    return packs;
}

}  // namespace casebound
