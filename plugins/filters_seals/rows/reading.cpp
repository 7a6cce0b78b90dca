#include "rows/reading.h"

#include <algorithm>
#include <cstdlib>
#include <set>

#include "rows/pack_words.h"

namespace casebound::filters_seals {
namespace {

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(' ');
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

template <class Each> void split(std::string_view text, char separator, Each each) {
    for (;;) {
        const auto end = text.find(separator);
        each(trimmed(text.substr(0, end)));
        if (end == std::string_view::npos) return;
        text.remove_prefix(end + 1);
    }
}

std::string without_spaces(std::string_view text) {
    std::string out;
    for (const char c : text)
        if (c != ' ') out += c;
    return out;
}

// "41mm" and "41 mm" are one value.
bool same_value(std::string_view a, std::string_view b) { return without_spaces(a) == without_spaces(b); }

bool readable(std::string_view term) {
    return term.find_first_of("<>") == std::string_view::npos && term.find("..") == std::string_view::npos &&
           term.find('=') != std::string_view::npos;
}

Applies term_applies(std::string_view term, const VehicleView& vehicle) {
    if (!readable(term)) return Applies::cannot_tell;
    const bool negated = term.starts_with("not ");
    if (negated) term = trimmed(term.substr(4));
    const auto at = term.find('=');
    bool some = false, none = false;
    for (const auto& value : vehicle.possible(trimmed(term.substr(0, at)))) {
        bool named = false;
        split(term.substr(at + 1), '|', [&](std::string_view one) { named = named || same_value(one, value.text); });
        (named != negated ? some : none) = true;
    }
    if (some == none) return Applies::cannot_tell;  // both, or not an attribute of the line
    return some ? Applies::yes : Applies::no;
}

Source source_of(const Row& row) { return {row.origin.evidence, row.origin.source}; }

}  // namespace

std::optional<Row> recorded(const Facts& facts, std::string_view table, std::string_view group_or_item) {
    if (group_or_item.empty()) return std::nullopt;
    auto rows = facts.rows(table, "group_key", group_or_item);
    if (!rows.empty()) return rows.front();
    for (const auto& member : facts.rows("group_members", "item", group_or_item)) {
        rows = facts.rows(table, "group_key", member.text("group_key"));
        if (!rows.empty()) return rows.front();
    }
    return std::nullopt;
}

SourceNote row_note(const Row& row) {
    return {row.origin.evidence, row.origin.pack + ", " + row.origin.file + ":" + std::to_string(row.origin.line)};
}

SourceNote weaker(SourceNote a, SourceNote b) { return b.evidence > a.evidence ? b : a; }

Applies applies(std::string_view condition, const VehicleView* vehicle) {
    if (trimmed(condition).empty()) return Applies::yes;
    if (!vehicle) return Applies::cannot_tell;
    Applies all = Applies::yes;
    split(condition, ';', [&](std::string_view term) {
        const Applies one = term_applies(term, *vehicle);
        if (one == Applies::no || all == Applies::no) all = Applies::no;
        else if (one == Applies::cannot_tell) all = Applies::cannot_tell;
    });
    return all;
}

std::vector<Row> rows_of_line(const Services& services, std::string_view table) {
    if (!services.vehicle) return {};
    auto rows = services.facts.rows(table, "line", services.vehicle->line());
    std::erase_if(rows,
                  [&](const Row& row) { return applies(row.text("condition"), services.vehicle) == Applies::no; });
    return rows;
}

std::string where_text(const Row& row, const VehicleView* vehicle) {
    const auto condition = row.text("condition");
    return applies(condition, vehicle) == Applies::yes ? "" : " where " + std::string(condition);
}

std::vector<double> necks_on_line(const Services& services, std::string_view seal_form) {
    if (!services.vehicle) return {};
    std::set<std::string> groups;
    for (const auto& row : services.facts.rows("applications", "line", services.vehicle->line()))
        if (row.text("role") == "pan-filter" && row.text("says") == "fits" && row.text("withdrawn").empty())
            groups.emplace(row.text("group_key"));
    std::set<double> necks;
    for (const auto& group : groups) {
        const auto filter = recorded(services.facts, "filters_seals_filters", group);
        if (!filter || filter->text("neck_seal_form") != seal_form) continue;
        if (const auto neck = filter->number("neck_od_mm")) necks.insert(*neck);
    }
    return {necks.begin(), necks.end()};
}

std::vector<RingSize> ring_sizes(const std::vector<Row>& rows) {
    std::vector<RingSize> out;
    for (const auto& row : rows) {
        const auto id = row.number("id_mm"), section = row.number("section_mm");
        if (!id || !section) continue;
        out.push_back({row.text("size"), about(*id, row.number("id_tol_mm").value_or(0)),
                       about(*section, row.number("section_tol_mm").value_or(0)), row.text("note")});
    }
    return out;
}

std::vector<RingSize> ring_sizes_and_built_in(const std::vector<Row>& rows) {
    std::vector<RingSize> sizes = ring_sizes(rows);
    for (const auto& own : built_in_ring_sizes())
        if (!ring_by_number(sizes, own.number)) sizes.push_back(own);
    return sizes;
}

SourceNote ring_size_note(const std::vector<Row>& rows, std::string_view number) {
    for (const auto& row : rows)
        if (row.text("size") == number) return row_note(row);
    return note(built_in_ring_sizes_source());
}

std::vector<FluidCell> fluid_cells(const std::vector<Row>& rows) {
    std::vector<FluidCell> out;
    for (const auto& row : rows) {
        const auto elastomer = elastomer_from_code(row.text("elastomer"));
        const auto fluid = fluid_from(row.text("fluid"));
        const auto rating = rating_from(row.text("rating"));
        if (!elastomer || !fluid || !rating) continue;
        Source source = source_of(row);
        if (row.text("status") == "from_memory") source.kind = Evidence::memory;
        out.push_back({*elastomer, *fluid, *rating, source});
    }
    return out;
}

std::vector<RecordedListing> gasket_listings(const std::vector<Row>& rows) {
    std::vector<RecordedListing> out;
    for (const auto& row : rows) {
        const auto material = gasket_material_from(row.text("material"));
        const auto flange = flange_form_from(row.text("flange"));
        const auto says = listing_from(row.text("says"));
        if (material && flange && says) out.push_back({*material, *flange, *says, source_of(row)});
    }
    return out;
}

std::vector<DebrisRow> debris_rows(const std::vector<Row>& rows) {
    std::vector<DebrisRow> out;
    for (const auto& row : rows) {
        const auto finding = debris_from(row.text("debris"));
        const auto steps = row.number("steps");
        if (finding && steps)
            out.push_back({*finding, debris_row(*finding).found, row.text("reads_as"), *steps, row.text("next"),
                           row.text("stop") == "yes", source_of(row)});
    }
    return out;
}

}  // namespace casebound::filters_seals
