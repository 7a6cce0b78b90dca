// The order sheet: the cheapest order of what is on file, seller by seller, to tick off; what serves instead of each
// item; and, while the list is not ready, what stands in the way. Orders nothing.
#pragma once

#include "core/buy/order_text.h"
#include "core/sheets/sheets.h"

namespace casebound {

struct OrderSheetLine {
    std::string item, title;
    std::string packs;  // "3", "3 packs of 2", "opened, 0.3 L"
    bool opened{};
    std::int64_t cents{};
    std::vector<std::string> serves;  // titles of the lines
    std::vector<std::string>
        instead;        // by line: what else serves it, and its offer: "LD-2141 (Pier, 33.00 cu), OB-F41"
    std::string terms;  // may it go back, core charge
};

struct OrderSheetSeller {
    std::string seller;
    bool own_shelf{};
    std::int64_t goods_cents{}, carriage_cents{};
    std::optional<int> days{};  // not said when empty
    std::vector<OrderSheetLine> lines;
};

struct OrderSheet {
    SheetHead head;
    std::vector<std::string> jobs;  // titles
    std::string currency;
    double tax_percent{};  // on goods and carriage
    std::vector<OrderSheetSeller> sellers;
    SheetRows sums, not_ready, left_over;
    std::optional<Order> order;  // as bought
    SheetRows right_for{};       // what was told of the vehicle, with how well it is known
    SheetRows right_only_if{};   // told facts and accepted doubts that nobody here has measured
};

// Throws Error(usage) when no job is named and none is open.
OrderSheet order_sheet(Session& session, const Situation& situation, const std::vector<std::string>& jobs);
Sheet sheet_of(const OrderSheet& sheet);

}  // namespace casebound
