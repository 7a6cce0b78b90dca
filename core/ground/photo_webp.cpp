// WebP: chunks of a RIFF file (RFC 9649, 2).
#include <optional>

#include "core/ground/photo_parts.h"

namespace casebound {

namespace {

using std::string_view_literals::operator""sv;

constexpr char flag_animation = 0x02, flag_xmp = 0x04, flag_exif = 0x08;
constexpr std::size_t extended_bytes = 10;

std::string little_four(std::size_t value) {
    return {static_cast<char>(value), static_cast<char>(value >> 8), static_cast<char>(value >> 16),
            static_cast<char>(value >> 24)};
}

void add_chunk(std::string& to, std::string_view type, std::string_view body) {
    to.append(type).append(little_four(body.size())).append(body);
    if (body.size() % 2 != 0) to += '\0';
}

class WebpReader {
public:
    explicit WebpReader(std::string_view bytes) : in_(bytes) {
        picture_.type = "webp";
        kept_.reserve(bytes.size() + most_added);
    }

    CleanPhoto read() {
        in_.take(4);
        const auto size = little_endian(in_.take(4), 4);
        in_.take(4);
        if (size < 4 || size - 4 > in_.left()) throw PhotoFault("it ends early: send it again");
        for (PhotoBytes chunks(in_.take(size - 4)); chunks.left() > 0;) {
            const auto type = chunks.take(4);
            const auto body = chunks.take(little_endian(chunks.take(4), 4));
            if (body.size() % 2 != 0) chunks.take(1);
            chunk(type, body);
        }
        if (!has_data_) throw PhotoFault("no picture is in it: send it again");
        return whole();
    }

private:
    void chunk(std::string_view type, std::string_view body) {
        if (type == "VP8X") extended(body);
        else if (type == "VP8 " || type == "VP8L") data(type, body);
        else if (type == "ICCP" || type == "ALPH") add_chunk(kept_, type, body);
        else if (type == "ANIM" || type == "ANMF") moves();
        else if (type == "EXIF" && !told_) {
            told_ = true;
            // Some write the prefix that it has in JPEG.
            const auto words = exif_words(body.substr(0, 6) == "Exif\0\0"sv ? body.substr(6) : body);
            picture_.turn = words.turn;
            picture_.taken = words.taken;
        }
    }

    [[noreturn]] static void moves() { throw PhotoFault("it moves, and a photo does not: send one that stands still"); }
    [[noreturn]] static void damaged() { throw PhotoFault("it is damaged: send it again"); }

    void extended(std::string_view body) {
        if (body.size() != extended_bytes || extended_ || has_data_) damaged();
        if ((body[0] & flag_animation) != 0) moves();
        extended_ = std::string(body);
        picture_.width = little_endian(body.substr(4), 3) + 1;
        picture_.height = little_endian(body.substr(7), 3) + 1;
    }

    // RFC 6386, 9.1 and RFC 9649, 3.4: the size stands in the first bytes of the coded picture.
    void data(std::string_view type, std::string_view body) {
        if (has_data_) damaged();
        has_data_ = true;
        std::uint32_t width{}, height{};
        constexpr std::uint32_t fourteen_bits = 0x3fff;
        if (type == "VP8 ") {
            if (body.size() < 10 || body.substr(3, 3) != "\x9d\x01\x2a"sv) damaged();
            width = little_endian(body.substr(6), 2) & fourteen_bits;
            height = little_endian(body.substr(8), 2) & fourteen_bits;
        } else {
            if (body.size() < 5 || body[0] != '\x2f') damaged();
            const auto bits = little_endian(body.substr(1), 4);
            width = (bits & fourteen_bits) + 1;
            height = (bits >> 14 & fourteen_bits) + 1;
        }
        if (extended_ && (width != picture_.width || height != picture_.height)) damaged();
        picture_.width = width;
        picture_.height = height;
        add_chunk(kept_, type, body);
    }

    // Only an extended file may say how it is turned, and has a flag for each thing in it.
    CleanPhoto whole() {
        std::string head("RIFF....WEBP");
        if (extended_) {
            auto& flags = (*extended_)[0];
            flags = static_cast<char>(flags & ~(flag_xmp | flag_exif));
            if (picture_.turn != 1) flags = static_cast<char>(flags | flag_exif);
            add_chunk(head, "VP8X", *extended_);
        } else {
            picture_.turn = 1;
        }
        kept_.insert(0, head);
        if (picture_.turn != 1) add_chunk(kept_, "EXIF", exif_of_turn(picture_.turn));
        kept_.replace(4, 4, little_four(kept_.size() - 8));
        picture_.bytes = std::move(kept_);
        return std::move(picture_);
    }

    PhotoBytes in_;
    CleanPhoto picture_;
    std::optional<std::string> extended_;
    std::string kept_;
    bool has_data_ = false, told_ = false;
};

}  // namespace

CleanPhoto webp_photo(std::string_view bytes) { return WebpReader(bytes).read(); }

}  // namespace casebound
