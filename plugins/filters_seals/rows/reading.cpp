#include "rows/reading.h"

#include <set>

#include "rows/pack_words.h"

namespace casebound::filters_seals {
namespace {

Source source_of(const Row& row) { return {row.origin.evidence, row.origin.source}; }

}  // namespace

SourceNote with_told(SourceNote source, const Told& told) {
    const SourceNote said = told.source();
    return {weaker(source.evidence, said.evidence), source.title + "; " + said.title, std::move(source.row)};
}

std::vector<double> necks_on_line(const Services& services, std::string_view seal_form) {
    std::set<double> necks;
    if (!services.vehicle) return {};
    // Of the many rows of a line only the filters' are met with the vehicle.
    for (const auto& row : services.facts.rows("applications", "line", services.vehicle->line())) {
        if (row.text("role") != "pan-filter" || row.text("says") != "fits" || row.stated("withdrawn")) continue;
        const Row* filter = row_of_group(services.facts, "filters_seals_filters", row.text("group_key"));
        if (!filter || filter->text("neck_seal_form") != seal_form ||
            services.vehicle->holds(row.text("condition")) == Holds::no)
            continue;
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
        if (row.text("size") == number) return row_source(row);
    return note(built_in_ring_sizes_source());
}

std::vector<FluidCell> fluid_cells(const std::vector<Row>& rows, std::optional<Elastomer> only) {
    std::vector<FluidCell> out;
    for (const auto& row : rows) {
        const auto elastomer = elastomer_from_code(row.text("elastomer"));
        if (only && elastomer != only) continue;
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
                           row.yes("stop"), source_of(row)});
    }
    return out;
}

const DebrisRow& debris_as_recorded(Debris finding, std::span<const DebrisRow> recorded) {
    for (const auto& row : recorded)
        if (row.finding == finding) return row;
    return debris_row(finding);
}

GasketDesign design_of(const Row& gasket, GasketMaterial material) {
    return {material, reuse_from(gasket.text("reusable")).value_or(Reuse::not_recorded),
            sealant_from(gasket.text("sealant")).value_or(Sealant::not_recorded), source_of(gasket)};
}

}  // namespace casebound::filters_seals
