#include "science/elastomer.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace casebound::filters_seals {
namespace {

using enum Elastomer;

constexpr Range kServiceC{-80.0, 350.0};

constexpr Source kMemory{Evidence::memory, "from memory"};
constexpr Source kEncyclopedia{Evidence::common_practice, "general encyclopedia, oil resistance of rubbers"};
constexpr Source kHydraulic{Evidence::common_practice, "published hydraulic-oil swell data, 70 C, 70 h"};
constexpr Source kBrake{Evidence::common_practice, "published seal guide, glycol brake fluid"};
constexpr Source kCoolant{Evidence::common_practice, "published seal guide, water and glycol"};
constexpr Source kFuel{Evidence::common_practice, "published seal guide, oils and fuels"};
constexpr Source kRange{Evidence::common_practice, "published elastomer temperature ranges"};
constexpr Source kS4{Evidence::law, "49 CFR 571.116, S4: mineral oil is for systems with no SBR, EPR or NR in contact"};

constexpr std::array kCells{
    FluidCell{NBR, Fluid::mineral_oil_atf, Rating::good, kEncyclopedia},
    FluidCell{NBR, Fluid::glycol_brake_fluid, Rating::not_suitable, kBrake},
    FluidCell{NBR, Fluid::silicone_brake_fluid, Rating::good, kMemory},
    FluidCell{NBR, Fluid::engine_coolant, Rating::fair, kMemory},
    FluidCell{NBR, Fluid::gasoline, Rating::mostly_good, kMemory},
    FluidCell{HNBR, Fluid::mineral_oil_atf, Rating::good, kMemory},
    FluidCell{HNBR, Fluid::glycol_brake_fluid, Rating::not_suitable, kMemory},
    FluidCell{HNBR, Fluid::silicone_brake_fluid, Rating::good, kMemory},
    FluidCell{HNBR, Fluid::engine_coolant, Rating::good, kMemory},
    FluidCell{HNBR, Fluid::gasoline, Rating::fair, kMemory},
    FluidCell{FKM, Fluid::mineral_oil_atf, Rating::good, kEncyclopedia},
    FluidCell{FKM, Fluid::glycol_brake_fluid, Rating::not_suitable, kMemory},
    FluidCell{FKM, Fluid::silicone_brake_fluid, Rating::good, kMemory},
    FluidCell{FKM, Fluid::engine_coolant, Rating::varies, kMemory},
    FluidCell{FKM, Fluid::gasoline, Rating::good, kFuel},
    FluidCell{ACM, Fluid::mineral_oil_atf, Rating::good, kEncyclopedia},
    FluidCell{ACM, Fluid::glycol_brake_fluid, Rating::not_suitable, kMemory},
    FluidCell{ACM, Fluid::engine_coolant, Rating::not_suitable, kCoolant},
    FluidCell{ACM, Fluid::gasoline, Rating::mostly_poor, kMemory},
    FluidCell{VMQ, Fluid::mineral_oil_atf, Rating::fair, kEncyclopedia},
    FluidCell{VMQ, Fluid::glycol_brake_fluid, Rating::fair, kMemory},
    FluidCell{VMQ, Fluid::silicone_brake_fluid, Rating::not_suitable, kMemory},
    FluidCell{VMQ, Fluid::engine_coolant, Rating::fair, kMemory},
    FluidCell{VMQ, Fluid::gasoline, Rating::not_suitable, kMemory},
    FluidCell{EPDM, Fluid::mineral_oil_atf, Rating::not_suitable, kHydraulic},
    FluidCell{EPDM, Fluid::glycol_brake_fluid, Rating::good, kBrake},
    FluidCell{EPDM, Fluid::silicone_brake_fluid, Rating::good, kMemory},
    FluidCell{EPDM, Fluid::engine_coolant, Rating::good, kCoolant},
    FluidCell{EPDM, Fluid::gasoline, Rating::not_suitable, kFuel},
    FluidCell{CR, Fluid::mineral_oil_atf, Rating::fair, kEncyclopedia},
    FluidCell{CR, Fluid::glycol_brake_fluid, Rating::fair, kBrake},
    FluidCell{CR, Fluid::silicone_brake_fluid, Rating::good, kMemory},
    FluidCell{CR, Fluid::engine_coolant, Rating::mostly_good, kMemory},
    FluidCell{CR, Fluid::gasoline, Rating::mostly_poor, kMemory},
};

constexpr std::array kLimits{
    TemperatureLimits{NBR, {-25, 120}, {-30, 120}, kRange, kRange},
    TemperatureLimits{EPDM, {-45, 150}, {-50, 150}, kRange, kRange},
    TemperatureLimits{VMQ, {-60, 230}, {-60, 230}, kRange, kRange},
    // The published range ends at 250; handbooks usually say 200 (from memory).
    TemperatureLimits{FKM, {-20, 200}, {-20, 250}, kRange, kRange},
    TemperatureLimits{ACM, {-20, 150}, {-20, 175}, kMemory, kRange},
    TemperatureLimits{HNBR, {-40, 150}, {-40, 150}, kMemory, kMemory},
    TemperatureLimits{CR, {-40, 120}, {-40, 120}, kMemory, kMemory},
};

constexpr std::array<std::string_view, 11> kCodes{"NBR",  "HNBR", "FKM", "ACM", "VMQ", "FVMQ",
                                                  "EPDM", "CR",   "AEM", "SBR", "NR"};

// ASTM D2000, table of usual polymers.
constexpr std::array<D2000Usual, 24> kUsual{{
    {"AA", "NR/SBR/IIR/EPDM/BR/IR"},
    {"AK", "T"},
    {"BA", "EPDM/SBR/IIR"},
    {"BC", "CR"},
    {"BE", "CR"},
    {"BF", "NBR"},
    {"BG", "NBR/AU/EU"},
    {"BK", "NBR"},
    {"CA", "EPDM"},
    {"CE", "CSM"},
    {"CH", "NBR/ECO"},
    {"DA", "EPDM"},
    {"DE", "CM/CSM"},
    {"DF", "ACM"},
    {"DH", "ACM/HNBR"},
    {"EE", "AEM"},
    {"EH", "ACM"},
    {"EK", "FZ"},
    {"FC", "VMQ"},
    {"FE", "VMQ"},
    {"FK", "FVMQ"},
    {"GE", "VMQ"},
    {"HK", "FKM"},
    {"KK", "FFKM"},
}};

bool is_mineral(Fluid fluid) { return fluid == Fluid::mineral_oil_atf || fluid == Fluid::hydraulic_system_mineral_oil; }

Judgement judge_rating(Rating rating) {
    if (rating == Rating::good) return Judgement::fits;
    return rating == Rating::not_suitable ? Judgement::does_not_fit : Judgement::check_first;
}

Finding judge_cell(const std::string& pair, const FluidCell& cell) {
    const std::string says = pair + ": " + std::string(text(cell.rating));
    if (cell.source.kind == Evidence::memory)
        return {Judgement::check_first, says + ", from memory only: ask", cell.source};
    return {judge_rating(cell.rating), says, cell.source};
}

// The cells that count for a pair: those not from memory, or else all of them.
std::vector<FluidCell> cells_for(Elastomer e, Fluid f, std::span<const FluidCell> recorded) {
    std::vector<FluidCell> all, firm;
    if (const auto own = fluid_cell(e, f)) all.push_back(*own);
    for (const FluidCell& cell : recorded)
        if (cell.elastomer == e && cell.fluid == f) all.push_back(cell);
    for (const FluidCell& cell : all)
        if (cell.source.kind != Evidence::memory) firm.push_back(cell);
    return firm.empty() ? all : firm;
}

Finding sources_disagree(const std::string& pair, const Finding& a, const Finding& b) {
    return {Judgement::check_first,
            pair + ": sources disagree, ask: " + a.reason + " (" + std::string(a.source.work) + "), " + b.reason +
                " (" + std::string(b.source.work) + ")",
            weakest(a.source, b.source)};
}

// `inside` and `outside`: the service end against the agreed and widest limits.
Finding judge_end(const std::string& is, bool inside, bool outside, Source source) {
    if (source.kind == Evidence::memory) return {Judgement::check_first, is + ", limit from memory only: ask", source};
    if (inside) return {Judgement::fits, is, source};
    return {outside ? Judgement::does_not_fit : Judgement::check_first,
            is + (outside ? ", out of range" : ", sources disagree here: ask"), source};
}

Finding judge_cold(const std::optional<TemperatureLimits>& limits, std::optional<double> min_c) {
    if (!limits || !min_c) return {Judgement::check_first, "cold end unknown: ask", kMemory};
    return judge_end(shown(*min_c) + " C cold, limit " + shown(limits->agreed_c.low) + " C",
                     *min_c >= limits->agreed_c.low, *min_c < limits->widest_c.low, limits->low_source);
}

Finding judge_hot(const std::optional<TemperatureLimits>& limits, std::optional<double> max_c) {
    if (!limits || !max_c) return {Judgement::check_first, "hot end unknown: ask", kMemory};
    return judge_end(shown(*max_c) + " C hot, limit " + shown(limits->agreed_c.high) + " C",
                     *max_c <= limits->agreed_c.high, *max_c > limits->widest_c.high, limits->high_source);
}

Suitability verdict_of(const std::vector<Finding>& findings) {
    Judgement worst = Judgement::fits;
    for (const Finding& f : findings) {
        if (f.source.kind == Evidence::law && f.judgement == Judgement::does_not_fit) return Suitability::never;
        worst = worse(worst, f.judgement);
    }
    if (worst == Judgement::fits) return Suitability::fits;
    return worst == Judgement::does_not_fit ? Suitability::does_not_fit : Suitability::ask;
}

void require_physical(ServiceTemperature t) {
    if (t.min_c) in_range("coldest service temperature", *t.min_c, kServiceC, "degC");
    if (t.max_c) in_range("hottest service temperature", *t.max_c, kServiceC, "degC");
    if (t.min_c && t.max_c) in_range("hottest service temperature", *t.max_c, {*t.min_c, kServiceC.high}, "degC");
}

bool names(std::string_view codes, std::string_view code) {
    while (!codes.empty()) {
        const std::size_t slash = std::min(codes.find('/'), codes.size());
        if (codes.substr(0, slash) == code) return true;
        codes.remove_prefix(std::min(slash + 1, codes.size()));
    }
    return false;
}

void widen(D2000Rank& rank, double heat_c, SwellClass swell) {
    rank.heat_c = {std::min(rank.heat_c.low, heat_c), std::max(rank.heat_c.high, heat_c)};
    rank.always_limited = rank.always_limited && swell.max_percent.has_value();
    if (!swell.max_percent) return;
    const Range seen = rank.swell_percent.value_or(Range{*swell.max_percent, *swell.max_percent});
    rank.swell_percent = {std::min(seen.low, *swell.max_percent), std::max(seen.high, *swell.max_percent)};
}

}  // namespace

std::string_view text(Elastomer elastomer) { return kCodes[static_cast<std::size_t>(elastomer)]; }

std::string_view text(Fluid fluid) {
    switch (fluid) {
        case Fluid::mineral_oil_atf: return "mineral oil or gearbox fluid";
        case Fluid::hydraulic_system_mineral_oil: return "hydraulic system mineral oil";
        case Fluid::glycol_brake_fluid: return "glycol brake fluid (DOT 3, 4, 5.1)";
        case Fluid::silicone_brake_fluid: return "silicone brake fluid (DOT 5)";
        case Fluid::engine_coolant: return "engine coolant";
        case Fluid::gasoline: return "gasoline";
    }
    return "fluid";
}

std::string_view text(Rating rating) {
    switch (rating) {
        case Rating::good: return "good";
        case Rating::mostly_good: return "good to fair";
        case Rating::fair: return "fair";
        case Rating::mostly_poor: return "poor";
        case Rating::not_suitable: return "not suitable";
        case Rating::varies: return "poor to good by type";
    }
    return "fair";
}

std::string_view text(Suitability suitability) {
    switch (suitability) {
        case Suitability::fits: return "fits";
        case Suitability::ask: return "ask";
        case Suitability::does_not_fit: return "does not fit";
        case Suitability::never: return "never";
    }
    return "ask";
}

std::optional<Elastomer> elastomer_from_code(std::string_view code) {
    std::string upper(code);
    for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    const auto found = std::find(kCodes.begin(), kCodes.end(), upper);
    if (found == kCodes.end()) return std::nullopt;
    return static_cast<Elastomer>(found - kCodes.begin());
}

std::optional<FluidCell> fluid_cell(Elastomer elastomer, Fluid fluid) {
    for (const FluidCell& cell : kCells)
        if (cell.elastomer == elastomer && cell.fluid == fluid) return cell;
    return std::nullopt;
}

bool barred_by_law(Elastomer e, Fluid f) { return is_mineral(f) && (e == EPDM || e == SBR || e == NR); }

Finding judge_fluid(std::optional<Elastomer> e, std::optional<Fluid> f, std::span<const FluidCell> recorded) {
    if (!e || !f) return {Judgement::check_first, "rubber or fluid unknown: ask", kMemory};
    const std::string pair = std::string(text(*e)) + " in " + std::string(text(*f));
    if (barred_by_law(*e, *f)) return {Judgement::does_not_fit, pair + ": never", kS4};
    const std::vector<FluidCell> cells = cells_for(*e, *f, recorded);
    if (cells.empty()) return {Judgement::check_first, pair + ": not recorded, ask", kMemory};
    const Finding first = judge_cell(pair, cells.front());
    for (const FluidCell& cell : cells) {
        const Finding other = judge_cell(pair, cell);
        if (other.judgement != first.judgement) return sources_disagree(pair, first, other);
    }
    return first;
}

std::optional<TemperatureLimits> temperature_limits(Elastomer elastomer) {
    for (const TemperatureLimits& limits : kLimits)
        if (limits.elastomer == elastomer) return limits;
    return std::nullopt;
}

ElastomerAnswer examine_elastomer(std::optional<Elastomer> elastomer, std::optional<Fluid> fluid,
                                  ServiceTemperature service_c, std::span<const FluidCell> recorded) {
    require_physical(service_c);
    const auto limits = elastomer ? temperature_limits(*elastomer) : std::nullopt;
    std::vector<Finding> findings{judge_fluid(elastomer, fluid, recorded), judge_cold(limits, service_c.min_c),
                                  judge_hot(limits, service_c.max_c)};
    Source least = findings.front().source;
    for (const Finding& f : findings) least = weakest(least, f.source);
    const Suitability verdict = verdict_of(findings);
    return {verdict, std::move(findings), least};
}

Finding judge_volume_change(double percent) {
    in_range("volume change", percent, {-60.0, 500.0}, "%");
    const Source rule{Evidence::common_practice, "published rule of thumb: 5 % accepted, over 25 % swell failed"};
    const std::string is = "volume change " + shown(percent) + " %";
    if (percent > 25.0) return {Judgement::does_not_fit, is + ": a failed seal", rule};
    if (percent >= -5.0 && percent <= 5.0) return {Judgement::fits, is, rule};
    return {Judgement::check_first, is + ": the limit differs by rubber", rule};
}

std::optional<double> d2000_type_temp_c(char type) {
    constexpr std::string_view letters = "ABCDEFGHJ";  // no I
    const std::size_t at = letters.find(type);
    if (at == std::string_view::npos) return std::nullopt;
    return at == 0 ? 70.0 : 75.0 + 25.0 * static_cast<double>(at);
}

std::optional<SwellClass> d2000_class_swell(char swell_class) {
    constexpr std::string_view letters = "BCDEFGHJK";
    constexpr std::array<double, 9> percent{140, 120, 100, 80, 60, 40, 30, 20, 10};
    if (swell_class == 'A') return SwellClass{};
    const std::size_t at = letters.find(swell_class);
    if (at == std::string_view::npos) return std::nullopt;
    return SwellClass{percent[at]};
}

std::span<const D2000Usual> d2000_usual_polymers() { return kUsual; }

std::optional<D2000Rank> d2000_rank(Elastomer elastomer) {
    std::optional<D2000Rank> rank;
    for (const D2000Usual& row : kUsual) {
        const auto heat = d2000_type_temp_c(row.type_class[0]);
        const auto swell = d2000_class_swell(row.type_class[1]);
        if (!names(row.codes, text(elastomer)) || !heat || !swell) continue;
        if (!rank) rank = D2000Rank{{*heat, *heat}, std::nullopt, true};
        widen(*rank, *heat, *swell);
    }
    return rank;
}

}  // namespace casebound::filters_seals
