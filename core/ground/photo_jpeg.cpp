// JPEG: segments by their markers (ITU-T T.81, annex B).
#include <fmt/format.h>

#include "core/ground/photo_parts.h"

namespace casebound {

namespace {

using std::string_view_literals::operator""sv;

enum Marker : std::uint8_t {
    sof0 = 0xc0,
    dht = 0xc4,
    jpg = 0xc8,
    dac = 0xcc,
    sof15 = 0xcf,
    rst0 = 0xd0,
    rst7 = 0xd7,
    soi = 0xd8,
    eoi = 0xd9,
    sos = 0xda,
    dqt = 0xdb,
    dnl = 0xdc,
    dri = 0xdd,
    app0 = 0xe0,
    app1 = 0xe1,
    app2 = 0xe2,
    app14 = 0xee
};

bool is_frame(std::uint8_t marker) {
    return marker >= sof0 && marker <= sof15 && marker != dht && marker != jpg && marker != dac;
}

bool is_table(std::uint8_t marker) {
    return marker == dht || marker == dac || marker == dqt || marker == dri || marker == dnl;
}

class JpegReader {
public:
    explicit JpegReader(std::string_view bytes) : in_(bytes) {
        picture_.type = "jpeg";
        kept_.reserve(bytes.size() + most_added);
    }

    CleanPhoto read() {
        in_.take(2);
        for (auto marker = next_marker(); marker != eoi; marker = next_marker()) segment(marker);
        if (!scanned_) throw PhotoFault("no picture is in it: send it again");
        kept_ += "\xff\xd9";
        // The first thing behind the beginning, as Exif 2.3, 4.7.2 wants it, or behind the JFIF header.
        std::string head("\xff\xd8");
        head += jfif_;
        if (picture_.turn != 1) head += segment_of(app1, "Exif\0\0"sv, exif_of_turn(picture_.turn));
        kept_.insert(0, head);
        picture_.bytes = std::move(kept_);
        return std::move(picture_);
    }

private:
    std::uint8_t next_marker() {
        if (in_.byte() != 0xff) throw PhotoFault("it is damaged: send it again");
        auto marker = in_.byte();
        while (marker == 0xff) marker = in_.byte();  // T.81, B.1.1.2: fill bytes
        return marker;
    }

    static std::string segment_of(std::uint8_t marker, std::string_view head, std::string_view body) {
        const auto length = head.size() + body.size() + 2;
        std::string out{'\xff', static_cast<char>(marker), static_cast<char>(length >> 8), static_cast<char>(length)};
        return out.append(head).append(body);
    }

    void put(std::uint8_t marker, std::string_view body) { kept_ += segment_of(marker, {}, body); }

    void segment(std::uint8_t marker) {
        const auto length = big_endian(in_.take(2), 2);
        if (length < 2) throw PhotoFault("it is damaged: send it again");
        const auto body = in_.take(length - 2);
        if (is_frame(marker)) frame(marker, body);
        else if (marker == sos) scan(body);
        else if (is_table(marker)) put(marker, body);
        else if (marker >= app0 && marker <= 0xef) application(marker, body);
        else if (marker != 0xfe)  // a comment is left out; hierarchical and other kinds no browser shows
            throw PhotoFault(
                fmt::format("it is of a kind that browsers do not show (marker {:02x}): send it as plain "
                            "JPEG",
                            marker));
    }

    void frame(std::uint8_t marker, std::string_view body) {
        constexpr std::size_t least = 6;
        if (framed_ || body.size() < least) throw PhotoFault("it is damaged: send it again");
        framed_ = true;
        picture_.height = big_endian(body.substr(1), 2);
        picture_.width = big_endian(body.substr(3), 2);
        put(marker, body);
    }

    // Its coded data goes on to the next marker that is none of its own: not a stuffed ff00, not a restart.
    void scan(std::string_view body) {
        if (!framed_) throw PhotoFault("it is damaged: send it again");
        put(sos, body);
        const auto rest = in_.rest();
        auto end = rest.find('\xff');
        for (; end != std::string_view::npos && end + 1 < rest.size(); end = rest.find('\xff', end)) {
            const auto next = static_cast<std::uint8_t>(rest[end + 1]);
            if (next != 0 && next != 0xff && (next < rst0 || next > rst7)) break;
            end += next == 0xff ? 1 : 2;
        }
        kept_ += in_.take(end == std::string_view::npos ? rest.size() + 1 : end);  // without a marker it ends early
        scanned_ = true;
    }

    // The headers of the picture and of its colours; of the rest only what is wanted is read.
    void application(std::uint8_t marker, std::string_view body) {
        constexpr std::size_t jfif_bytes = 14, adobe_bytes = 12;
        if (marker == app0 && body.substr(0, 5) == "JFIF\0"sv && body.size() >= jfif_bytes && jfif_.empty())
            jfif_ = segment_of(app0, body.substr(0, jfif_bytes - 2), "\0\0"sv);  // without its small picture
        else if (marker == app2 && body.substr(0, 12) == "ICC_PROFILE\0"sv) put(marker, body);
        else if (marker == app14 && body.substr(0, 5) == "Adobe" && body.size() >= adobe_bytes)
            put(marker, body.substr(0, adobe_bytes));
        else if (marker == app1 && body.substr(0, 6) == "Exif\0\0"sv && !told_) {
            const auto words = exif_words(body.substr(6));
            picture_.turn = words.turn;
            picture_.taken = words.taken;
            told_ = true;
        }
    }

    PhotoBytes in_;
    CleanPhoto picture_;
    std::string jfif_, kept_;
    bool framed_ = false, scanned_ = false, told_ = false;
};

}  // namespace

CleanPhoto jpeg_photo(std::string_view bytes) { return JpegReader(bytes).read(); }

}  // namespace casebound
