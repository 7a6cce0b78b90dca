#include <catch2/catch.hpp>

#include <map>
#include <string>
#include <vector>

#include "core/ground/photo_bytes.h"
#include "tests/dice.h"
#include "tests/photo_made.h"
#include "tests/refusal.h"

using namespace casebound;
using Catch::Matchers::Contains;
using std::string_literals::operator""s;

namespace {

const std::map<std::string, std::string>& of_phones() {
    static const std::map<std::string, std::string> all{{"jpeg", photo_made::jpeg_of_phone()},
                                                        {"png", photo_made::png_of_phone()},
                                                        {"webp", photo_made::webp_of_phone()}};
    return all;
}

std::string ending(const std::string& type) { return type == "jpeg" ? "jpg" : type; }

std::string fault(const std::string& bytes) {
    const auto refused = refusal([&] { clean_photo(bytes, "pan.jpg"); });
    if (refused.exit == Exit::yes) return "taken";
    CHECK(refused.exit == Exit::bad_data);
    return refused.text;
}

}  // namespace

TEST_CASE("a photo is known by its content, and its size is read") {
    for (const auto* type : {"jpeg", "png", "webp"}) {
        const auto bytes = photo_made::plain(ending(type));
        const auto picture = clean_photo(bytes, "x");
        INFO(type);
        CHECK(picture.type == type);
        CHECK(picture.width == 24);
        CHECK(picture.height == 16);
        CHECK(picture.turn == 1);
        CHECK(picture.bytes == bytes);  // nothing is in it that has to go
    }
}

TEST_CASE("where, by what and with which words a photo was taken does not stay in it") {
    for (const auto& [type, bytes] : of_phones()) {
        INFO(type);
        REQUIRE_THAT(bytes, Contains("SECRET-PLACE"));
        const auto picture = clean_photo(bytes, "x");
        CHECK(picture.type == type);
        CHECK(picture.bytes.find("SECRET") == std::string::npos);
        CHECK(picture.taken == "2026-11-24");
    }
}

TEST_CASE("how a photo is to be turned stays, and its size is as it is shown") {
    CHECK(clean_photo(of_phones().at("jpeg"), "x").turn == 6);
    CHECK(clean_photo(of_phones().at("png"), "x").turn == 3);
    CHECK(clean_photo(of_phones().at("webp"), "x").turn == 8);
    for (int turn = 1; turn <= 8; ++turn) {
        const auto once = clean_photo(photo_made::jpeg_of_phone(turn), "x");
        INFO(turn);
        CHECK(once.turn == turn);
        CHECK(once.width == (turn < 5 ? 24 : 16));
        CHECK(once.height == (turn < 5 ? 16 : 24));
        CHECK(clean_photo(once.bytes, "x").turn == turn);
    }
}

TEST_CASE("what is kept of a photo is kept again, byte by byte") {
    for (const auto& [type, bytes] : of_phones()) {
        INFO(type);
        const auto once = clean_photo(bytes, "x").bytes;
        CHECK(clean_photo(once, "x").bytes == once);
    }
}

TEST_CASE("the pixels, the colour profile and the header of a photo stay as they are") {
    const auto plain = photo_made::plain("jpg");
    CHECK(clean_photo(photo_made::jpeg_of_phone(1), "x").bytes == plain);
    CHECK_THAT(plain, Contains("ICC_PROFILE"));
    CHECK(clean_photo(photo_made::png_of_phone(1), "x").bytes == photo_made::plain("png"));
    CHECK(clean_photo(photo_made::webp_of_phone(1), "x").bytes == photo_made::plain("webp"));
}

TEST_CASE("a small picture within the header of a photo is not kept") {
    const auto small = photo_made::segment(0xe0, "JFIF\0\1\1\0\0\1\0\1\1\1SECRET-SMALL"s);
    auto bytes = photo_made::plain("jpg");
    bytes.replace(2, 18, small);
    const auto kept = clean_photo(bytes, "x").bytes;
    CHECK(kept.find("SECRET") == std::string::npos);
    CHECK(kept == photo_made::plain("jpg"));
}

TEST_CASE("what is no photo is refused with what to do") {
    CHECK_THAT(fault(""), Contains("photo: pan.jpg: it is empty"));
    CHECK_THAT(fault("%PDF-1.7"), Contains("no picture that is known here: a photo is taken as JPEG, PNG or WebP"));
    CHECK_THAT(fault("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"), Contains("no picture"));
    CHECK_THAT(fault("\0\0\0\x18"s + "ftypheic\0\0\0\0"s), Contains("set the camera to save JPEG"));
    CHECK_THAT(fault("GIF89a"), Contains("no picture that is known"));
    CHECK_THAT(fault(std::string("\xff\xd8\xff\xd9")), Contains("no picture is in it"));
    CHECK_THAT(fault(std::string(most_photo_bytes + 1, '\xff')), Contains("more than 16 MB"));
}

TEST_CASE("a photo that moves, or is larger than any browser holds, is refused") {
    auto moving = photo_made::plain("webp");
    moving[20] = static_cast<char>(moving[20] | 2);
    CHECK_THAT(fault(moving), Contains("it moves"));
    auto huge = photo_made::plain("png");
    huge.replace(8, 25,
                 photo_made::chunk("IHDR", photo_made::big(60000, 4) + photo_made::big(60000, 4) + "\x08\2\0\0\0"s));
    CHECK_THAT(fault(huge), Contains("60000 x 60000 pixels"));
    auto none = photo_made::plain("png");
    none.replace(8, 25, photo_made::chunk("IHDR", std::string(8, '\0') + "\x08\2\0\0\0"s));
    CHECK_THAT(fault(none), Contains("no pixel wide"));
}

TEST_CASE("a photo that ends early is refused, wherever it ends") {
    for (const auto* type : {"jpeg", "png", "webp"}) {
        const auto whole = photo_made::plain(ending(type));
        for (std::size_t bytes = 0; bytes < whole.size(); ++bytes) {
            INFO(type << " ends after " << bytes);
            CHECK(fault(whole.substr(0, bytes)) != "taken");
        }
    }
}

TEST_CASE("a photo whose checksum is wrong is refused") {
    auto bytes = photo_made::plain("png");
    bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
    CHECK_THAT(fault(bytes), Contains("it is damaged"));
}

// Whatever is sent: refused, or taken within the bounds, without a secret word of a whole segment, and taken again alike.
TEST_CASE("damaged photos are refused or taken, never more than that") {
    tests::Dice dice(3);
    int taken = 0, refused = 0;
    for (const auto& [type, whole] : of_phones())
        for (int round = 0; round < 6000; ++round) {
            auto bytes = whole;
            const auto times = dice.between(1, 6);
            for (std::size_t n = 0; n < times && !bytes.empty(); ++n) {
                const auto at = dice.below(bytes.size());
                switch (dice.below(4)) {
                    case 0: bytes[at] = static_cast<char>(dice.below(256)); break;
                    case 1: bytes.erase(at, dice.below(40)); break;
                    case 2: bytes.insert(at, bytes.substr(dice.below(bytes.size()), dice.below(60))); break;
                    default: bytes.resize(std::max<std::size_t>(at, 1));
                }
            }
            try {
                const auto picture = clean_photo(bytes, "x");
                ++taken;
                INFO(type << " in round " << round);
                REQUIRE(picture.bytes.size() <= bytes.size() + 64);
                REQUIRE((picture.width > 0 && picture.height > 0));
                REQUIRE(clean_photo(picture.bytes, "x").bytes == picture.bytes);
            } catch (const Error& error) {
                REQUIRE(error.exit() == Exit::bad_data);
                ++refused;
            }
        }
    CHECK(taken > 300);
    CHECK(refused > 300);
}
