// The photos of the shop file: a row each, and the file beside the shop file, in the folder of its name and ".photos",
// under its hash. There is never a row without its file: the file is whole and synced before the row is written, and
// goes after the row was taken back. A kill in between leaves at most a file that no row names, until it is swept away.
// All that writes or sweeps files holds the write lock of the shop file, so that no two do it at once.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/ground/photo.h"
#include "core/ground/photo_bytes.h"
#include "core/shop/shop_file.h"

namespace casebound {

// One thing that a photo shows: a row of `tellings`, `line_events`, `records` or `money`, or a statement by the key of
// its source.
struct PhotoShows {
    std::string kind;  // telling, event, record, money, statement
    std::int64_t entry{};
    std::string statement{};
};

struct KeptPhoto : Photo {
    std::vector<PhotoShows> shows{};
    std::string taken_back{}, why{};  // the day it was taken back; "": it stands
};

std::string photos_folder(const std::string& shop);
std::string photo_file_name(const Photo& photo);  // "<sha256>.jpg"
bool names_photo_file(std::string_view name);

// Those that stand, one of each file. `shop` may be one in memory; their paths are in `folder`.
std::vector<Photo> photo_files(const Database& shop, const std::string& folder);

bool is_there(const Photo& photo);  // its file, and it is what its row says

// The bytes of a file that is to be what its row says. Throws Error: 66 when it is gone, 65 when it is another.
std::string photo_bytes(const Photo& photo);

// How the name of a file in that folder begins while it is still being sent; it is locked (flock) meanwhile.
inline constexpr std::string_view sent_photo = ".sent-";

class ShopPhotos {
public:
    explicit ShopPhotos(Database& shop) : database_(shop) {}

    // Its file alone, within the caller's transaction; `dry`: nothing is written.
    Photo put(const CleanPhoto& photo, bool dry = false) const;
    // The row of one whose file is there. The caller then says what it shows. Returns it with its number.
    Photo enter(std::string_view vehicle, Photo photo);
    void shows_statement(const std::vector<Photo>& photos, std::string_view source);

    std::vector<KeptPhoto> all(std::string_view vehicle) const;  // oldest first, those taken back too
    std::vector<Photo> of_statement(std::string_view source) const;
    std::map<std::string, std::vector<Photo>, std::less<>> of_statements() const;  // of all, by their sources
    // By the name of its file, of those that stand: "<sha256>.jpg". Number 0: there is none.
    Photo named(std::string_view file) const;
    // Throws Error(no_input) when no photo of that number stands. Its file goes when it is swept.
    void take_back(std::string_view vehicle, std::int64_t number, std::string_view note);

    // Takes away every file that no row names. Outside of any transaction. Never throws: what stays is swept another
    // time.
    void sweep() noexcept;

private:
    Database& database_;
};

// For the classes of the other entries. `column` is what it is in the schema: telling, event, record, money.
void link_photos(const Database& shop, const std::vector<Photo>& photos, std::string_view column, std::int64_t entry);
std::map<std::int64_t, std::vector<Photo>> photos_by_entry(const Database& shop, std::int64_t vehicle,
                                                           std::string_view column);

}  // namespace casebound
