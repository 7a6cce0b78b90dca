// What is proposed for the columns of a list, and how its numbers are read: by its own sign, never by a guess.
#include <catch2/catch.hpp>

#include "core/ground/error.h"
#include "core/work/list_cells.h"
#include "core/work/list_mapping.h"

using namespace casebound;

namespace {

ListSample sample(const std::vector<std::vector<std::string>>& rows) {
    ListSample made;
    for (std::size_t i = 0; i < rows.size(); ++i) made.rows.emplace_back(i + 1, rows[i]);
    return made;
}

const Vocabularies words;

}  // namespace

TEST_CASE("a number is read by the list's own decimal sign, and by no other") {
    const std::vector<std::tuple<std::string, std::string, std::string>> all{{"12,50", "comma", "12.50"},
                                                                             {"1.234,50", "comma", "1234.50"},
                                                                             {"1.234", "comma", "1234"},
                                                                             {"12.50", "comma", ""},
                                                                             {"1.2345,0", "comma", ""},
                                                                             {"12.50", "point", "12.50"},
                                                                             {"1,234.50", "point", "1234.50"},
                                                                             {"12,50", "point", ""},
                                                                             {"1234567,8", "comma", "1234567.8"},
                                                                             {"1,2,3", "comma", ""},
                                                                             {"12,", "comma", ""},
                                                                             {",5", "comma", ""},
                                                                             {"12.50", "", ""},
                                                                             {"12", "", "12"},
                                                                             {"-5", "point", ""},
                                                                             {"1 234", "comma", ""},
                                                                             {"", "point", ""}};
    for (const auto& [text, sign, number] : all) {
        INFO(text << " by " << sign);
        CHECK(number_by(text, sign) == number);
    }
}

TEST_CASE("columns are proposed by their header, and by their cells where it tells nothing") {
    const auto mapping = proposed(sample({{"Kelder", "", "", "", ""},
                                          {"Art.-Nr.", "Bezeichnung", "Inhalt (l)", "EUR", "Farbe"},
                                          {"K 1", "Filter", "", "1.234,50", "rot"},
                                          {"K 2", "Oil", "5", "3,20", "rot"}}),
                                  words);
    CHECK(mapping.header == 2);
    CHECK(mapping.of("Art.-Nr.") == "item");
    CHECK(mapping.of("Bezeichnung") == "title");
    CHECK(mapping.of("Inhalt (l)") == "pack L");
    CHECK(mapping.of("EUR") == "price");
    CHECK(mapping.of("Farbe") == "-");
    CHECK(mapping.decimal == "comma");
}

TEST_CASE("where two signs are met in the amounts, or none, nothing is proposed") {
    CHECK(proposed(sample({{"Part no", "Price"}, {"A1", "12.50"}, {"A2", "12,50"}}), words).decimal.empty());
    CHECK(proposed(sample({{"Part no", "Price"}, {"A1", "1.234"}, {"A2", "2.250"}}), words).decimal.empty());
    CHECK(proposed(sample({{"Part no", "Part number"}, {"A1", "B1"}}), words).of("Part number") == "-");
}

TEST_CASE("a mapping is kept as JSON and read back; what is no mapping is refused") {
    auto mapping = proposed(sample({{"Part no", "Engine", "Price"}, {"A1", "2.2", "1,20"}}), words);
    CHECK(mapping.of("Engine") == "engine");
    mapping.words["Ölfilter"] = "pan-filter";
    mapping.seller = "Kelder";
    CHECK(mapping_from(mapping_text(mapping), "mapping.json") == mapping);
    CHECK_THROWS_AS(mapping_from("{}", "mapping.json"), Error);
    CHECK_THROWS_AS(mapping_from("x", "mapping.json"), Error);
    CHECK_THROWS_AS(mapping_from(R"({"schema":"other/1"})", "mapping.json"), Error);
    CHECK_THROWS_WITH(require_meaning("itm", words), Catch::Contains("did you mean item?"));
    CHECK_NOTHROW(require_meaning("pack US qt", words));
    CHECK_NOTHROW(require_meaning("drive", words));
}
