// One order as text and as JSON: who sells what, terms of return, tax, and what is left over. Renders only; what it
// shows beside the total, tax and the worth of what is left over, never moves the choice of an order.
#pragma once

#include <optional>
#include <string>

#include "core/buy/buying.h"
#include "core/say/json_of.h"

namespace casebound {

// The currency of all prices; "" until it is set: prices are bare numbers then, and currency_hint says how it is set.
std::string currency_of(Session& session);
std::string currency_hint(const std::string& currency);  // a line, or ""

std::string money_text(std::int64_t cents, const std::string& currency);  // "65.00 EUR", "-3.00"
std::string amount_text(double value, const std::string& unit);           // "2", "5.3 L"
std::string days_text(int days);                                          // "at once", "in 2 days"
std::string packs_text(int packs, double pack_quantity);                  // "3"; "3 packs of 2"
std::string here_text(std::optional<int> days);                           // "here in 2 days", "days not said"
std::string arrival_text(const Order& order);                   // "Everything is here ...", "Arrival not known: ..."
std::vector<std::string> days_not_said_by(const Order& order);  // sellers
std::string item_words(const Buying& buying, const std::string& key);  // of a kit that is here: its number alone
std::string title_of(const Buying& buying, const std::string& key);    // the key when it has none
std::string as_typed(const std::string& told);                         // "pan_depth=41 mm": "\"pan depth=41 mm\""
// Does the question that stands first settle all that is open?
bool settled_by_question(const Buying& buying);
// What settles the open lines, at what price, and how to tell it.
std::string settling_text(const Buying& buying, const std::string& vehicle, const std::string& price);
std::string first_of(const std::vector<std::string>& names);  // "A, B, C and 4 more"
std::string titles_of(const Buying& buying, const std::vector<std::string>& keys);

// Of a line: how many packs, and of how many; of what is at hand already also what an opened one holds.
std::string packs_words(const Buying& buying, const SellerOrder& seller, const OrderLine& line);
bool is_opened(const SellerOrder& seller, const OrderLine& line);

// Of a line: the item's spec, padding, core charge, whether it may go back.
std::vector<std::string> line_terms(const Buying& buying, const SellerOrder& seller, const OrderLine& line,
                                    const std::string& currency);

bool cores_lost(const Order& order);  // no old part is there to hand in: core charges are in the total
std::string total_text(const Order& order, const std::string& currency);  // "Total 65.00: goods 60.00, carriage 5.00"
std::string cores_text(const Order& order, const std::string& currency);  // a sentence; "" without core charges

std::int64_t tax_cents(const Order& order, double percent);  // on goods and carriage, not on core charges
// What a line's spare comes to at the price of what was bought for it; nothing when kits or the own shelf serve it.
std::optional<std::int64_t> pro_rata_cents(const Order& order, const Bought& bought);

std::string need_text(const Bought& bought);  // "4.73 L, of which 0.43 L reserve"
std::string order_text(const Buying& buying, const Order& order, double tax_percent, const std::string& currency);
Json json_of(const Order& order, double tax_percent = 0);

}  // namespace casebound
