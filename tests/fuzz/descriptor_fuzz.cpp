// The descriptor of a pack: read with suspicion; brought up to date twice it is the same text.
#include "core/ground/error.h"
#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_faults.h"
#include "tests/fuzz/target.h"

using namespace casebound;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const fuzz::Folder folder;
    const auto text = fuzz::text_of(data, size);
    folder.write(std::string("pack/") + descriptor_file, text);
    FaultList faults;
    try {
        const auto read = read_descriptor(folder.file("pack"), faults);
        fuzz::promised(read || !faults.empty(), "what cannot be read has a fault");
        if (read && faults.empty()) fuzz::promised(is_pack_name(read->name), "a pack that is taken has a name");
        for (const auto& file : read ? read->files : std::vector<DescribedFile>{})
            fuzz::promised(!faults.empty() || file.path.find("..") == std::string::npos,
                           "no file leads out of the pack");
    } catch (const Error&) {}
    try {
        const auto once = described(std::string(text), "yard", {});
        fuzz::promised(described(once, "yard", {}) == once, "brought up to date twice it is the same");
    } catch (const Error&) {}
    return 0;
}
