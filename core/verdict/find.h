// Finding by parts of numbers, by titles and by words: items, groups, vehicle lines and jobs, best first. The index is a
// file beside the catalog, derived from it and made anew when the packs have changed. Never decides whether a part fits.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/verdict/catalog.h"

namespace casebound {

enum class FoundKind : std::uint8_t { item, group, line, job };

struct Found {
    FoundKind kind = FoundKind::item;
    std::string key, title;
};

struct FindAnswer {
    std::vector<Found> found;               // best first
    bool more{};                            // there are others behind those
    std::vector<std::string> did_you_mean;  // when nothing is found: words or numbers that are near
};

std::string_view found_kind_words(FoundKind kind);  // "item", "vehicle line"

class Finder {
public:
    // `path`: of the index; where it cannot be written it is made in memory. The catalog must outlive this.
    Finder(const Catalog& catalog, const std::string& path);

    // Every word must be found: as part of the number, or as the beginning of a word of the title.
    FindAnswer find(std::string_view words, std::size_t most) const;

private:
    const Catalog& catalog_;
    mutable Database index_;
};

}  // namespace casebound
