// PNG: chunks, each with its length and checksum (W3C PNG, third edition, 5.3 and 11).
#include <zlib.h>

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/ground/photo_parts.h"

namespace casebound {

namespace {

using std::string_view_literals::operator""sv;

constexpr std::string_view signature = "\x89PNG\r\n\x1a\n"sv;

// What the pixels need, and how their colours are meant.
constexpr std::array kept_chunks = {"PLTE"sv, "tRNS"sv, "gAMA"sv, "cHRM"sv, "sRGB"sv, "iCCP"sv,
                                    "cICP"sv, "sBIT"sv, "pHYs"sv, "bKGD"sv, "IDAT"sv};

std::string big_four(std::uint32_t value) {
    return {static_cast<char>(value >> 24), static_cast<char>(value >> 16), static_cast<char>(value >> 8),
            static_cast<char>(value)};
}

std::uint32_t crc_of(std::string_view bytes) {
    return static_cast<std::uint32_t>(
        ::crc32(0, reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uInt>(bytes.size())));
}

std::string chunk_of(std::string_view type, std::string_view body) {
    std::string named(type);
    named += body;
    return big_four(static_cast<std::uint32_t>(body.size())) + named + big_four(crc_of(named));
}

bool is_kept(std::string_view type) {
    return std::find(kept_chunks.begin(), kept_chunks.end(), type) != kept_chunks.end();
}

// W3C PNG, 5.4: a small first letter is a chunk that a picture can be shown without.
bool may_be_left_out(std::string_view type) { return (type[0] & 0x20) != 0; }

}  // namespace

CleanPhoto png_photo(std::string_view bytes) {
    PhotoBytes in(bytes);
    if (in.take(signature.size()) != signature) throw PhotoFault("it is damaged: send it again");
    CleanPhoto picture;
    picture.type = "png";
    picture.bytes.reserve(bytes.size());
    picture.bytes = signature;
    bool has_data = false;
    for (bool first = true;; first = false) {
        const auto from = in.at();
        const auto length = big_endian(in.take(4), 4);
        const auto named = in.take(std::min<std::size_t>(std::size_t{length} + 4, in.left() + 1));
        const auto type = named.substr(0, 4), body = named.substr(4);
        if (big_endian(in.take(4), 4) != crc_of(named) || first != (type == "IHDR"))
            throw PhotoFault("it is damaged: send it again");
        if (type == "IHDR") {
            constexpr std::size_t header_bytes = 13;
            if (body.size() != header_bytes) throw PhotoFault("it is damaged: send it again");
            picture.width = big_endian(body, 4);
            picture.height = big_endian(body.substr(4), 4);
        }
        if (type == "IEND") break;
        if (type == "eXIf" && picture.turn == 1) {
            const auto words = exif_words(body);
            picture.turn = words.turn;
            picture.taken = words.taken;
            if (words.turn != 1) picture.bytes += chunk_of(type, exif_of_turn(words.turn));
        }
        has_data = has_data || type == "IDAT";
        if (type == "IHDR" || is_kept(type)) picture.bytes += in.since(from);
        else if (!may_be_left_out(type))
            throw PhotoFault("it is of a kind that browsers do not show: send it as plain PNG");
    }
    if (!has_data) throw PhotoFault("no picture is in it: send it again");
    picture.bytes += chunk_of("IEND", {});
    return picture;
}

}  // namespace casebound
