// Whole containers for a quantity, against trying every count of every container.
#include <catch2/catch.hpp>

#include "core/verdict/whole_containers.h"
#include "tests/verdict/oracle_generate.h"

using namespace casebound;
using casebound::tests::Dice;

namespace {

Member container(double quantity) {
    Member member;
    member.item = fmt::format("P-{}", quantity);
    member.pack_quantity = quantity;
    return member;
}

struct Total {
    double amount = 0;
    int containers = 0;
};

Total total(const std::vector<Container>& containers) {
    Total sum;
    for (const auto& one : containers) {
        sum.amount += one.quantity * one.count;
        sum.containers += one.count;
    }
    return sum;
}

// Least amount that is enough, then fewest containers, by every combination.
void try_all(double need, const std::vector<Member>& members, std::size_t at, Total so_far, Total& best) {
    if (so_far.amount >= need - 1e-9) {
        const bool less = so_far.amount < best.amount - 1e-9, same = so_far.amount < best.amount + 1e-9;
        if (less || (same && so_far.containers < best.containers)) best = so_far;
        return;
    }
    for (std::size_t i = at; i < members.size(); ++i)
        try_all(need, members, i, {so_far.amount + members[i].pack_quantity, so_far.containers + 1}, best);
}

}  // namespace

TEST_CASE("whole packs give at least the need, with least left over, then in fewest packs") {
    Dice dice(50000000);
    for (int n = 0; n < 400; ++n) {
        std::vector<Member> members;
        for (auto count = dice.between(1, 3); count > 0; --count)
            members.push_back(container(dice.any(std::vector<double>{0.5, 0.946, 1, 3.785, 4, 5, 1.25, 0.2})));
        const double need = static_cast<double>(dice.between(1, 70)) / 10;
        const auto containers = whole_containers(need, members);
        Total best{HUGE_VAL, 0};
        try_all(need, members, 0, {}, best);
        INFO(need);
        REQUIRE(total(containers).amount == Approx(best.amount));
        REQUIRE(total(containers).containers == best.containers);
    }
}

TEST_CASE("five US quarts are five packs of a quart, not six") {
    CHECK(total(whole_containers(4.73, {container(0.946)})).containers == 5);
    CHECK(total(whole_containers(4.7301, {container(0.946)})).containers == 6);
}

TEST_CASE("no pack, no need, or a need beyond reason is answered all the same") {
    CHECK(whole_containers(5, {}).empty());
    CHECK(whole_containers(0, {container(1)}).empty());
    CHECK(total(whole_containers(1e9, {container(1), container(0.946)})).containers == 1000000000);
}
