// A seal searched by the size in the hand, and an O-ring size by its number.
#include <cmath>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "rows/seal_search.h"
#include "science/ring_size.h"

namespace casebound::filters_seals {
namespace {

InHand in_hand(const Given& given) {
    const double off_by = given.number("off_by");
    const auto measured = [&](std::string_view name) {
        return given.has(name) ? std::optional(about(given.number(name), off_by)) : std::nullopt;
    };
    InHand hand{measured("id"), measured("od"), measured("height"), measured("section"), given.text_or("form")};
    if (!given.has("size")) return hand;
    const auto size = printed_size(given.text("size"));
    if (!size)
        refuse("size", given.text("size"), "inside x outside x height in mm, such as 25 x 32 x 7, the outside larger");
    hand.id_mm = about(size->id_mm, off_by);
    hand.od_mm = about(size->od_mm, off_by);
    hand.height_mm = about(size->height_mm, off_by);
    return hand;
}

bool measured_any(const InHand& hand) { return hand.id_mm || hand.od_mm || hand.height_mm || hand.section_mm; }

std::string measure(const Row& row, std::string_view column) {
    const auto number = row.number(column);
    return number ? shown(*number) : "-";
}

std::string items_of(const Facts& facts, std::string_view group) {
    std::vector<std::string> items;
    for (const auto& member : facts.rows("group_members", "group_key", group)) items.emplace_back(member.text("item"));
    return items.empty() ? "-" : listed(items);
}

std::string rubber_of(const Row& row) { return row.stated("elastomer") ? std::string(row.text("elastomer")) : "-"; }

Grid matches_grid(const std::vector<SealMatch>& matches, const Facts& facts) {
    Grid grid{"Seals on record that may be it, nearest first; lengths in mm",
              {"group", "form", "id", "od", "section", "height", "rubber", "items"},
              {},
              {}};
    for (const auto& match : matches) {
        const Row& row = *match.row;
        if (match.certain) grid.marked_rows.push_back(grid.rows.size());
        grid.rows.push_back({std::string(row.text("group_key")), std::string(row.text("form")), measure(row, "id_mm"),
                             measure(row, "od_mm"), measure(row, "section_mm"), measure(row, "height_mm"),
                             rubber_of(row), items_of(facts, row.text("group_key"))});
    }
    return grid;
}

void add_ring_sizes(Answer& answer, const InHand& hand, const std::vector<Row>& rows) {
    if (hand.od_mm || hand.height_mm || !hand.section_mm) return;  // not an O-ring as measured
    const auto sizes = ring_sizes_and_built_in(rows);
    Grid grid{"Standard O-ring sizes that may be it (AS568, ISO 3601-1), mm",
              {"number", "inside", "section", "note"},
              {},
              {}};
    for (const auto& match : rings_like(sizes, hand.id_mm, hand.section_mm)) {
        if (match.judgement == Judgement::fits) grid.marked_rows.push_back(grid.rows.size());
        const auto text = [](const Toleranced& t) { return shown(t.nominal) + " +/- " + shown(t.plus); };
        grid.rows.push_back({std::string(match.size->number), text(match.size->id_mm), text(match.size->section_mm),
                             std::string(match.size->note)});
    }
    if (!grid.rows.empty()) answer.grids.push_back(std::move(grid));
}

// Sizes that are made, of a standard or not, with shaft, bore and width as measured.
void add_shaft_sizes(Answer& answer, const InHand& hand, const Facts& facts) {
    if (!hand.id_mm || !hand.od_mm || !hand.height_mm) return;
    const auto alike = [](const Toleranced& measured, double printed) {
        return std::abs(measured.nominal - printed) <= measured.plus + 1e-9;
    };
    for (const auto& row : facts.rows("filters_seals_shaft_seals"))
        if (alike(*hand.id_mm, row.need_number("shaft_mm")) && alike(*hand.od_mm, row.need_number("bore_mm")) &&
            alike(*hand.height_mm, row.need_number("width_mm")))
            answer.lines.push_back(text_line("a size that is made",
                                             measure(row, "shaft_mm") + " x " + measure(row, "bore_mm") + " x " +
                                                 measure(row, "width_mm") + ", " +
                                                 std::string(row.text("size_standard")),
                                             row_source(row)));
}

void add_measured(Answer& answer, const InHand& hand) {
    const SourceNote here{Evidence::measured, "measured here", {}};
    if (hand.id_mm) answer.lines.push_back(mm_line("inside", hand.id_mm->nominal, here));
    if (hand.od_mm) answer.lines.push_back(mm_line("outside", hand.od_mm->nominal, here));
    if (hand.height_mm) answer.lines.push_back(mm_line("height", hand.height_mm->nominal, here));
    if (hand.section_mm) answer.lines.push_back(mm_line("section", hand.section_mm->nominal, here));
}

std::string search_headline(const std::vector<SealMatch>& matches, std::size_t searched) {
    if (searched == 0) return "No loaded pack records any seal: load one, or read the size off a maker's list.";
    if (matches.empty())
        return "None of the " + std::to_string(searched) + " seals on record has this size; that is not a no.";
    const std::string first(matches.front().row->text("group_key"));
    if (matches.size() == 1)
        return "By its size it may be " + first + ", and no other of the " + std::to_string(searched) + " on record.";
    return std::to_string(matches.size()) + " seals on record may be it; " + first + " is nearest.";
}

Answer answer_in_hand(const Given& given, const Services& services) {
    const InHand hand = in_hand(given);
    if (!measured_any(hand)) refuse("size", "nothing", "a size such as 25 x 32 x 7, or id, od, height, section");
    const auto& seals = services.facts.rows("filters_seals_seals");
    const auto& sizes = services.facts.rows("filters_seals_sizes");
    const auto matches = seals_like(seals, sizes, hand);
    const bool one = matches.size() == 1 && matches.front().certain && matches.front().compared >= 2;
    Answer answer = Answer::judging(matches.empty() ? Verdict::not_recorded
                                    : one           ? Verdict::fits
                                                    : Verdict::check_first);
    answer.headline = search_headline(matches, seals.size());
    add_measured(answer, hand);
    for (const auto& match : matches)
        answer.lines.push_back(text_line("may be", std::string(match.row->text("group_key")), row_source(*match.row)));
    if (!matches.empty()) answer.grids.push_back(matches_grid(matches, services.facts));
    add_ring_sizes(answer, hand, sizes);
    add_shaft_sizes(answer, hand, services.facts);
    answer.assumptions.push_back("Each length may be off by " + shown(given.number("off_by")) +
                                 " mm; a worn seal has set, and may have swollen.");
    answer.cautions.emplace_back(kSizeIsNotAll);
    if (!hand.section_mm && !hand.od_mm) answer.next.push_back("Measure the outside, or the section of an O-ring.");
    answer.next.push_back(
        "For a lip seal read the size printed on it, or measure shaft and bore: a free lip is smaller than its shaft.");
    return answer;
}

Answer answer_ring_size(const Given& given, const Services& services) {
    const auto& rows = services.facts.rows("filters_seals_sizes");
    const auto sizes = ring_sizes_and_built_in(rows);
    const RingSize* size = ring_by_number(sizes, given.text("number"));
    Answer answer = Answer::computing();
    if (!size) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "No loaded pack holds size " + given.text("number") + "; " + std::to_string(sizes.size()) +
                          " sizes were searched.";
        answer.next.push_back("Load a pack with the sizes of AS568 or ISO 3601-1; the published table is a paid work.");
        return answer;
    }
    const SourceNote source = ring_size_note(rows, size->number);
    answer.headline = "Size " + std::string(size->number) + " is " + shown(size->id_mm.nominal) + " x " +
                      shown(size->section_mm.nominal) + " mm.";
    answer.lines = {mm_line("inside diameter", size->id_mm.nominal, source),
                    mm_line("inside diameter, plus or minus", size->id_mm.plus, source),
                    mm_line("section", size->section_mm.nominal, source),
                    mm_line("section, plus or minus", size->section_mm.plus, source),
                    mm_line("inside, plus or minus, class B", class_b_id_tolerance_mm(size->id_mm.nominal),
                            {Evidence::standard, "ISO 3601-1:2012, equation A.1", {}}, 3)};
    if (!size->note.empty()) answer.cautions.push_back(sentence(size->note));
    answer.cautions.emplace_back(kSizeIsNotAll);
    return answer;
}

}  // namespace

std::vector<Inquiry> seal_size_inquiries() {
    const Input number = required(text_input("number", "size number of AS568, such as 214"));
    return {
        {"seal-in-hand",
         "Which seal is this? By its measured size, such as 25 x 32 x 7",
         {text_input("size", "inside x outside x height in mm, as measured or printed"),
          number_input("id", "inside diameter", "mm", 0.3, 2000),
          number_input("od", "outside diameter", "mm", 0.3, 2000),
          number_input("height", "height along the bore", "mm", 0.3, 100),
          number_input("section", "section of an O-ring", "mm", 0.3, 100),
          choice_input("form", "form of the seal", seal_form_words()),
          assumed(number_input("off_by", "how far a length may be off, either way", "mm", 0, 5), "0.3 mm")},
         answer_in_hand,
         "size=\"25 x 32 x 7\""},
        {"oring-size", "An O-ring size by its number, with its tolerances", {number}, answer_ring_size, "number=214"}};
}

}  // namespace casebound::filters_seals
