// What a domain throws ends at the guard; memory that is refused ends the answer.
#include <catch2/catch.hpp>

#include <string>

#include "core/ground/error.h"
#include "core/host/guarded_domain.h"

using namespace casebound;

namespace {

template <class Thrown> struct Throwing : Domain {
    std::string_view title() const override { return "racks"; }
    std::string_view schema() const override { return ""; }
    Vocabulary vocabulary() const override { throw Thrown(); }
};

struct OutOfRange : std::out_of_range {
    OutOfRange() : std::out_of_range("vector::at") {}
};

}  // namespace

TEST_CASE("what a domain throws is said to be its failure") {
    const Throwing<OutOfRange> domain;
    const auto asked = GuardedDomain("racks", domain).vocabulary();
    CHECK_FALSE(asked);
    CHECK(asked.failure == "racks failed in vocabulary(): vector::at");
}

TEST_CASE("memory that is refused while a domain is asked is no answer of the domain, and names it") {
    const Throwing<std::bad_alloc> domain;
    std::string said;
    try {
        GuardedDomain("racks", domain).vocabulary();
    } catch (const OutOfMemoryIn& error) { said = error.what(); }
    CHECK(said == "racks was asked vocabulary()");
    const std::string long_one(500, 'r');
    CHECK(std::string(OutOfMemoryIn(long_one, "vocabulary()").what()) == long_one.substr(0, 199));
}
