// Forms of the page, made from declared fields: a label to every field, what was refused beside the field it is
// about, what was typed kept. A form that writes is shown only to one who may edit.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/page/page_visit.h"

namespace casebound {

struct Field {
    enum class Kind : std::uint8_t {
        words,
        number,
        choice,
        one_of,
        date,
        check,
        file,
        camera,
        pictures
    };  // camera: a photo taken now; pictures: some that are there. choice: a drop-down; one_of: all in sight
    std::string name, label;
    Kind kind = Kind::words;
    std::string unit{}, hint{}, value{};
    std::vector<std::pair<std::string, std::string>> options{};  // value, words
    bool required{};
};

struct Form {
    std::string key;    // what it does, and after "/" which of several: "take-back/pan_depth"
    std::string title;  // "": none
    std::string button;
    std::vector<Field> fields, more{};  // more: folded away until wanted, save what is required
    Fields hidden{};
    std::string goes_to{};  // of a form that asks: the address; empty: the form writes, and comes back here
    std::vector<std::pair<std::string, std::string>> answers{};  // instead of `button`: one a `value`, in words
    bool writes() const { return goes_to.empty(); }
};

void write_currency_hint(Html& html, const Visit& visit);  // where it is not set, how it is; else nothing

std::string form_id(std::string_view key,
                    std::string_view part);  // of the element: "-refused" is what it was refused for
void write_form(Html& html, const Visit& visit, const Form& form);

// How well something is known, when it was found out, and what shows it: asked with everything that is told.
std::vector<Field> evidence_fields();

// A photo that shows it: from the camera, or one that is there already. Both are sent as "photo".
std::vector<Field> photo_fields();
std::vector<Field> with_photos(std::vector<Field> fields);

// Options in words: the value "pan_off" is shown as "pan off".
std::vector<std::pair<std::string, std::string>> as_options(const std::vector<std::string>& values);

}  // namespace casebound
