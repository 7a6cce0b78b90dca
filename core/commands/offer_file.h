// Offers as they are typed: as words of `offer add`, and as the rows of a CSV file with the same names as its header.
// Puts nothing on file.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/shop/shop_offers.h"
#include "core/work/key_value_args.h"

namespace casebound {

const std::vector<std::string>& offer_keys();

// What is said of a seller beside an offer.
struct TermsSaid {
    std::optional<std::int64_t> carriage, free_from, minimum;
    bool any() const { return carriage || free_from || minimum; }
    SellerTerms of(const std::string& seller) const {
        return {seller, carriage.value_or(0), free_from, minimum.value_or(0)};
    }
};

struct OfferWords {
    TermsSaid terms;
    OfferOnFile offer;
    unsigned long line{};  // of a file
};

// Throws Error(usage) that names the key.
OfferWords offer_from(const KeyValueArgs& words);

struct OffersRead {
    std::vector<SellerTerms> sellers;
    std::vector<OfferOnFile> offers;
};

// Every row is one offer; `meant` gives the item that a part number stands for. Throws Error(bad_data) that names every
// row that cannot be, and both of two that do not say the same of one thing.
OffersRead read_offers(const std::string& path, const std::function<std::string(const std::string&)>& meant);

}  // namespace casebound
