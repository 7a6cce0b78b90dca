// Who sells what at which price, and what lies on the own shelf. Only ever added to: the newest row of a seller,
// or of a seller and item, counts, and older ones stay readable. One call is one transaction.
// Checks amounts, not whether an item is in the catalog. Throws Error: 64 for what may not be, 66 for an unknown seller.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/shop/shop_file.h"

namespace casebound {

struct SellerTerms {
    std::string name;
    std::int64_t carriage_cents{};
    std::optional<std::int64_t> free_from_cents{};  // of goods; never when empty
    std::int64_t minimum_cents{};
    std::string entered{};  // YYYY-MM-DD, set by the shop
};

struct OfferOnFile {
    std::string seller, item;
    double pack_quantity = 1;  // items in one pack
    std::int64_t price_cents{};
    std::optional<std::int64_t> available{};  // packs
    std::optional<int> days{};                // until it is here; not said when empty
    std::optional<bool> returnable{};         // not said when empty
    double return_fee{};                      // share of the price that is kept
    std::int64_t return_carriage_cents{};     // what sending one pack back costs
    std::optional<int> return_days{};         // from the day it comes
    std::int64_t core_cents{};
    std::optional<int> core_days{};
    std::string note{}, entered{};
};

// What came on the own shelf, or with a negative quantity what was taken; `why`: "left over", "bought", "taken", "counted".
struct ShelfMove {
    std::string item;
    double quantity{};
    std::string why, note{};
    std::string opened{};  // day a pack of it was opened; empty: not said, or none was
};

struct OnShelf {
    std::string item;
    double quantity{};
    std::string last;      // day of its newest entry
    std::string opened{};  // newest day a pack of it was opened; empty: not said
};

class ShopOffers {
public:
    explicit ShopOffers(Database& shop) : database_(shop) {}

    std::vector<SellerTerms> sellers() const;                           // by name, as they stand
    std::vector<OfferOnFile> offers(std::string_view item = {}) const;  // by item, then seller; empty: all
    std::optional<OfferOnFile> offer(std::string_view seller, std::string_view item) const;
    // All or none. An offer's seller is on file or among `sellers`.
    void put(const std::vector<SellerTerms>& sellers, const std::vector<OfferOnFile>& offers);
    void withdraw(std::string_view seller, std::string_view item);  // Error 66 when it is not on file

    std::vector<OnShelf> shelf() const;  // by item, what is there
    double on_shelf(std::string_view item) const;
    // One ShelfMove in a transaction of its own.
    void shelve(const ShelfMove& move);

private:
    Database& database_;
};

// Within the caller's transaction. Throws Error 64 for more than is there.
void move_on_shelf(Database& shop, const ShelfMove& move);

// "12.50" in whole cents; empty and negative amounts are refused (Error 64, naming `what`).
std::int64_t cents_from(std::string_view what, std::string_view text);

}  // namespace casebound
