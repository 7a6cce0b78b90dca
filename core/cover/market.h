// What is needed, what is on offer and from whom, and an order that was made of it. Data alone: decides nothing.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace casebound {

inline constexpr int unlimited_packs = 1'000'000;

// One of `item` gives `quantity` of a line, in the line's unit. Lines that take the same content of the same item share
// it: one piece serves one place. A kit stands in several lines, each with the content that serves it.
struct Serves {
    std::string item;
    double quantity = 1;
    std::string spec{};     // items of different specs never make up one line together
    std::string content{};  // of a kit: which of the things in it; empty: the item itself
};

struct Need {
    std::string line;
    double quantity = 1;  // reserve included
    std::string unit = "each";
    std::vector<Serves> served_by;      // any of these
    double reserve = 0;                 // of the quantity: what may be spilt
    std::string title{};                // what sentences call the line; empty: as it is keyed
    double least = 0;                   // so much in place is enough: of what is poured, without reserve
    std::vector<std::string> groups{};  // a part of any of these serves it, whatever it comes in
    std::vector<std::string> may_be{};  // a part of any of these may be in it: it fits some of what is still possible
};

struct Offer {
    std::string seller, item;
    std::int64_t pack_cents{};  // own stock: 0, or what it would bring otherwise
    double pack_quantity = 1;   // of the item
    int available = unlimited_packs;
    std::optional<int> days{};             // until it is here; not said when empty, and then in time for nothing
    std::optional<bool> returnable{};      // not said when empty, and then counted as what cannot go back
    double return_fee{};                   // share of the price that is kept, 0 to 1
    std::int64_t return_carriage_cents{};  // what sending one pack back costs
    std::string return_by{};               // as the seller puts it
    std::int64_t core_cents{};             // charged with each pack, and paid back for the old part
    std::string core_return_by{};
};

struct Seller {
    std::string name;
    std::int64_t carriage_cents{};
    std::optional<std::int64_t> free_from_cents{};  // of goods
    std::int64_t minimum_cents{};                   // of goods
    bool own_shelf{};                               // not counted as a seller
};

struct Market {
    std::vector<Offer> offers;
    std::vector<Seller> sellers;
};

struct PurchaseLimits {
    std::optional<int> most_sellers{}, within_days{};
    bool cores_come_back = true;  // false: there is no old part to hand in, and core charges are a cost
};

struct OrderLine {
    std::string item;
    std::size_t offer{};              // in the market
    int packs{};                      // padding included
    int padding{};                    // of these: only to reach free carriage or the minimum order
    std::int64_t cents{};             // for all packs, without core charges
    std::vector<std::string> serves;  // lines
    std::vector<double> gives;        // to each of them, in its unit; what nobody needs goes to the first
    double pack_quantity = 1;         // of the item, in each pack
};

struct SellerOrder {
    std::string seller;
    bool own_shelf{}, carriage_free{};  // carriage_free: the threshold was reached
    std::int64_t goods_cents{}, carriage_cents{}, core_cents{};
    std::optional<int> days{};     // the latest; not known when one of its offers does not say
    std::vector<OrderLine> lines;  // by item
};

struct Bought {
    std::string line, unit;
    double needed{}, bought{};  // without padding
    double reserve{};           // of what is needed
    double spare() const { return bought - needed; }
};

struct Order {
    std::vector<SellerOrder> sellers;  // by name
    std::vector<Bought> bought;        // by line, as needed
    std::int64_t goods_cents{}, carriage_cents{};
    std::int64_t core_cents{};  // to pay and to get back in time; in total_cents only when no core comes back
    std::int64_t total_cents{};
    std::optional<int> days{};  // the latest arrival sets the start; not known when a seller's is not
    int seller_count{};         // without the own shelf
};

struct Unmet {
    std::string line, unit;
    double missing{};
    std::string reason;
    std::string title{};  // of the line, as in Need
};

std::string cents_text(std::int64_t cents);  // "65.00"

}  // namespace casebound
