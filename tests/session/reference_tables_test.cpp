// What is in the hand, read and found in the tables of a domain that this test makes up.
#include <catch2/catch.hpp>

#include "core/verdict/reference_tables.h"
#include "tests/fakes.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

Column column(std::string name, std::string meaning, CellKind kind = CellKind::text) {
    Column one;
    one.name = std::move(name);
    one.meaning = std::move(meaning);
    one.kind = kind;
    return one;
}

struct Book {
    TableShape rings{"made_rings", "made", "Rings of a standard.", {}, {}, {}};
    TableShape lips{"made_lips", "made", "Shaft seals.", {}, {}, {}};
    TableShape fits{"made_fits", "made", "Fits of bores.", {}, {}, {}};
    FakeFacts facts;

    Book() {
        const auto mm = CellKind::number;
        rings.columns = {column("size", "number in that standard"), column("id_mm", "inside diameter, mm", mm),
                         column("id_tol_mm", "plus or minus, mm", mm), column("section_mm", "cross-section, mm", mm)};
        lips.columns = {column("shaft_mm", "shaft, mm", mm), column("bore_mm", "bore, mm", mm),
                        column("width_mm", "width, mm", mm)};
        fits.columns = {column("letter", "of the fit"), column("bore_over_mm", "bores above this, mm", mm),
                        column("bore_to_mm", "up to and with this, mm", mm), column("high_mm", "most, mm", mm)};
        facts.table("made_rings", "size,id_mm,id_tol_mm,section_mm\n214,24.99,0.25,3.53\n025,29.87,0.28,1.78\n");
        facts.table("made_lips", "shaft_mm,bore_mm,width_mm\n25,32,7\n32,25,7\n25,35,7\n25,32,6\n");
        facts.table("made_fits", "letter,bore_over_mm,bore_to_mm,high_mm\nH8,18,30,0.033\nH8,30,50,0.039\n");
    }
    std::vector<ReferenceTable> tables() const {
        std::vector<ReferenceTable> all;
        for (const auto* shape : {&rings, &lips, &fits}) all.push_back({shape, &facts.rows(shape->name), shape->name});
        return all;
    }
};

// The first cell of each row that is found, in order.
std::vector<std::string> found(const std::string& typed, std::size_t most = 12) {
    const Book book;
    const auto tables = book.tables();
    std::vector<std::string> all;
    for (const auto& hit : find_rows(tables, in_hand(typed), most).hits)
        all.push_back(hit.row->cells[0].text + "," + hit.row->cells[1].text);
    return all;
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("a size, labelled numbers and words are read as a person types them") {
    const auto seal = in_hand("25 x 32 x 7");
    REQUIRE(seal.sizes.size() == 1);
    CHECK(seal.sizes[0].size() == 3);
    CHECK(seal.sizes[0][1].value == 32);
    CHECK(in_hand("25x32x7mm").sizes[0][0].unit == "mm");
    CHECK(in_hand("25\xC3\x97"
                  "32\xC3\x97"
                  "7")
              .sizes.size() == 1);
    CHECK(in_hand("1x2 in").sizes[0][1].value == Approx(50.8));
    CHECK(in_hand("M12 x 1.25").sizes[0][0].value == 12);
    const auto ring = in_hand("ring, 3.5 section, 25 inside");
    REQUIRE(ring.numbers.size() == 2);
    CHECK(ring.words == Texts{"ring"});
    CHECK(ring.numbers[0].label == "section");
    CHECK(ring.numbers[1].label == "inside");
    CHECK(in_hand("inside 25 section 3.5").numbers[1].label == "section");
    CHECK(in_hand("3,5 mm").numbers[0].value == 3.5);
    CHECK(in_hand("15A").numbers[0].unit == "A");
    CHECK(in_hand("75W-90 P0888").words == Texts{"75w", "90", "p0888"});
}

TEST_CASE("a seal is found by its three lengths in their order, and by no other order") {
    CHECK(found("25 x 32 x 7") == Texts{"25,32"});
    CHECK(found("32x25x7") == Texts{"32,25"});
    CHECK(found("shaft 25, bore 35, width 7") == Texts{"25,35"});
}

TEST_CASE("a ring is found by what stands beside its numbers, as far off as a calliper may be") {
    CHECK(found("ring, 3.5 section, 25 inside") == Texts{"214,24.99"});
    CHECK(found("025") == Texts{"025,29.87"});
    CHECK(hand_within(3.5) == 0.15);
    CHECK(hand_within(100) == 1);
}

TEST_CASE("where nothing is near enough the nearest are shown and said to be no more") {
    const Book book;
    const auto tables = book.tables();
    const auto far = find_rows(tables, in_hand("25 x 33 x 7"), 12);
    CHECK(far.near_only);
    CHECK(far.hits.size() == 3);
    CHECK(far.hits[0].apart.size() == 1);
    CHECK_FALSE(find_rows(tables, in_hand("25 x 32 x 7"), 12).near_only);
    CHECK(find_rows(tables, in_hand("ring, 25 section, 3.5 inside"), 12).near_only);  // the words say which is which
}

TEST_CASE("a number lies in a range, over its beginning and up to its end") {
    CHECK(found("fits, bore 30") == Texts{"H8,18"});
    CHECK(found("fits bore 30.5") == Texts{"H8,30"});
    CHECK(found("fits bore 18").empty());
}

TEST_CASE("a word that no table knows is named, and finds nothing") {
    const Book book;
    const auto tables = book.tables();
    const auto nothing = find_rows(tables, in_hand("sprocket 25 x 32 x 7"), 12);
    CHECK(nothing.hits.empty());
    CHECK(nothing.not_known == Texts{"sprocket"});
    CHECK(find_rows(tables, in_hand("rings"), 12).hits.empty());  // the table is meant, not a row
}

TEST_CASE("what is left off is counted") {
    const Book book;
    const auto tables = book.tables();
    CHECK(find_rows(tables, in_hand("7 width"), 2).more == 1);
}
