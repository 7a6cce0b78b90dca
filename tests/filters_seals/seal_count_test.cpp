#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

#include "science/seal_count.h"

using namespace casebound::filters_seals;

namespace {

SealCountAnswer count(int on_filter, int found, int taken, std::optional<int> in, int bores = 1) {
    return examine_count({bores, on_filter, found, taken, in});
}

}  // namespace

TEST_CASE("one out of the bore, one in: balanced") {
    const SealCountAnswer a = count(0, 1, 1, 1);
    CHECK(a.state == CountState::balanced);
    CHECK(a.judgement == Judgement::fits);
    CHECK(a.out == 1);
    CHECK(a.left_in == 0);
    CHECK_FALSE(a.stacked);
}

TEST_CASE("one came away on the old filter and the bore is empty: one in is balanced") {
    CHECK(count(1, 0, 0, 1).state == CountState::balanced);
}

TEST_CASE("two stacked in the bore: both out, one in, and it is said") {
    const SealCountAnswer before = count(0, 2, 2, std::nullopt);
    CHECK(before.state == CountState::ready_for_new);
    CHECK(before.stacked);
    const SealCountAnswer after = count(0, 2, 2, 1);
    CHECK(after.state == CountState::balanced);
    CHECK(after.say.find("two were stacked") != std::string::npos);
}

TEST_CASE("one on the filter and one still up the bore was a stack: stop until the second is out") {
    const SealCountAnswer a = count(1, 1, 0, std::nullopt);
    CHECK(a.state == CountState::old_one_left_in);
    CHECK(a.stacked);
    CHECK(a.left_in == 1);
    CHECK(a.judgement == Judgement::does_not_fit);
}

TEST_CASE("two stacked, one taken out: never press a new one on an old one") {
    for (const std::optional<int> in : {std::optional<int>{}, std::optional<int>{0}, std::optional<int>{1}}) {
        const SealCountAnswer a = count(0, 2, 1, in);
        CHECK(a.state == CountState::old_one_left_in);
        CHECK(a.say.find("never press a new one on it") != std::string::npos);
    }
}

TEST_CASE("an old seal seen and left is a stop, even before the old filter was looked at") {
    CHECK(examine_count({1, std::nullopt, 1, 0, std::nullopt}).state == CountState::old_one_left_in);
}

TEST_CASE("no old seal anywhere: look again, and one put in does not balance it") {
    CHECK(count(0, 0, 0, std::nullopt).state == CountState::none_found);
    CHECK(count(0, 0, 0, 1).state == CountState::none_found);
    CHECK(count(0, 0, 0, 1).judgement == Judgement::check_first);
}

TEST_CASE("more out of the bore than were seen in it: count again") {
    CHECK(count(0, 1, 2, 1).state == CountState::recount);
}

TEST_CASE("two bores want two, and a missing new one draws air") {
    CHECK(count(1, 1, 1, 2, 2).state == CountState::balanced);
    CHECK(count(1, 1, 1, 1, 2).state == CountState::new_one_missing);
    CHECK(count(1, 1, 1, 3, 2).state == CountState::too_many_new);
    CHECK(count(0, 1, 1, 2, 2).state == CountState::none_found);
}

TEST_CASE("an uncounted place names where to look and never balances") {
    const SealCountAnswer a = examine_count({});
    CHECK(a.state == CountState::not_counted);
    CHECK(a.count_next.size() == 4);
    CHECK_FALSE(a.out);
    CHECK_FALSE(a.left_in);
}

TEST_CASE("counts out of range are refused") {
    CHECK_THROWS_WITH(count(-1, 0, 0, 1), "seals on the old filter: got -1: valid range is 0 to 10");
    CHECK_THROWS_AS(count(0, 11, 0, 1), std::domain_error);
    CHECK_THROWS_AS(count(0, 1, 1, 1, 0), std::domain_error);
}

TEST_CASE("for every count: balanced means all old ones out, one new one a bore, and at least as many out as in") {
    int balanced = 0;
    for (int bores = 1; bores <= 3; ++bores)
        for (int on = 0; on <= 3; ++on)
            for (int found = 0; found <= 3; ++found)
                for (int taken = 0; taken <= 3; ++taken)
                    for (int in = 0; in <= 3; ++in) {
                        const SealCountAnswer a = count(on, found, taken, in, bores);
                        const bool right = taken == found && on + taken >= bores && in == bores;
                        REQUIRE((a.state == CountState::balanced) == right);
                        REQUIRE((a.judgement == Judgement::fits) == right);
                        if (taken < found && in <= bores) REQUIRE(a.state == CountState::old_one_left_in);
                        balanced += right ? 1 : 0;
                    }
    CHECK(balanced > 20);
}

TEST_CASE("leaving out any count never gives fits, and a stop that is left holds for every value of it") {
    std::mt19937 random(101);
    std::uniform_int_distribution<int> n(0, 3), which(0, 3);
    for (int i = 0; i < 20000; ++i) {
        const SealCount full{1, n(random), n(random), n(random), n(random)};
        SealCount part = full;
        switch (which(random)) {
            case 0: part.on_old_filter.reset(); break;
            case 1: part.found_in_bore.reset(); break;
            case 2: part.taken_from_bore.reset(); break;
            default: part.put_in.reset(); break;
        }
        const Judgement known = examine_count(part).judgement;
        REQUIRE(known != Judgement::fits);
        if (known == Judgement::does_not_fit) REQUIRE(examine_count(full).judgement == Judgement::does_not_fit);
    }
}

// Industry technical service bulletin 97-7 on filter O-rings and lip seals.
TEST_CASE("a hat seal goes in the bore first, a ribbed band or O-ring on the neck first") {
    CHECK_FALSE(fit_method(NeckSealForm::hat_in_bore).on_filter_first);
    CHECK(fit_method(NeckSealForm::ribbed_band_on_neck).on_filter_first);
    CHECK(fit_method(NeckSealForm::oring_on_neck).on_filter_first);
    CHECK(fit_method(NeckSealForm::hat_in_bore).may_stay_in_case);
    CHECK_FALSE(fit_method(NeckSealForm::moulded_to_filter).may_stay_in_case);
}
