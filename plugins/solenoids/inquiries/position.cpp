// Where each element sits on the valve body, as recorded: in words and as a picture.
#include <algorithm>
#include <map>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/vocabulary.h"

namespace casebound::solenoids {
namespace {

struct Position {
    std::string element, side, mark;
    int from_front{};
    SourceNote source;
};

std::vector<Position> positions_of(const Facts& facts, const std::string& gearbox) {
    std::vector<Position> all;
    for (const auto& row : facts.rows("solenoids_positions", "gearbox", gearbox))
        all.push_back({std::string(row.text("element")), std::string(row.text("side")), std::string(row.text("mark")),
                       static_cast<int>(row.need_number("from_front")), row_source(row)});
    std::stable_sort(all.begin(), all.end(), [](const Position& a, const Position& b) {
        return std::pair(a.side, a.from_front) < std::pair(b.side, b.from_front);
    });
    return all;
}

// "shift solenoid A", or the element alone where its role has no title.
std::string title_of(const GearboxFamily& family, const std::string& name) {
    const auto* element = family.element(name);
    const auto* role = element ? role_in(known_words<vocabulary>(), element->role) : nullptr;
    return role ? role->title : name;
}

std::string place_words(const Position& at) {
    static constexpr const char* nth[] = {"first", "second", "third", "fourth", "fifth", "sixth"};
    const auto place = static_cast<std::size_t>(at.from_front);
    return at.side + " row, " +
           (place <= std::size(nth) ? std::string(nth[place - 1]) : "number " + std::to_string(place)) +
           " from the front" + (at.mark.empty() ? "" : "; " + at.mark);
}

// Seen from below with the front at the top, so the vehicle's left is on the right.
double column_of(const std::string& side) { return side == "left" ? 2 : side == "middle" ? 1 : 0; }

Picture body_picture(const GearboxFamily& family, const std::vector<Position>& all, const std::string& asked) {
    constexpr double wide = 26, high = 16, pitch_x = 40, pitch_y = 26, edge = 10;
    Picture picture{"The valve body of " + family.title + ", seen from below, the front of the vehicle at the top",
                    "The vehicle's left is on the right. By order, not to scale.",
                    {}};
    int last = 1;
    for (const auto& at : all) last = std::max(last, at.from_front);
    picture.shapes.push_back({Shape::Kind::box, -edge, -edge, 2 * pitch_x + wide + 2 * edge,
                              (last - 1) * pitch_y + high + 2 * edge, "", false});
    for (const auto& at : all) {
        picture.shapes.push_back({Shape::Kind::box, column_of(at.side) * pitch_x, (at.from_front - 1) * pitch_y, wide,
                                  high, title_of(family, at.element) + (at.mark.empty() ? "" : ": " + at.mark),
                                  at.element == asked});
        picture.text_equivalent += " " + title_of(family, at.element) + ": " + place_words(at) + ".";
    }
    return picture;
}

Answer answer_position(const Given& given, const Services& services) {
    const auto found = family_for(given, services);
    if (!found.family) return family_missing(found);
    const auto& family = *found.family;
    const auto asked = given.text_or("element");
    if (!asked.empty() && family.element(asked) == nullptr)
        refuse("element", asked, "elements of " + family.title + ": " + listed(family.element_names()));
    auto answer = Answer::computing();
    const auto all = positions_of(services.facts, family.name);
    for (const auto& at : all)
        if (asked.empty() || at.element == asked)
            answer.lines.push_back(text_line(title_of(family, at.element), place_words(at), at.source));
    std::vector<std::string> open;
    for (const auto& name : family.element_names())
        if (std::none_of(all.begin(), all.end(), [&](const Position& at) { return at.element == name; }) &&
            (asked.empty() || asked == name))
            open.push_back(title_of(family, name));
    if (answer.lines.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "Where it sits is not recorded: " + listed(open) + ".";
        answer.next.emplace_back(
            "Look at the body before anything is unplugged, and write it down: solenoids_positions.");
        return answer;
    }
    answer.headline = asked.empty()
                          ? "Where each sits on the valve body of " + family.title + "."
                          : title_of(family, asked) + ": " +
                                place_words(*std::find_if(all.begin(), all.end(),
                                                          [&](const Position& at) { return at.element == asked; })) +
                                ".";
    if (!open.empty()) answer.assumptions.push_back("not recorded where it sits: " + listed(open));
    answer.pictures.push_back(body_picture(family, all, asked));
    answer.cautions.emplace_back("mark every plug before it comes off; two that look alike are easily exchanged");
    return answer;
}

}  // namespace

std::vector<Inquiry> position_inquiries() {
    return {{"position",
             "Where each element sits on the valve body, and how to know it",
             {gearbox_input(), text_input("element", "one element; without it, all of them")},
             answer_position,
             "gearbox=weir-6 element=C1"}};
}

}  // namespace casebound::solenoids
