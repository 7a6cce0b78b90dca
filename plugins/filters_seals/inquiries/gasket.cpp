// A pan gasket against the pan's rail; whether the old one may go back; whether sealant belongs there.
#include "science/gasket.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"

namespace casebound::filters_seals {
namespace {

// The rail: by hand, told, or the line's only recorded one.
struct Rail {
    std::string word;
    SourceNote source{Evidence::memory, "nobody has said"};
};

Rail rail_of(const Asked& asked) {
    if (asked.given.has("flange")) return {asked.given.text("flange"), asked.source("flange")};
    for (const auto& row : rows_of_line(asked.services, "filters_seals_flanges"))
        if (applies(row.text("condition"), asked.services.vehicle) == Applies::yes)
            return {std::string(row.text("flange")), row_note(row)};
    return {};
}

Grid listing_grid(std::span<const RecordedListing> recorded, std::optional<GasketMaterial> wanted) {
    Grid grid{"Gasket materials and rails; -: not listed; specified: where the maker specifies it only",
              {"material"},
              {},
              {}};
    for (const auto& flange : flange_form_words()) grid.columns.push_back(flange);
    for (const auto& word : gasket_material_words()) {
        const GasketMaterial material = *gasket_material_from(word);
        std::vector<std::string> row{word};
        for (const auto& flange : flange_form_words()) {
            Listing says = listing(material, *flange_form_from(flange));
            for (const auto& one : recorded)
                if (one.material == material && one.flange == *flange_form_from(flange)) says = one.listing;
            row.emplace_back(says == Listing::listed ? "listed" : says == Listing::not_listed ? "-" : "specified");
        }
        if (wanted == material) grid.marked_rows.push_back(grid.rows.size());
        grid.rows.push_back(std::move(row));
    }
    return grid;
}

// Named for this very pan: said by hand, or an application names the group for the vehicle's line.
std::optional<bool> named_here(const Asked& asked, const std::optional<Row>& gasket) {
    if (asked.given.has("named_for_this_pan")) return asked.given.yes("named_for_this_pan");
    if (!gasket || !asked.services.vehicle) return std::nullopt;
    for (const auto& row : asked.services.facts.rows("applications", "group_key", gasket->text("group_key")))
        if (row.text("line") == asked.services.vehicle->line() && row.text("says") == "fits" &&
            row.text("withdrawn").empty())
            return true;
    return std::nullopt;
}

Answer answer_flange(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const auto gasket = asked.row("gasket", "filters_seals_gaskets", "gasket");
    const std::string word = gasket ? std::string(gasket->text("material")) : asked.word("material");
    const auto material = gasket_material_from(word);
    const Rail rail = rail_of(asked);
    const auto& rows = services.facts.rows("filters_seals_gasket_flanges");
    const auto recorded_listings = gasket_listings(rows);
    const Finding finding = judge_flange(material, flange_form_from(rail.word), named_here(asked, gasket),
                                         recorded_listings);
    Answer answer;
    settle(answer, finding.judgement,
           {{"form of the rail", {1.0, rail.source, asked.doubtful("flange")}},
            {"material", {1.0, asked.source("material"), !gasket && asked.doubtful("material")}}});
    answer.headline = sentence(finding.reason);
    if (material)
        answer.lines.push_back(
            text_line("gasket", std::string(text(*material)), gasket ? row_note(*gasket) : asked.source("material")));
    if (const auto form = flange_form_from(rail.word))
        answer.lines.push_back(text_line("rail", std::string(text(*form)), rail.source));
    answer.lines.push_back(finding_line("together", finding));
    answer.grids.push_back(listing_grid(recorded_listings, material));
    answer.assumptions.push_back(
        "\"not listed\" means that the bulletin does not name the pair: nobody has said, which is not a no.");
    if (!flange_form_from(rail.word))
        answer.next.push_back("Lay a straightedge on the rail and look: flat, ribs, one rib all round, or a lip.");
    answer.cautions.push_back("Flatten a bent rail around the bolt holes before any gasket goes on.");
    return answer;
}

GasketDesign design_of(const Asked& asked, const std::optional<Row>& gasket, GasketMaterial material) {
    const Source own{gasket ? gasket->origin.evidence : Evidence::measured,
                     gasket ? std::string_view(gasket->origin.source) : "as given"};
    return {material, reuse_from(asked.word("reusable", gasket, "reusable")).value_or(Reuse::not_recorded),
            sealant_from(asked.word("design_sealant", gasket, "sealant")).value_or(Sealant::not_recorded), own};
}

std::optional<bool> undamaged(const Asked& asked) {
    if (!asked.given.has("old_state")) return std::nullopt;
    return asked.given.text("old_state") == "sound";
}

Answer answer_reuse(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const auto gasket = asked.row("gasket", "filters_seals_gaskets", "gasket");
    const auto material = gasket_material_from(gasket ? gasket->text("material")
                                                      : std::string_view(asked.word("material")));
    Answer answer;
    if (!material) {
        answer.verdict = Verdict::check_first;
        answer.headline = "Cannot tell yet: look at the gasket's edge for its material.";
        return answer;
    }
    const GasketDesign design = design_of(asked, gasket, *material);
    const Finding reuse = judge_reuse(design, undamaged(asked));
    answer.headline = sentence(reuse.reason);
    const auto sealant = given.has("sealant_meant")
                             ? std::optional(judge_sealant(design, *sealant_from(given.text("sealant_meant"))))
                             : std::nullopt;
    const bool objected = sealant && sealant->judgement != Judgement::fits;
    if (objected) answer.headline = sentence(sealant->reason) + " " + answer.headline;
    settle(answer, objected ? worse(reuse.judgement, sealant->judgement) : reuse.judgement,
           {{"state of the old gasket", {1.0, asked.source("old_state"), asked.doubtful("old_state")}}});
    answer.lines.push_back(
        text_line("gasket", std::string(text(*material)), gasket ? row_note(*gasket) : asked.source("material")));
    answer.lines.push_back(finding_line("may it go back", reuse));
    if (sealant) answer.lines.push_back(finding_line("sealant", *sealant));
    if (objected) answer.cautions.push_back(sentence(sealant->reason));
    if (!given.has("old_state")) answer.next.push_back("Wipe it and look: flat bead, no cut, no hard edge.");
    answer.cautions.push_back("Sealant where none belongs squeezes into the gearbox and blocks its filter.");
    return answer;
}

}  // namespace

std::vector<Inquiry> gasket_inquiries() {
    const Input material = from_vehicle(choice_input("material", "gasket material", gasket_material_words()),
                                        "pan_gasket_kind");
    const Input gasket = text_input("gasket", "gasket in the catalog, group or item");
    return {
        {"gasket-and-flange",
         "Gasket material against the form of the pan's rail",
         {material, from_vehicle(choice_input("flange", "form of the rail", flange_form_words()), "pan_flange"),
          yes_no_input("named_for_this_pan", "a maker names this gasket for this very pan"), gasket},
         answer_flange},
        {"gasket-reuse",
         "Whether the old pan gasket may go back on, and whether sealant belongs there",
         {material, gasket, choice_input("reusable", "what its own paper says", {"never", "if_undamaged", "by_design"}),
          from_vehicle(choice_input("old_state", "the old gasket, wiped and looked at", {"sound", "damaged"}),
                       "old_gasket_state"),
          choice_input("design_sealant", "sealant its own paper asks for", sealant_words()),
          choice_input("sealant_meant", "sealant somebody means to use", sealant_words())},
         answer_reuse}};
}

}  // namespace casebound::filters_seals
