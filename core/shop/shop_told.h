// What was told about the vehicles of the shop file. Only ever added to: a correction or a withdrawal is a new entry,
// and the history keeps both. One call is one transaction. Throws Error: 64 for what may not be told, 66 for a vehicle
// or an entry that is not there, 75 when busy.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "core/reason/told_fact.h"
#include "core/shop/shop_file.h"

namespace casebound {

TellEvidence tell_evidence_from(std::string_view words);  // "seller said", "seller-said", "seller_said"

// Of everything told of a vehicle, oldest first: what stands, by attribute, and what clashes with it and is to be
// settled: newer hearsay that says something else, and what was measured and then measured or read otherwise, until the
// same is measured twice; of one value the newest entry. `same`: whether two entries of an attribute say the
// same, within what measuring allows.
using SameValue = std::function<bool(const ToldFact&, const ToldFact&)>;
std::vector<ToldFact> standing_in(const std::vector<ToldFact>& history);
std::vector<ToldFact> clashes_in(const std::vector<ToldFact>& history, const SameValue& same);

class ShopTold {
public:
    explicit ShopTold(Database& shop) : database_(shop) {}

    // All or none. Returns the new ids. A second telling of an attribute replaces the first in standing(). An empty
    // date is today; `id`, `withdrawn` and `stands` are set by the shop.
    std::vector<std::int64_t> tell(std::string_view vehicle, const std::vector<ToldFact>& facts);
    std::int64_t tell(std::string_view vehicle, const ToldFact& fact) {
        return tell(vehicle, std::vector{fact}).front();
    }
    // Withdraws what stands about the attributes; nothing older comes back. Error 66 when nothing stands.
    // All or none.
    std::vector<std::int64_t> untell(std::string_view vehicle, const std::vector<std::string>& attributes,
                                     std::string_view note = {});
    std::vector<ToldFact> standing(std::string_view vehicle) const;  // by attribute
    std::vector<ToldFact> history(std::string_view vehicle) const;   // everything, oldest first

private:
    std::vector<ToldFact> entries(std::string_view vehicle, bool standing_only) const;
    Database& database_;
};

// Within the caller's transaction; as ShopTold::tell.
std::vector<std::int64_t> add_told(Database& shop, std::string_view vehicle, const std::vector<ToldFact>& facts);

}  // namespace casebound
