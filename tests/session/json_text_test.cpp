#include <catch2/catch.hpp>

#include <cmath>

#include <nlohmann/json.hpp>

#include "core/session/session.h"

using namespace casebound;

TEST_CASE("in JSON nothing is 0.0, whatever sign it came with, and every other number keeps its own") {
    const nlohmann::ordered_json document{
        {"nothing", -0.0}, {"deep", {{"also", {1.5, -0.0}}}}, {"less", -0.25}, {"whole", 0}, {"text", "-0.0 V"}};
    const auto text = json_text(document);
    CHECK(text.find("\"nothing\": 0.0") != std::string::npos);
    CHECK(text.find("\"less\": -0.25") != std::string::npos);
    CHECK(text.find("\"text\": \"-0.0 V\"") != std::string::npos);
    const auto read = nlohmann::ordered_json::parse(text);
    CHECK_FALSE(std::signbit(read["deep"]["also"][1].get<double>()));
    CHECK(read["deep"]["also"][0].get<double>() == 1.5);
    CHECK(read["whole"].is_number_integer());
}
