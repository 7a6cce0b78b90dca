// Photos that a command is given with --photo: each is read, and refused when it is none, before anything is written;
// its file is put in its place; and when the command has written what it is about, the photo is said to show just that.
#pragma once

#include <string>
#include <vector>

#include "core/session/command.h"
#include "core/shop/shop_photos.h"

namespace casebound {

inline const OptionSpec photo_option{"photo", "FILE",
                                     "a photo that shows it, JPEG, PNG or WebP; it is copied beside the shop file "
                                     "without what it says of place and camera",
                                     true};

class GivenPhotos {
public:
    // Within the transaction of the command. Throws Error(bad_data) that names the file, for what is no photo.
    GivenPhotos(Session& session, const Args& args);
    bool none() const { return photos_.empty(); }

    // What the command has told or recorded of the vehicle since this was made: the facts told, else the record, else the
    // event of a line, else the payment. Throws Error(usage) when it was nothing.
    void show_what_is_new(std::string_view vehicle);
    void show_statement(std::string_view vehicle, std::string_view source);
    // "Photo 3 is kept with it: /home/a/shop.sqlite.photos/....jpg"; in JSON its number, file and hash.
    void say(Result& result) const;

private:
    void enter(std::string_view vehicle);
    Session& session_;
    std::vector<Photo> photos_;
    std::vector<std::int64_t> newest_;  // entry of each kind before the command
};

// As one_write, for a command whose first word is the vehicle.
template <Result (*run)(Session&, const Args&)> Result one_write_with_photos(Session& session, const Args& args) {
    if (!args.has(photo_option.name)) return one_write<run>(session, args);
    Result result;
    {
        Transaction writing(session.shop());
        GivenPhotos photos(session, args);
        result = run(session, args);
        photos.show_what_is_new(session.vehicle(args.words.at(0)).name);
        photos.say(result);
        if (args.has(dry_run.name)) return taken_back(session, std::move(result));
        writing.commit();
    }
    ShopPhotos(session.shop()).sweep();
    return result;
}

// The same in two steps: what is written stands, whatever becomes of the answer. `write()` is the transaction;
// `answer(what it gave)` comes after it.
template <class Write, class Answer>
Result written_with_photos(Session& session, const Args& args, Write write, Answer answer) {
    Transaction writing(session.shop());
    GivenPhotos photos(session, args);
    const auto written = write();
    if (!photos.none()) photos.show_what_is_new(session.vehicle(args.words.at(0)).name);
    writing.commit();
    auto result = answer(written);
    if (photos.none()) return result;
    photos.say(result);
    ShopPhotos(session.shop()).sweep();
    return result;
}

std::vector<Command> photo_commands();  // part of the table: vehicle photos

}  // namespace casebound
