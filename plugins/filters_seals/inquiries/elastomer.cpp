// A rubber against fluid and heat, and all rubbers side by side.
#include <algorithm>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "science/elastomer.h"

namespace casebound::filters_seals {
namespace {

SourceNote d2000() { return {Evidence::standard, "ASTM D2000 / SAE J200, type and class letters", {}}; }

std::string rank_text(const D2000Rank& rank) {
    std::string out = "heat test " + span_text(rank.heat_c, "degC") + "; swell in IRM 903 oil ";
    if (!rank.swell_percent) return out + "not limited";
    out += "at most " + span_text(*rank.swell_percent, "%") +
           (rank.swell_percent->low < rank.swell_percent->high ? " by class" : "");
    return rank.always_limited ? out : out + ", or not limited";
}

std::string rubber_headline(const ElastomerAnswer& result, const std::string& pair) {
    switch (result.verdict) {
        case Suitability::fits: return pair + ": published as suitable, in this range of temperature.";
        case Suitability::ask: return pair + ": ask the seal's maker; what is known does not settle it.";
        case Suitability::does_not_fit:
            // The finding that decides: the fluid itself, or one end of the temperature.
            for (const Finding& one : result.findings)
                if (one.judgement == Judgement::does_not_fit && &one != &result.findings.front())
                    return pair + ": not at this temperature, " + one.reason + ".";
            return pair + ": not suitable.";
        case Suitability::never: return pair + ": never.";
    }
    return pair;
}

Verdict verdict_of(Suitability suitability) {
    if (suitability == Suitability::fits) return Verdict::fits;
    return suitability == Suitability::ask ? Verdict::check_first : Verdict::does_not_fit;
}

void add_swell(Answer& answer, const Given& given) {
    if (!given.has("volume_change")) return;
    const Finding swell = judge_volume_change(given.number("volume_change"));
    answer.lines.push_back(finding_line("volume change", swell, given.source("volume_change")));
    answer.lower(verdict_of(swell.judgement));
    if (swell.judgement == Judgement::does_not_fit)
        answer.headline = "This seal has failed: its volume changed too much.";
}

Answer answer_rubber(const Given& given, const Services& services) {
    const std::string code = given.text_or("rubber");
    const auto elastomer = elastomer_from_code(code);
    const auto cells = fluid_cells(services.facts.rows("filters_seals_elastomers"));
    const Fluid fluid = *fluid_from(given.text("fluid"));
    const ElastomerAnswer result = examine_elastomer(
        elastomer, fluid, {given.maybe_number("coldest"), given.maybe_number("hottest")}, cells);
    Answer answer = Answer::judging(verdict_of(result.verdict));
    answer.headline = rubber_headline(result,
                                      (code.empty() ? "Rubber not known" : code) + " in " + std::string(text(fluid)));
    const char* const labels[] = {"fluid", "cold", "hot"};
    for (std::size_t i = 0; i < result.findings.size(); ++i)
        answer.lines.push_back(finding_line(labels[i], result.findings[i]));
    if (const auto rank = elastomer ? d2000_rank(*elastomer) : std::nullopt)
        answer.lines.push_back(text_line("ranking", rank_text(*rank), d2000()));
    add_swell(answer, given);
    if (!elastomer) answer.next.push_back("Find the ISO 1629 code on the bag or ask its seller; colour tells nothing.");
    if (!given.has("coldest") || !given.has("hottest"))
        answer.next.push_back(
            "Say the coldest and the hottest it will see; gearbox fluid is often 80 to 120 °C hot (from memory).");
    answer.cautions.push_back("A code names a family, not a recipe: two compounds of one code differ.");
    return answer;
}

std::vector<std::string> ranking_row(Elastomer e, Fluid fluid, std::span<const FluidCell> cells) {
    const auto rank = d2000_rank(e);
    const auto limits = temperature_limits(e);
    const Finding in_fluid = judge_fluid(e, fluid, cells);
    const bool never = in_fluid.source.kind == Evidence::law && in_fluid.judgement == Judgement::does_not_fit;
    const std::string verdict = never                                          ? "never"
                                : in_fluid.judgement == Judgement::fits        ? "fits"
                                : in_fluid.judgement == Judgement::check_first ? "ask"
                                                                               : "does not fit";
    return {std::string(text(e)), rank ? span_text(rank->heat_c, "") : "-",
            !rank ? "-"
            : !rank->swell_percent
                ? "not limited"
                : shown(rank->swell_percent->high) + (rank->always_limited ? "" : ", or not limited"),
            limits ? span_text(limits->agreed_c, "") + (limits->low_source.kind == Evidence::memory ? " (memory)" : "")
                   : "-",
            verdict};
}

double heat_of(Elastomer e) {
    const auto rank = d2000_rank(e);
    return rank ? rank->heat_c.high : 0.0;
}

Answer answer_ranking(const Given& given, const Services& services) {
    const Fluid fluid = *fluid_from(given.text("fluid"));
    const auto cells = fluid_cells(services.facts.rows("filters_seals_elastomers"));
    std::vector<Elastomer> all;
    for (const auto& code : elastomer_words()) all.push_back(*elastomer_from_code(code));
    std::stable_sort(all.begin(), all.end(), [](Elastomer a, Elastomer b) { return heat_of(a) > heat_of(b); });
    Answer answer = Answer::computing();
    answer.headline = "Rubbers by the heat their test class asks, and what is known of each in " +
                      std::string(text(fluid)) + ".";
    Grid grid{"Rubbers, ISO 1629 codes: heat test and swell in oil by class",
              {"code", "heat test, degC", "swell, at most %", "in use, degC", "in this fluid"},
              {},
              {}};
    for (const Elastomer e : all) {
        grid.rows.push_back(ranking_row(e, fluid, cells));
        if (grid.rows.back().back() == "fits") grid.marked_rows.push_back(grid.rows.size() - 1);
    }
    answer.lines.push_back(text_line("heat and swell", "from the letters of the usual classes", d2000()));
    answer.lines.push_back(text_line("in use", "published ranges that agree",
                                     {Evidence::common_practice, "published elastomer temperature ranges", {}}));
    answer.grids.push_back(std::move(grid));
    answer.assumptions.push_back("\"ask\" covers what is known from memory only, and what nobody has recorded.");
    return answer;
}

}  // namespace

std::vector<Inquiry> elastomer_inquiries() {
    const Input fluid = assumed(choice_input("fluid", "what it meets", fluid_words()), "mineral_oil_atf");
    return {{"rubber-and-fluid",
             "Whether a rubber stands a fluid and a temperature",
             {recorded(choice_input("rubber", "ISO 1629 code", elastomer_words()), "filters_seals_seals", "elastomer"),
              fluid, number_input("coldest", "coldest it will see", "degC", -80, 350),
              number_input("hottest", "hottest it will see", "degC", -80, 350),
              number_input("volume_change", "change of volume found on the old seal", "%", -60, 500),
              key_of(text_input("seal", "seal in the catalog, group or item"), "filters_seals_seals")},
             answer_rubber,
             "rubber=NBR"},
            {"rubber-ranking",
             "Rubbers side by side: heat, swell, and a fluid",
             {fluid},
             answer_ranking,
             "fluid=glycol_brake_fluid"}};
}

}  // namespace casebound::filters_seals
