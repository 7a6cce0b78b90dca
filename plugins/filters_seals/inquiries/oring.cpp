// An O-ring in its gland: squeeze, stretch and fill, tolerances stacked, against every published range for that use.
#include "science/oring.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "science/ring_size.h"

namespace casebound::filters_seals {
namespace {

struct Parts {
    Ring ring;
    Gland gland;
    Quantity id, section, inner, outer, width;
    bool tolerance_said = false;  // of the ring itself
};

// By number, from the catalog, or by hand; what is given by hand wins.
void take_ring(const Asked& asked, Parts& parts) {
    const auto seal = asked.row("seal", "filters_seals_seals", "seal");
    const auto& rows = asked.services.facts.rows("filters_seals_sizes");
    const auto sizes = ring_sizes_and_built_in(rows);
    const std::string number = asked.word("number", seal, "size");
    const RingSize* size = number.empty() ? nullptr : ring_by_number(sizes, number);
    if (asked.given.has("number") && !size)
        refuse("number", number, "a size of a loaded pack; give id and section instead");
    parts.id = asked.quantity("id", seal, "id_mm");
    parts.section = asked.quantity("section", seal, "section_mm");
    parts.ring.id_mm = parts.id.within(asked.given.maybe_number("id_off_by").value_or(0));
    parts.ring.section_mm = parts.section.within(asked.given.maybe_number("section_off_by").value_or(0));
    parts.tolerance_said = size != nullptr || (asked.given.has("id_off_by") && asked.given.has("section_off_by"));
    if (!size) return;
    const SourceNote source = ring_size_note(rows, number);
    if (!asked.given.has("id")) parts.id = {size->id_mm.nominal, source}, parts.ring.id_mm = size->id_mm;
    if (!asked.given.has("section"))
        parts.section = {size->section_mm.nominal, source}, parts.ring.section_mm = size->section_mm;
}

Parts parts_of(const Asked& asked) {
    Parts parts;
    take_ring(asked, parts);
    const auto filter = asked.row("filter", "filters_seals_filters", "filter");
    parts.inner = asked.quantity("inner", filter, "neck_od_mm");
    parts.outer = asked.quantity("outer", bore_of_line(asked.services, "filter-neck-seal"), "bore_mm");
    parts.width = asked.quantity("width");
    const double off_by = asked.given.number("off_by");
    parts.gland = {parts.outer.within(off_by), parts.inner.within(off_by), parts.width.within(off_by)};
    return parts;
}

void add_size(Answer& answer, const char* label, const std::optional<Toleranced>& size, const Quantity& from) {
    if (size)
        answer.lines.push_back(
            text_line(label, shown(size->nominal) + " mm (" + shown(size->min()) + " to " + shown(size->max()) + ")",
                      from.source));
}

std::string place_word(Place place) {
    switch (place) {
        case Place::inside: return "agrees";
        case Place::below: return "objects: too little";
        case Place::above: return "objects: too much";
        case Place::straddles: break;
    }
    return "objects: not wholly inside";
}

Grid guidance_grid(const std::vector<GuidanceReading>& readings) {
    Grid grid{
        "Published squeeze for this use; they do not agree with each other", {"source and range", "this ring"}, {}, {}};
    for (const auto& reading : readings) {
        if (reading.place != Place::inside) grid.marked_rows.push_back(grid.rows.size());
        grid.rows.push_back({std::string(reading.guidance->source.work),
                             place_word(reading.place)});  // the work's name holds its range
    }
    return grid;
}

// Squeeze over the bore, for the thinnest, the nominal and the thickest ring: how much a worn bore matters.
Series squeeze_series(const Parts& parts, SectionLoss loss) {
    Series series{"Squeeze over the bore", "bore", "mm", "squeeze", "%", false, {}, {}};
    const Toleranced& id = *parts.ring.id_mm;
    const Toleranced& section = *parts.ring.section_mm;
    const double inner = parts.gland.inner_mm->nominal, bore = parts.gland.outer_mm->nominal;
    for (const auto& [name, cs] : {std::pair{"thinnest", section.min()}, std::pair{"nominal", section.nominal},
                                   std::pair{"thickest", section.max()}}) {
        Curve curve{name, {}};
        const double fitted = stretched_section_mm(id.nominal, cs, inner, loss);
        for (int step = -10; step <= 10; ++step) {
            const double at = bore + step * section.nominal / 20;
            if (at > inner) curve.points.push_back({at, squeeze_percent(fitted, (at - inner) / 2)});
        }
        series.curves.push_back(std::move(curve));
    }
    series.marks.push_back({bore, "this bore"});
    return series;
}

std::string gland_headline(const OringAnswer& result) {
    switch (result.state) {
        case SqueezeState::leak_path: return "Not this ring here: it does not touch both walls, and leaks air.";
        case SqueezeState::does_not_enter: return "The inner part does not enter the bore.";
        case SqueezeState::leak_path_possible: return "It may leak at the edge of the tolerances: measure closer.";
        case SqueezeState::sealed: break;
        case SqueezeState::unknown: return "Cannot tell yet: too few lengths are known.";
    }
    if (result.overall == Judgement::fits) return "Squeeze, stretch and fill are inside published ranges.";
    return "It seals, but not everything is inside a published range: see what objects.";
}

Answer face_answer(const Parts& parts, const Given& given) {
    Answer answer;
    if (!parts.ring.section_mm || !given.has("groove_depth")) {
        answer.verdict = Verdict::check_first;
        answer.headline = "Cannot tell yet: a face gland needs section and groove depth.";
        answer.next.push_back("Measure the depth of the groove and the section of the ring.");
        return answer;
    }
    const Stacked squeeze = squeeze_percent(*parts.ring.section_mm,
                                            about(given.number("groove_depth"), given.number("off_by")));
    const Finding finding = read_squeeze(squeeze, GlandUse::static_face);
    settle(answer, finding.judgement, {{"section", parts.section}});
    answer.headline = finding.judgement == Judgement::fits ? "The squeeze is inside a published range."
                                                           : "The squeeze is not settled: see what objects.";
    if (finding.judgement == Judgement::does_not_fit)
        answer.headline = "Not this ring here: it does not fill the groove, and leaks.";
    add_size(answer, "section", parts.ring.section_mm, parts.section);
    answer.lines.push_back({"squeeze", Measure{squeeze.nominal, "%", 1}, note(finding.source)});
    answer.lines.push_back(finding_line("squeeze, judged", finding));
    return answer;
}

void add_findings(Answer& answer, const OringAnswer& result) {
    const SourceNote measured{Evidence::measured, "from the lengths above"};
    if (result.height_mm)
        answer.lines.push_back(text_line("gland height", span_text(*result.height_mm, "mm"), measured));
    if (result.section_mm)
        answer.lines.push_back(text_line("section as fitted", span_text(*result.section_mm, "mm"), measured));
    answer.lines.push_back(finding_line("squeeze", result.squeeze));
    answer.lines.push_back(finding_line("stretch", result.stretch));
    answer.lines.push_back(finding_line("fill", result.fill));
}

Answer answer_gland(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const Parts parts = parts_of(asked);
    const GlandUse use = *gland_use_from(given.text("use"));
    if (use == GlandUse::static_face) return face_answer(parts, given);
    const SectionLoss loss = *section_loss_from(given.text("section_loss"));
    const OringAnswer result = examine_gland(parts.ring, parts.gland, use, loss);
    Answer answer;
    settle(answer, result.overall,
           {{"ring's inside diameter", parts.id},
            {"section", parts.section},
            {"inner diameter", parts.inner},
            {"bore", parts.outer},
            {"groove width", parts.width}});
    answer.headline = gland_headline(result);
    if (answer.verdict == Verdict::fits && !parts.tolerance_said) {
        answer.verdict = Verdict::check_first;
        answer.headline =
            "As measured, squeeze, stretch and fill are inside published ranges; how far the ring may be off is not "
            "said.";
        answer.next.push_back("Give the size number, or id_off_by and section_off_by.");
    }
    add_size(answer, "ring, inside", parts.ring.id_mm, parts.id);
    add_size(answer, "ring, section", parts.ring.section_mm, parts.section);
    add_size(answer, "neck, rod or groove", parts.gland.inner_mm, parts.inner);
    add_size(answer, "bore", parts.gland.outer_mm, parts.outer);
    add_size(answer, "groove width", parts.gland.width_mm, parts.width);
    add_findings(answer, result);
    if (!result.guidance.empty()) answer.grids.push_back(guidance_grid(result.guidance));
    if (result.state == SqueezeState::sealed || result.state == SqueezeState::leak_path ||
        result.state == SqueezeState::leak_path_possible)
        answer.series.push_back(squeeze_series(parts, loss));
    answer.assumptions.push_back("Section as the ring stretches: " + std::string(text(loss)) +
                                 "; parts concentric; tolerances stacked worst case.");
    answer.next = sentences(result.measure_next);
    answer.cautions.push_back("Size says nothing of the rubber: see rubber-and-fluid.");
    return answer;
}

std::vector<Input> gland_inputs() {
    return {
        text_input("number", "size number of AS568, such as 214"),
        text_input("seal", "O-ring in the catalog, group or item"),
        number_input("id", "ring, inside diameter", "mm", 0.3, 2000),
        number_input("id_off_by", "ring, inside diameter, plus or minus", "mm", 0, 50),
        number_input("section", "ring, section", "mm", 0.3, 100),
        number_input("section_off_by", "ring, section, plus or minus", "mm", 0, 5),
        from_vehicle(number_input("inner", "what the ring sits on: neck, rod or bottom of the groove", "mm", 0.3, 2000),
                     "neck_od"),
        number_input("outer", "bore around it", "mm", 0.3, 2000),
        number_input("width", "groove width along the axis", "mm", 0.3, 100),
        number_input("groove_depth", "depth of a face groove", "mm", 0.1, 100),
        or_else(number_input("off_by", "how far a measured diameter may be off, either way", "mm", 0, 5), "0.05 mm"),
        text_input("filter", "filter in the catalog whose neck it sits on"),
        or_else(choice_input("use", "what the ring does", gland_use_words()), "static_radial"),
        or_else(choice_input("section_loss", "how the section thins when stretched", section_loss_words()),
                "torus_volume")};
}

}  // namespace

std::vector<Inquiry> oring_inquiries() {
    return {
        {"oring-gland", "Squeeze, stretch and fill of an O-ring, tolerances stacked", gland_inputs(), answer_gland}};
}

}  // namespace casebound::filters_seals
