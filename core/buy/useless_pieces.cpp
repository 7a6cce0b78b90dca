#include "core/buy/useless_pieces.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/session/typed_names.h"

namespace casebound {

namespace {

bool serves_any(const Piece& piece, const std::vector<Need>& needs) {
    return std::any_of(needs.begin(), needs.end(), [&](const Need& need) {
        return std::any_of(need.served_by.begin(), need.served_by.end(),
                           [&](const Serves& way) { return way.item == piece.key() || way.item == piece.item; });
    });
}

// What becomes of it: nothing, where the rest of its kit is used.
std::string what_to_do(const Buying& buying, const Piece& piece) {
    const bool rest_serves = std::any_of(buying.here.begin(), buying.here.end(), [&](const Piece& other) {
        return other.item == piece.item && other.content != piece.content && serves_any(other, buying.needs);
    });
    return rest_serves ? "the rest of the kit does" : "stop it or send it back";
}

}  // namespace

std::vector<std::string> useless_words(const Buying& buying, const Catalog& catalog) {
    std::vector<std::string> all;
    for (const auto& piece : buying.here) {
        const bool for_a_line = std::any_of(buying.needs.begin(), buying.needs.end(),
                                            [&](const Need& need) { return among(piece.roles, need.line); });
        if (for_a_line && !serves_any(piece, buying.needs))
            all.push_back(fmt::format("CHECK: {}, {} {} for {}, serves no line of this order: {}.", piece.key(),
                                      piece.came() ? "here since" : "ordered", piece.last,
                                      place_titles(catalog, piece.roles), what_to_do(buying, piece)));
    }
    return all;
}

}  // namespace casebound
