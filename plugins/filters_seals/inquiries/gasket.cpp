// A pan gasket against the pan's rail; whether the old one may go back; whether sealant belongs there.
#include "science/gasket.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/reading.h"

namespace casebound::filters_seals {
namespace {

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

// Named for this very pan: said by hand, or an application names the group for the vehicle.
std::optional<bool> named_here(const Given& given, const Services& services, const Row* gasket) {
    if (given.has("named_for_this_pan")) return given.yes("named_for_this_pan");
    if (!gasket) return std::nullopt;
    for (const auto& row : rows_here(services, "applications"))
        if (row->text("group_key") == gasket->text("group_key") && row->text("says") == "fits" &&
            !row->stated("withdrawn"))
            return true;
    return std::nullopt;
}

// The material of a gasket that is named is its row's; what is told is of the one that is fitted.
struct Material {
    const Row* gasket;
    std::optional<GasketMaterial> material;
    SourceNote source;
};

Material material_of(const Given& given, const Services& services) {
    if (const Row* gasket = named_row(given, services, "gasket", "filters_seals_gaskets"))
        return {gasket, gasket_material_from(gasket->text("material")), row_source(*gasket)};
    return {nullptr, gasket_material_from(given.text_or("material")), given.source("material")};
}

void doubt_material(Answer& answer, const Given& given, const Material& of) {
    if (!of.gasket && is_doubtful(given, "material")) ask_to_check(answer, "material", of.source);
}

Answer answer_flange(const Given& given, const Services& services) {
    const Material of = material_of(given, services);
    const auto flange = flange_form_from(given.text_or("flange"));
    const auto listings = gasket_listings(services.facts.rows("filters_seals_gasket_flanges"));
    const Finding finding = judge_flange(of.material, flange, named_here(given, services, of.gasket), listings);
    Answer answer = judged(finding.judgement, given, {{"flange", "form of the rail"}});
    doubt_material(answer, given, of);
    answer.headline = sentence(finding.reason);
    if (of.material) answer.lines.push_back(text_line("gasket", std::string(text(*of.material)), of.source));
    if (flange) answer.lines.push_back(text_line("rail", std::string(text(*flange)), given.source("flange")));
    answer.lines.push_back(finding_line("together", finding));
    answer.grids.push_back(listing_grid(listings, of.material));
    answer.assumptions.push_back(
        "\"not listed\" means that the bulletin does not name the pair: nobody has said, which is not a no.");
    if (!flange)
        answer.next.push_back("Lay a straightedge on the rail and look: flat, ribs, one rib all round, or a lip.");
    answer.cautions.push_back("Flatten a bent rail around the bolt holes before any gasket goes on.");
    return answer;
}

GasketDesign design_given(const Given& given, const Row* gasket, GasketMaterial material) {
    const Source own{gasket ? gasket->origin.evidence : Evidence::measured,
                     gasket ? std::string_view(gasket->origin.source) : "as given"};
    return {material, reuse_from(given.text_or("reusable")).value_or(Reuse::not_recorded),
            sealant_from(given.text_or("design_sealant")).value_or(Sealant::not_recorded), own};
}

std::optional<Finding> sealant_meant(const Given& given, const GasketDesign& design) {
    if (!given.has("sealant_meant")) return std::nullopt;
    return judge_sealant(design, *sealant_from(given.text("sealant_meant")));
}

Answer material_not_known() {
    Answer answer = Answer::judging(Verdict::check_first);
    answer.headline = "Cannot tell yet: look at the gasket's edge for its material.";
    return answer;
}

Answer answer_reuse(const Given& given, const Services& services) {
    const Material of = material_of(given, services);
    if (!of.material) return material_not_known();
    const GasketDesign design = design_given(given, of.gasket, *of.material);
    const auto undamaged = given.has("old_state") ? std::optional(given.text("old_state") == "sound") : std::nullopt;
    const Finding reuse = judge_reuse(design, undamaged);
    const auto sealant = sealant_meant(given, design);
    const bool objected = sealant && sealant->judgement != Judgement::fits;
    Answer answer = judged(objected ? worse(reuse.judgement, sealant->judgement) : reuse.judgement, given,
                           {{"old_state", "state of the old gasket"}});
    answer.headline = (objected ? sentence(sealant->reason) + " " : "") + sentence(reuse.reason);
    answer.lines.push_back(text_line("gasket", std::string(text(*of.material)), of.source));
    answer.lines.push_back(finding_line("may it go back", reuse));
    if (sealant) answer.lines.push_back(finding_line("sealant", *sealant));
    if (objected) answer.cautions.push_back(sentence(sealant->reason));
    if (!given.has("old_state")) answer.next.push_back("Wipe it and look: flat bead, no cut, no hard edge.");
    answer.cautions.push_back("Sealant where none belongs squeezes into the gearbox and blocks its filter.");
    return answer;
}

}  // namespace

std::vector<Inquiry> gasket_inquiries() {
    const Input material = told(choice_input("material", "gasket material", gasket_material_words()),
                                "pan_gasket_kind");
    const Input gasket = key_of(text_input("gasket", "gasket in the catalog, group or item"), "filters_seals_gaskets");
    const Input flange = told(choice_input("flange", "form of the rail", flange_form_words()), "pan_flange");
    return {{"gasket-and-flange",
             "Gasket material against the form of the pan's rail",
             {material,
              found_by(recorded(flange, "filters_seals_flanges", "flange"),
                       "lay a straightedge on the rail and look at it."),
              yes_no_input("named_for_this_pan", "a maker names this gasket for this very pan"), gasket},
             answer_flange,
             "material=rigid_carrier"},
            {"gasket-reuse",
             "Whether the old pan gasket may go back on, and whether sealant belongs there",
             {material, gasket,
              recorded(choice_input("reusable", "what its own paper says", {"never", "if_undamaged", "by_design"}),
                       "filters_seals_gaskets", "reusable"),
              told(choice_input("old_state", "the old gasket, wiped and looked at", {"sound", "damaged"}),
                   "old_gasket_state"),
              recorded(choice_input("design_sealant", "sealant its own paper asks for", sealant_words()),
                       "filters_seals_gaskets", "sealant"),
              choice_input("sealant_meant", "sealant somebody means to use", sealant_words())},
             answer_reuse,
             "material=rigid_carrier reusable=by_design old-state=sound"}};
}

}  // namespace casebound::filters_seals
