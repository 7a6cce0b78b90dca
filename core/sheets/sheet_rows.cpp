#include "core/sheets/sheet_rows.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/buy/order_report.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

std::string count_words(std::optional<std::int64_t> count) { return count ? std::to_string(*count) : "not known"; }

std::string at_temperature(std::optional<double> temp_c) {
    return temp_c ? fmt::format(" at {} °C", plain_number(*temp_c, 1)) : "";
}

std::string place_of(const std::string& role, const Vocabularies& words) {
    const auto* known = words.role(role);
    return known ? named(known->title, role) : role;
}

std::string subject_of(const std::string& place, const std::string& item) {
    return place + (place.empty() || item.empty() ? "" : " ") + item;
}

// " after 24 h", " after 20 min"
std::string leak_time(std::optional<double> minutes) {
    if (!minutes) return "";
    return *minutes >= 120 ? fmt::format(" after {} h", plain_number(*minutes / 60, 1))
                           : fmt::format(" after {} min", plain_number(*minutes, 0));
}

std::string proof_words(const WorkRecord& one) {
    return fmt::format("gears: {}; codes{}: {}; leaks{}: {}", or_not_known(one.gears),
                       one.drives ? fmt::format(" after {} drives", *one.drives) : "", or_not_known(one.codes),
                       leak_time(one.leak_minutes), or_not_known(one.leaks));
}

// "; photo 3": it stands at the end of the sheet.
std::string photo_words(const std::vector<Photo>& photos) {
    std::string text;
    for (const auto& photo : photos) text += fmt::format("; photo {}", photo.number);
    return text;
}

}  // namespace

std::string or_not_known(const std::string& text) { return text.empty() ? "not known" : text; }

SheetRow row_of(const ToldFact& entry, const Vocabularies& words) {
    const auto* attribute = words.attribute(entry.attribute);
    const auto value = attribute ? value_words(*attribute, entry.text) : entry.text;
    SheetRow row{attribute ? named(attribute->title, entry.attribute) : entry.attribute,
                 entry.withdrawn ? "taken back" : fmt::format("{} ({})", value, tell_evidence_words(entry.evidence)),
                 entry.date,
                 {},
                 entry.id,
                 entry.corrects,
                 entry.stands || entry.withdrawn};
    if (!entry.photo.empty()) row.text += "; photo " + entry.photo;
    row.text += photo_words(entry.photos);
    if (!entry.note.empty()) row.text += "; " + entry.note;
    return row;
}

SheetRow row_of(const WorkRecord& one, const Vocabularies& words) {
    std::string text = spaced(one.what) +
                       (one.what == "looked_at"
                            ? " and not replaced; " + (one.state.empty() ? "state not said" : one.state)
                            : "");
    if (one.what == "fitted")
        text += fmt::format("; part: {}; label: {}", or_not_known(spaced(one.made)), or_not_known(one.label));
    if (one.quantity) text += "; quantity " + plain_number(*one.quantity, 2);
    if (one.torque_nm) text += fmt::format("; torque {}", shown_quantity(*one.torque_nm, "N m", 1));
    if (one.seals_out || one.seals_in)
        text += fmt::format("; seals {} out, {} in", count_words(one.seals_out), count_words(one.seals_in));
    if (one.out_l) text += fmt::format("; {} out{}", shown_quantity(*one.out_l, "L"), at_temperature(one.out_temp_c));
    if (one.in_l) text += fmt::format("; {} in{}", shown_quantity(*one.in_l, "L"), at_temperature(one.in_temp_c));
    if (one.what == "proof") text += "; " + proof_words(one);
    if (one.odometer_km) text += fmt::format("; odometer {} km", plain_number(*one.odometer_km, 0));
    if (!one.photo.empty()) text += "; photo " + one.photo;
    text += photo_words(one.photos);
    if (!one.note.empty()) text += "; " + one.note;
    return {subject_of(place_of(one.role, words), one.item), text, one.date, {}, one.id, one.corrects, one.stands};
}

SheetRow row_of(const LineEvent& one, const Vocabularies& words) {
    std::string text = spaced(one.event);
    for (const auto& part : {one.item, one.seller, one.note})
        if (!part.empty()) text += "; " + part;
    text += photo_words(one.photos);
    if (!one.return_by.empty()) text += "; may go back until " + one.return_by;
    if (!one.core_by.empty()) text += "; old part back by " + one.core_by;
    return {place_of(one.role, words), text, one.date, {}, one.id, one.corrects, one.stands};
}

SheetRow row_of(const MoneyEntry& one, const std::string& currency) {
    return {one.kind,
            money_text(one.cents, currency) + (one.note.empty() ? "" : "; " + one.note) + photo_words(one.photos),
            one.date,
            {},
            one.id,
            one.corrects,
            one.stands};
}

SheetRow row_of(const Closing& one, const std::string& currency) {
    return {one.job_key,
            fmt::format("cause: {}; worked: {}; {} h; {}", one.cause, spaced(one.worked), plain_number(one.hours, 2),
                        money_text(one.cost_cents, currency)) +
                (one.note.empty() ? "" : "; " + one.note),
            one.date,
            {},
            {},
            {},
            true};
}

}  // namespace casebound
