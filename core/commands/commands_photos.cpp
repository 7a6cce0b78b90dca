// The photos of a vehicle: what each shows and where its file lies; one that should not have been kept is taken back.
#include <charconv>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/commands/photos_given.h"
#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/say/vehicle_text.h"
#include "core/sheets/photo_words.h"

namespace casebound {

namespace {

Json json_of(const WordedPhoto& one) {
    return {{"photo", one.number},
            {"shows", one.of},
            {"taken", one.taken},
            {"entered", one.entered},
            {"type", one.type},
            {"width", one.width},
            {"height", one.height},
            {"bytes", one.bytes},
            {"sha256", one.sha256},
            {"path", one.path},
            {"there", one.there},
            {"stands", one.stands()},
            {"taken_back", one.taken_back},
            {"why", one.why}};
}

std::string text_of(const WordedPhoto& one) {
    std::string out = wrapped(fmt::format("{}  {}", one.number, one.of.empty() ? "" : one.of.front()), 0, 4);
    for (std::size_t i = 1; i < one.of.size(); ++i) out += wrapped(one.of[i], 4, 2);
    if (!one.stands())
        return out +
               wrapped(fmt::format("TAKEN BACK {}{}{}", one.taken_back, one.why.empty() ? "" : ": ", one.why), 4, 2);
    return out + wrapped(fmt::format("{}, kept {}", photo_measure(one), one.entered), 4, 2) +
           fmt::format("    {}\n", photo_file(one));
}

Result photos_answer(Session& session, const std::string& vehicle) {
    const auto photos = worded_photos(session, vehicle);
    bool gone = false;
    for (const auto& one : photos) gone |= one.stands() && !one.there;
    if (session.json()) {
        auto json = document("photos");
        json["vehicle"] = vehicle;
        json["photos"] = Json::array();
        for (const auto& one : photos) json["photos"].push_back(json_of(one));
        return {gone ? Exit::cannot_tell : Exit::yes, json_text(json)};
    }
    std::string out;
    for (const auto& one : photos)
        if (one.stands() || session.full()) out += text_of(one);
    if (gone)
        out += wrapped(
            "A file that is gone is in the last backup: casebound shop restore FILE, into another folder, "
            "brings it back.",
            0, 2);
    if (out.empty())
        out = wrapped(fmt::format("No photo of {} is kept. With what you tell or record: --photo FILE", vehicle), 0, 2);
    return {gone ? Exit::cannot_tell : Exit::yes, out};
}

std::int64_t photo_number(const std::string& typed) {
    std::int64_t number{};
    const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), number);
    if (error != std::errc{} || end != typed.data() + typed.size())
        throw Error(Exit::usage, fmt::format("photo: \"{}\": write its number, as vehicle photos shows it", typed));
    return number;
}

Result take_back(Session& session, const Args& args) {
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    for (const auto& number : args.options.at("take-back"))
        ShopPhotos(session.shop()).take_back(vehicle, photo_number(number), args.option("note"));
    auto result = photos_answer(session, vehicle);
    if (!session.json())
        result.output = wrapped(fmt::format("Taken back: photo {}. Its file goes with it.",
                                            fmt::join(args.options.at("take-back"), ", ")),
                                0, 2) +
                        result.output;
    return result;
}

Result run_photos(Session& session, const Args& args) {
    if (!args.has("take-back")) return photos_answer(session, session.vehicle(args.words.at(0)).name);
    auto result = one_write<take_back>(session, args);
    if (!args.has(dry_run.name)) ShopPhotos(session.shop()).sweep();
    return result;
}

}  // namespace

std::vector<Command> photo_commands() {
    return {
        {"vehicle photos",
         "VEHICLE",
         "the photos that show what is told and recorded, and where their files lie; --full: those taken back too",
         1,
         1,
         {{"take-back", "NUMBER", "this one is wrong, or shows what is nobody's business: its file is removed", true},
          {"note", "TEXT", "why it is taken back"},
          dry_run},
         run_photos,
         "casebound vehicle photos van --take-back 3"}};
}

}  // namespace casebound
