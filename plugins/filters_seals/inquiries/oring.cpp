// An O-ring in its gland: squeeze, stretch and fill, tolerances stacked, against every published range for that use.
#include "science/oring.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "science/ring_size.h"

namespace casebound::filters_seals {
namespace {

struct Parts {
    Ring ring;
    Gland gland;
    SourceNote id, section;
    bool tolerance_said = false;  // of the ring itself
};

// By number or from the catalog; what is given by hand wins.
void take_ring(const Given& given, const Services& services, Parts& parts) {
    const auto& rows = services.facts.rows("filters_seals_sizes");
    const auto sizes = ring_sizes_and_built_in(rows);
    const std::string number = given.text_or("number");
    const RingSize* size = number.empty() ? nullptr : ring_by_number(sizes, number);
    if (by_hand(given, "number") && !size)
        refuse("number", number, "a size of a loaded pack; give id and section instead");
    parts.tolerance_said = size != nullptr || (given.has("id_off_by") && given.has("section_off_by"));
    const auto take = [&](const char* name, const char* off_by, std::optional<Toleranced>& length, SourceNote& source,
                          const Toleranced* of_size) {
        if (of_size && !by_hand(given, name)) {
            length = *of_size;
            source = ring_size_note(rows, number);
            return;
        }
        length = within(given, name, given.maybe_number(off_by).value_or(0));
        source = given.source(name);
    };
    take("id", "id_off_by", parts.ring.id_mm, parts.id, size ? &size->id_mm : nullptr);
    take("section", "section_off_by", parts.ring.section_mm, parts.section, size ? &size->section_mm : nullptr);
}

Parts parts_of(const Given& given, const Services& services) {
    Parts parts;
    take_ring(given, services, parts);
    const double off_by = given.number("off_by");
    parts.gland = {within(given, "outer", off_by), within(given, "inner", off_by), within(given, "width", off_by)};
    return parts;
}

void add_size(Answer& answer, const char* label, const std::optional<Toleranced>& size, const SourceNote& source) {
    if (size)
        answer.lines.push_back(text_line(
            label, shown(size->nominal) + " mm (" + shown(size->min()) + " to " + shown(size->max()) + ")", source));
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
    auto series = series_of("Squeeze over the bore", {"bore", "mm"}, {"squeeze", "%"}, {});
    const Toleranced& section = *parts.ring.section_mm;
    const double inner = parts.gland.inner_mm->nominal, bore = parts.gland.outer_mm->nominal;
    const double id = parts.ring.id_mm ? parts.ring.id_mm->nominal : inner;  // not known: drawn as not stretched
    for (const auto& [name, cs] : {std::pair{"thinnest", section.min()}, std::pair{"nominal", section.nominal},
                                   std::pair{"thickest", section.max()}}) {
        Curve curve{name, {}};
        const double fitted = stretched_section_mm(id, cs, inner, loss);
        for (int step = -10; step <= 10; ++step) {
            const double at = bore + step * section.nominal / 20;
            if (at > inner) curve.points.push_back({at, squeeze_percent(fitted, (at - inner) / 2)});
        }
        series.curves.push_back(std::move(curve));
    }
    series.marks.push_back({bore, "this bore"});
    return series;
}

std::string percent(double value) { return shown(value) + " %"; }

// "" where the squeeze is inside a published range and over no ceiling.
std::string squeeze_headline(Stacked squeeze, GlandUse use) {
    switch (squeeze_reading(squeeze, use)) {
        case SqueezeReading::settled: return "";
        case SqueezeReading::may_leak:
            return "It may leak: the squeeze can be under " + percent(may_leak_under_percent) + " (" +
                   std::string(may_leak_source.work) + ").";
        case SqueezeReading::over_limit: {
            const auto* ceiling = squeeze_ceiling(use);
            return "Too much squeeze: it can be over " + percent(ceiling->percent.high) + " (" +
                   std::string(ceiling->source.work) + ").";
        }
        case SqueezeReading::unsettled: break;
    }
    return "Not settled: the squeeze is not wholly inside one published range, see what objects.";
}

// Requires: a squeeze inside a published range.
std::string beside_squeeze_headline(const OringAnswer& result) {
    std::vector<std::string> open;
    if (result.stretch.judgement != Judgement::fits) open.emplace_back("the stretch");
    if (result.fill.judgement != Judgement::fits) open.emplace_back("the fill");
    if (open.empty()) return "Squeeze, stretch and fill are inside published ranges.";
    return "It seals by its squeeze; " + listed(open, " and ") + (open.size() > 1 ? " are" : " is") +
           " not inside a published range, or not known: see what objects.";
}

std::string gland_headline(const OringAnswer& result, GlandUse use, bool stretch_known) {
    switch (result.state) {
        case SqueezeState::leak_path: return "Not this ring here: it does not touch both walls, and leaks air.";
        case SqueezeState::does_not_enter: return "The inner part does not enter the bore.";
        case SqueezeState::leak_path_possible: return "It may leak at the edge of the tolerances: measure closer.";
        case SqueezeState::sealed: break;
        case SqueezeState::unknown: return "Cannot tell yet: too few lengths are known.";
    }
    if (auto words = squeeze_headline(*result.squeeze_percent, use); !words.empty()) return words;
    if (!stretch_known)
        return "The squeeze is inside a published range if the ring is not stretched: measure its inside diameter.";
    return beside_squeeze_headline(result);
}

Answer face_answer(const Parts& parts, const Given& given) {
    if (!parts.ring.section_mm || !given.has("groove_depth")) {
        Answer answer = Answer::judging(Verdict::check_first);
        answer.headline = "Cannot tell yet: a face gland needs section and groove depth.";
        answer.next.push_back("Measure the depth of the groove and the section of the ring.");
        return answer;
    }
    const Stacked squeeze = squeeze_percent(*parts.ring.section_mm,
                                            about(given.number("groove_depth"), given.number("off_by")));
    const Finding finding = read_squeeze(squeeze, GlandUse::static_face);
    Answer answer = judged(finding.judgement, given, {{"groove_depth", "depth of the groove"}});
    answer.headline = finding.judgement == Judgement::does_not_fit
                          ? "Not this ring here: it does not fill the groove, and leaks."
                          : squeeze_headline(squeeze, GlandUse::static_face);
    if (answer.headline.empty()) answer.headline = "The squeeze is inside a published range.";
    add_size(answer, "section", parts.ring.section_mm, parts.section);
    answer.lines.push_back(measure_line("squeeze", squeeze.nominal, "%", 1, note(finding.source)));
    answer.lines.push_back(finding_line("squeeze, judged", finding));
    return answer;
}

void add_findings(Answer& answer, const OringAnswer& result) {
    const SourceNote measured{Evidence::measured, "from the lengths above", {}};
    if (result.height_mm)
        answer.lines.push_back(text_line("gland height", span_text(*result.height_mm, "mm"), measured));
    if (result.section_mm)
        answer.lines.push_back(text_line("section as fitted", span_text(*result.section_mm, "mm"), measured));
    answer.lines.push_back(finding_line("squeeze", result.squeeze));
    answer.lines.push_back(finding_line("stretch", result.stretch));
    answer.lines.push_back(finding_line("fill", result.fill));
}

// A ring from memory asks, whatever the gland is.
void doubt_ring(Answer& answer, const Parts& parts) {
    for (const auto& [words, source] :
         {std::pair{"ring's inside diameter", parts.id}, std::pair{"section", parts.section}})
        if (source.evidence == Evidence::memory) ask_to_check(answer, words, source);
}

// A yes is only as good as what is known of the ring's own tolerance.
void doubt_tolerance(Answer& answer, const Parts& parts) {
    if (answer.verdict != Verdict::fits || parts.tolerance_said) return;
    answer.lower(Verdict::check_first);
    answer.headline =
        "As measured, squeeze, stretch and fill are inside published ranges; how far the ring may be off is not "
        "said.";
    answer.next.push_back("Give the size number, or id-off-by and section-off-by.");
}

void add_sizes(Answer& answer, const Parts& parts, const Given& given) {
    add_size(answer, "ring, inside", parts.ring.id_mm, parts.id);
    add_size(answer, "ring, section", parts.ring.section_mm, parts.section);
    add_size(answer, "neck, rod or groove", parts.gland.inner_mm, given.source("inner"));
    add_size(answer, "bore", parts.gland.outer_mm, given.source("outer"));
    add_size(answer, "groove width", parts.gland.width_mm, given.source("width"));
}

Answer answer_gland(const Given& given, const Services& services) {
    const Parts parts = parts_of(given, services);
    const GlandUse use = *gland_use_from(given.text("use"));
    if (use == GlandUse::static_face) return face_answer(parts, given);
    const SectionLoss loss = *section_loss_from(given.text("section_loss"));
    const OringAnswer result = examine_gland(parts.ring, parts.gland, use, loss);
    Answer answer = judged(result.overall, given,
                           {{"inner", "inner diameter"}, {"outer", "bore"}, {"width", "groove width"}});
    doubt_ring(answer, parts);
    answer.headline = gland_headline(result, use, parts.ring.id_mm.has_value());
    doubt_tolerance(answer, parts);
    add_sizes(answer, parts, given);
    add_findings(answer, result);
    if (!result.guidance.empty()) answer.grids.push_back(guidance_grid(result.guidance));
    if (result.state == SqueezeState::sealed || result.state == SqueezeState::leak_path ||
        result.state == SqueezeState::leak_path_possible)
        answer.series.push_back(squeeze_series(parts, loss));
    answer.assumptions.push_back("Section as the ring stretches: " + std::string(text(loss)) +
                                 "; parts concentric; tolerances stacked worst case.");
    for (auto& text : sentences(result.measure_next)) answer.next.push_back(std::move(text));
    answer.cautions.push_back("Size says nothing of the rubber: see rubber-and-fluid.");
    return answer;
}

std::vector<Input> gland_inputs() {
    const Input inner = told(
        number_input("inner", "what the ring sits on: neck, rod or bottom of the groove", "mm", 0.3, 2000), "neck_od");
    return {
        recorded(text_input("number", "size number of AS568, such as 214"), "filters_seals_seals", "size"),
        key_of(text_input("seal", "O-ring in the catalog, group or item"), "filters_seals_seals"),
        recorded(number_input("id", "ring, inside diameter", "mm", 0.3, 2000), "filters_seals_seals", "id_mm"),
        number_input("id_off_by", "ring, inside diameter, plus or minus", "mm", 0, 50),
        recorded(number_input("section", "ring, section", "mm", 0.3, 100), "filters_seals_seals", "section_mm"),
        number_input("section_off_by", "ring, section, plus or minus", "mm", 0, 5),
        recorded(inner, "filters_seals_filters", "neck_od_mm"),
        bore_input(number_input("outer", "bore around it", "mm", 0.3, 2000), "bore_mm",
                   "measure the bore across three places."),
        number_input("width", "groove width along the axis", "mm", 0.3, 100),
        number_input("groove_depth", "depth of a face groove", "mm", 0.1, 100),
        assumed(number_input("off_by", "how far a measured diameter may be off, either way", "mm", 0, 5), "0.05 mm"),
        key_of(text_input("filter", "filter in the catalog whose neck it sits on"), "filters_seals_filters"),
        assumed(choice_input("use", "what the ring does", gland_use_words()), "static_radial"),
        assumed(choice_input("section_loss", "how the section thins when stretched", section_loss_words()),
                "torus_volume"),
        bore_role_input("filter-neck-seal")};
}

}  // namespace

std::vector<Inquiry> oring_inquiries() {
    return {{"oring-gland", "Squeeze, stretch and fill of an O-ring, tolerances stacked", gland_inputs(), answer_gland,
             "number=212 inner=22.2mm outer=28.0mm"}};
}

}  // namespace casebound::filters_seals
