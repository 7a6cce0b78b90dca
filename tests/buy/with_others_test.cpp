// Stand-ins that are ordered with what must be fitted with them. All items and prices are invented.
#include <catch2/catch.hpp>

#include "core/buy/with_others.h"

using namespace casebound;

namespace {

Need need(std::string line, std::vector<std::string> items) {
    Need made{std::move(line), 1, "each", {}};
    for (auto& item : items) made.served_by.push_back({std::move(item)});
    return made;
}

// The new filter stands in for the old one, with its own gasket.
const std::vector<WithOthers> ways{{"filter-new", "filter-old", need("filter", {"NEW"}), {need("gasket", {"G-NEW"})}}};

Market at(std::initializer_list<std::pair<std::string, std::int64_t>> prices) {
    Market market;
    for (const auto& [item, cents] : prices) market.offers.push_back({"Pier", item, cents});
    market.sellers.push_back({"Pier"});
    return market;
}

std::size_t taken(const std::vector<Need>& needs, const Market& market) {
    return cheapest_ways(needs, ways, market, {}).size();
}

}  // namespace

TEST_CASE("a stand-in is taken with what goes with it where nothing else is to be had, or where both cost less") {
    const std::vector<Need> needs{need("filter", {"OLD"})};
    CHECK(taken(needs, at({{"NEW", 2000}, {"G-NEW", 1000}})) == 1);
    CHECK(taken(needs, at({{"NEW", 2000}, {"G-NEW", 1000}, {"OLD", 3001}})) == 1);
    CHECK(taken(needs, at({{"NEW", 2000}, {"G-NEW", 1000}, {"OLD", 3000}})) == 0);  // a tie goes to what is recorded
}

TEST_CASE("without what goes with it a stand-in is not ordered") {
    const std::vector<Need> needs{need("filter", {"OLD"})};
    CHECK(taken(needs, at({{"NEW", 2000}})) == 0);
    CHECK(taken(needs, at({{"NEW", 2000}, {"OLD", 9000}})) == 0);
}

TEST_CASE("what goes with a stand-in takes the place of what the line would have taken") {
    const std::vector<Need> needs{need("filter", {"OLD"}), need("gasket", {"G-OLD", "G-NEW"})};
    const auto with = with_ways(needs, {&ways.front()});
    REQUIRE(with.size() == 2);
    CHECK(with[0].served_by.front().item == "NEW");
    REQUIRE(with[1].served_by.size() == 1);
    CHECK(with[1].served_by.front().item == "G-NEW");
    CHECK(with[1].quantity == 1);
}
