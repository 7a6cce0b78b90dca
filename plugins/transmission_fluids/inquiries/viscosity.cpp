// viscosity-index, viscosity, blend: what a fluid does with heat, and what two make together. None of them permits
// anything: viscosity is necessary for a replacement, never sufficient.
#include <cmath>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/spec_record.h"
#include "science/blend.h"
#include "science/viscosity.h"
#include "science/viscosity_index.h"

namespace casebound::transmission_fluids {

namespace {

constexpr const char* never_permission =
    "Viscosity is necessary for a replacement, never sufficient: friction behaviour decides.";

// Two viscosities of one fluid, by hand or of a spec or product on record.
struct Points {
    MeasuredViscosity cold{40, 0}, hot{100, 0};
    std::string name;
    std::string kind;  // of gearbox; empty when not recorded
    SourceNote source;
};

struct PointInputs {
    std::string_view fluid, kv_cold, kv_hot;
};

std::optional<Points> points_by_hand(const PointInputs& names, const Given& given, Answer& answer) {
    Points points{{given.maybe_number("temp_cold").value_or(40), 0},
                  {given.maybe_number("temp_hot").value_or(100), 0},
                  std::string(names.fluid),
                  "",
                  weaker(given.source(names.kv_cold), given.source(names.kv_hot))};
    for (const bool hot : {false, true}) {
        const auto input = hot ? names.kv_hot : names.kv_cold;
        if (!given.has(input)) {
            missing(answer, input, "read it on the data sheet.");
            return std::nullopt;
        }
        (hot ? points.hot : points.cold).kv_mm2_s = given.number(input);
    }
    return points;
}

void say_record(const FluidFigures& figures, Answer& answer) {
    const auto add = [&](const char* at, double kv) {
        answer.lines.push_back(measure_line(figures.name + at, kv, "mm2/s", 2, figures.source));
    };
    add(" at 40 °C, on record", *figures.kv40_mm2_s);
    add(" at 100 °C, on record", *figures.kv100_mm2_s);
    if (figures.typical)
        answer.assumptions.push_back(figures.name + ": the figures are those typical of the spec " +
                                     figures.spec->group + ", not of one product");
}

std::optional<Points> points_on_record(const std::string& key, const Services& services, Answer& answer) {
    const auto figures = fluid_figures(services.facts, key);
    if (!figures || !figures->kv40_mm2_s || !figures->kv100_mm2_s) {
        answer.lower(Verdict::not_recorded);
        answer.next.push_back(
            key +
            (figures ? ": no viscosity at 40 and 100 °C is on record" : ": neither a spec nor a product on record") +
            "; give both by hand, from the data sheet.");
        return std::nullopt;
    }
    say_record(*figures, answer);
    return Points{{40, *figures->kv40_mm2_s},
                  {100, *figures->kv100_mm2_s},
                  key,
                  figures->spec ? figures->spec->gearbox_kind : "",
                  figures->source};
}

std::optional<Points> points_of(const PointInputs& names, const Given& given, const Services& services,
                                Answer& answer) {
    if (given.has(names.kv_cold) || given.has(names.kv_hot) || !given.has(names.fluid))
        return points_by_hand(names, given, answer);
    return points_on_record(given.text(names.fluid), services, answer);
}

// ---------------------------------------------------------------- viscosity index

SourceNote d2270(const char* clause) { return standard(std::string("ASTM D2270-10, ") + clause); }

void say_index(const ViscosityIndex& index, const SourceNote& points, Answer& answer) {
    const auto add = [&](const char* what, double value, const char* unit, int decimals, const char* clause) {
        answer.lines.push_back(measure_line(what, value, unit, decimals, fed_with(d2270(clause), points)));
    };
    answer.headline = "The viscosity index is " + std::to_string(index.whole) + ".";
    add("viscosity index", static_cast<double>(index.whole), "", 0,
        index.procedure == IndexProcedure::b ? "6.1.3, procedure B" : "5.1.3, procedure A");
    add("L, oil of index 0", index.reference.l_mm2_s, "mm2/s", 3, "Table 1 or 5.1.2");
    add("H, oil of index 100", index.reference.h_mm2_s, "mm2/s", 3, "Table 1 or 5.1.2");
    if (index.n) add("N", *index.n, "", 5, "6.1.3");
    answer.cautions.push_back(
        "An index says how viscosity falls with heat; it never says that one fluid may replace another.");
}

Answer answer_viscosity_index(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto points = points_of({"fluid", "kv40", "kv100"}, given, services, answer);
    if (!points) {
        answer.headline = "Cannot tell yet: the viscosities at 40 and 100 °C are not known.";
        return answer;
    }
    const auto index = viscosity_index(points->cold.kv_mm2_s, points->hot.kv_mm2_s);
    if (index) {
        say_index(*index, points->source, answer);
        return answer;
    }
    answer.lower(Verdict::not_recorded);
    answer.headline =
        "There is no viscosity index: it is not defined below 2.0 mm2/s at 100 °C and must not be reported.";
    answer.lines.push_back(measure_line("viscosity at 100 °C", points->hot.kv_mm2_s, "mm2/s", 2, d2270("5.1.1")));
    return answer;
}

Inquiry viscosity_index_inquiry() {
    return {"viscosity-index",
            "Viscosity index from the viscosities at 40 and 100 °C (ASTM D2270)",
            {text_input("fluid", "spec or product on record, instead of both viscosities"),
             number_input("kv40", "kinematic viscosity at 40 °C", "mm2/s", 0, 1e6),
             number_input("kv100", "kinematic viscosity at 100 °C", "mm2/s", 0, 1e6)},
            answer_viscosity_index,
            "kv40=32 kv100=5.4"};
}

// ---------------------------------------------------------------- viscosity at temperature

struct Side {
    Points points;
    ViscosityLine line;
};

std::optional<double> kv_if_in_span(const Side& side, double temp_c) {
    try {
        return viscosity_at(side.line, temp_c).kv_mm2_s;
    } catch (const std::domain_error&) {
        return std::nullopt;  // so cold that the standard's span is left: no point of the curve
    }
}

// Both curves share their temperatures, so that they can be read side by side.
Series viscosity_series(const std::vector<Side>& sides) {
    auto series = series_of("Viscosity against temperature", {"temperature", "degC"}, {"kinematic viscosity", "mm2/s"},
                            {}, true);
    for (const Side& side : sides) series.curves.push_back({side.points.name, {}});
    for (int temp_c = -40; temp_c <= 150; temp_c += 5) {
        std::vector<double> values;
        for (const Side& side : sides)
            if (const auto kv = kv_if_in_span(side, temp_c)) values.push_back(*kv);
        if (values.size() != sides.size()) continue;
        for (std::size_t i = 0; i < sides.size(); ++i) series.curves[i].points.emplace_back(temp_c, values[i]);
    }
    series.marks = {{sides.front().line.coldest_c, "measured"}, {sides.front().line.hottest_c, "measured"}};
    return series;
}

void say_temperatures(const std::vector<Side>& sides, const std::vector<double>& temps_c, Answer& answer) {
    bool extended = false, cold = false;
    for (const double temp_c : temps_c) {
        const std::string at = " at " + quantity_text(temp_c, "°C");
        for (const Side& side : sides) {
            const auto result = viscosity_at(side.line, temp_c);
            extended |= result.extrapolated;
            cold |= result.below_zero_c;
            answer.lines.push_back(measure_line(side.points.name + at, result.kv_mm2_s, "mm2/s", 2,
                                                fed_with(standard("ASTM D341-20, Eq. 1 to 3"), side.points.source)));
        }
    }
    if (extended)
        answer.assumptions.push_back(
            "Outside the two measured temperatures the line of ASTM D341 is extended: an estimate.");
    if (cold)
        answer.cautions.push_back(
            "Below 0 °C a polymer-thickened fluid departs from the line: use measured cold figures (common practice, "
            "no source).");
}

// The line itself: log10 log10 Z = A - B log10 T, T in kelvin.
void say_line(const std::vector<Side>& sides, Answer& answer) {
    for (const Side& side : sides) {
        const auto source = fed_with(standard("ASTM D341-20, Eq. 1 and 2"), side.points.source);
        answer.lines.push_back(measure_line(side.points.name + ": A of the line", side.line.a, "", 4, source));
        answer.lines.push_back(measure_line(side.points.name + ": B of the line", side.line.b, "", 4, source));
    }
}

// Kinds first: no viscosity mends a wrong kind.
void compare_sides(const Side& wanted, const Side& offered, Answer& answer) {
    const auto difference = viscosity_difference(viscosity_at(wanted.line, 100).kv_mm2_s,
                                                 viscosity_at(offered.line, 100).kv_mm2_s);
    answer.lines.push_back(measure_line(
        "offered against wanted, at 100 °C", 100 * difference.share, "%", 1,
        fed_with(fed_with(from_memory(viscosity_limit_words), wanted.points.source), offered.points.source)));
    answer.headline = difference.text +
                      (difference.too_large ? ": ask before it goes in." : ": viscosity does not speak against it.");
    if (difference.too_large) answer.lower(Verdict::check_first);
    const auto &a = wanted.points.kind, &b = offered.points.kind;
    if (a.empty() || b.empty()) {
        answer.next.push_back(
            "Make sure that both are made for the same kind of gearbox: it is not recorded for both.");
        answer.lower(Verdict::check_first);
    } else if (kind_match(a, b) != KindMatch::same) {
        answer.lower(kind_match(a, b) == KindMatch::never ? Verdict::does_not_fit : Verdict::check_first);
        answer.headline = wanted.points.name + " is made for " + kind_words(a) + ", " + offered.points.name + " for " +
                          kind_words(b) + ": viscosity decides nothing here.";
    }
}

std::optional<Side> side_of(const PointInputs& names, const Given& given, const Services& services, Answer& answer) {
    const auto points = points_of(names, given, services, answer);
    if (!points) return std::nullopt;
    return Side{*points, viscosity_line(points->cold, points->hot)};
}

Answer answer_viscosity(const Given& given, const Services& services) {
    const bool two = given.has("offered") || given.has("offered_kv_cold") || given.has("offered_kv_hot");
    auto answer = two ? Answer::judging(Verdict::fits) : Answer::computing();
    std::vector<Side> sides;
    if (auto wanted = side_of({"wanted", "kv_cold", "kv_hot"}, given, services, answer))
        sides.push_back(std::move(*wanted));
    if (two)
        if (auto offered = side_of({"offered", "offered_kv_cold", "offered_kv_hot"}, given, services, answer))
            sides.push_back(std::move(*offered));
    if (sides.size() != (two ? 2U : 1U)) {
        answer.headline = "Cannot tell yet: two viscosities of each fluid are needed.";
        return answer;
    }
    const auto& temps_c = given.numbers("at");
    if (temps_c.empty()) refuse("temperatures wanted", "none", "one or more, joined by commas");
    say_temperatures(sides, temps_c, answer);
    say_line(sides, answer);
    answer.series.push_back(viscosity_series(sides));
    answer.headline = quantity_text(viscosity_at(sides.front().line, temps_c.front()).kv_mm2_s, "mm2/s") + " at " +
                      quantity_text(temps_c.front(), "°C") + ".";
    if (two) compare_sides(sides.front(), sides.back(), answer);
    answer.cautions.push_back(never_permission);
    return answer;
}

Inquiry viscosity_inquiry() {
    return {
        "viscosity",
        "Viscosity at any temperature from two points, with A and B of the line (ASTM D341), two fluids side by side",
        {text_input("wanted", "spec or product on record, instead of its two viscosities"),
         text_input("offered", "spec or product on record to set beside it"),
         number_input("kv_cold", "wanted fluid at the colder temperature", "mm2/s", 0.21, 2e7),
         number_input("kv_hot", "wanted fluid at the hotter temperature", "mm2/s", 0.21, 2e7),
         number_input("offered_kv_cold", "offered fluid at the colder temperature", "mm2/s", 0.21, 2e7),
         number_input("offered_kv_hot", "offered fluid at the hotter temperature", "mm2/s", 0.21, 2e7),
         assumed(number_input("temp_cold", "colder temperature of figures given by hand", "degC", -60, 200), "40"),
         assumed(number_input("temp_hot", "hotter temperature of figures given by hand", "degC", -60, 200), "100"),
         assumed(numbers_input("at", "temperatures wanted", "degC", -60, 200), "80, 20, 120")},
        answer_viscosity,
        "kv-cold=32 kv-hot=5.4 at=80"};
}

// ---------------------------------------------------------------- blend

constexpr const char* blend_limit =
    "An estimate: ASTM D7152-11, 1.3 leaves out viscosity-index improvers, additive packages and strongly "
    "non-Newtonian oils, and finished fluids have them.";

SourceNote blend_source(BlendMethod method) {
    if (method == BlendMethod::refutas)
        return standard("Petroleum Refinery Process Economics, 2nd ed., 2000: viscosity blending number, by mass");
    return from_memory("ASTM D7152-11 names the method, by volume; the equation is from memory");
}

const char* blend_name(BlendMethod method) {
    return method == BlendMethod::refutas ? "blending number, shares by mass" : "double logarithm, shares by volume";
}

Series blend_series(double base_kv, double added_kv) {
    auto series = series_of("Viscosity of the blend, an estimate", {"share of the added fluid", "%"},
                            {"kinematic viscosity", "mm2/s"}, {"double logarithm"}, true);
    for (int percent = 0; percent <= 100; percent += 5) {
        const double share = percent / 100.0;
        series.curves[0].points.emplace_back(
            percent, blend_kv({{1 - share, base_kv}, {share, added_kv}}, BlendMethod::d7152_double_log));
    }
    return series;
}

void say_blend(double base_kv, double added_kv, double share, Answer& answer) {
    for (const auto method : {BlendMethod::d7152_double_log, BlendMethod::refutas})
        answer.lines.push_back(measure_line(std::string("blend, ") + blend_name(method),
                                            blend_kv({{1 - share, base_kv}, {share, added_kv}}, method), "mm2/s", 2,
                                            blend_source(method)));
    const double kv = blend_kv({{1 - share, base_kv}, {share, added_kv}}, BlendMethod::d7152_double_log);
    answer.headline = "Estimate: about " + quantity_text(kv, "mm2/s", 1) + " with " + quantity_text(100 * share, "%") +
                      " of the added fluid.";
}

void say_share_for(double base_kv, double added_kv, double target_kv, Answer& answer) {
    for (const auto method : {BlendMethod::d7152_double_log, BlendMethod::refutas})
        answer.lines.push_back(measure_line(std::string("share needed, ") + blend_name(method),
                                            100 * blend_fraction(base_kv, added_kv, target_kv, method), "%", 1,
                                            blend_source(method)));
    const double share = blend_fraction(base_kv, added_kv, target_kv, BlendMethod::d7152_double_log);
    answer.headline = "Estimate: about " + quantity_text(100 * share, "%", 0) + " of the added fluid gives " +
                      quantity_text(target_kv, "mm2/s") + ".";
}

Answer answer_blend(const Given& given, const Services&) {
    auto answer = Answer::computing();
    answer.lower(Verdict::check_first);  // of finished fluids it can only be an estimate
    const double base = given.number("base_kv"), added = given.number("added_kv");
    if (given.has("target_kv")) say_share_for(base, added, given.number("target_kv"), answer);
    if (given.has("share")) say_blend(base, added, given.number("share") / 100, answer);
    if (answer.headline.empty()) {
        answer.headline = "Cannot tell yet: neither a share nor a target is given.";
        missing(answer, "share", "the part of the added fluid, or target-kv, the viscosity aimed at.");
    }
    answer.series.push_back(blend_series(base, added));
    auto& curves = answer.series.back().curves;
    if (const auto target = given.maybe_number("target_kv")) {
        Curve wanted{"viscosity aimed at", {}};
        for (const auto& [x, y] : curves.front().points) wanted.points.emplace_back(x, *target);
        curves.push_back(std::move(wanted));
    }
    answer.assumptions.push_back("Both viscosities are at the same temperature, and so is the answer.");
    answer.cautions = {blend_limit,
                       "It does not say that the two may be mixed: that is for the owner of the spec or the maker of "
                       "the unit to say."};
    return answer;
}

Inquiry blend_inquiry() {
    return {
        "blend",
        "Viscosity of a blend of two fluids, an estimate (ASTM D7152 and the blending number)",
        {required(number_input("base_kv", "viscosity of the base fluid", "mm2/s", 0.21, 2e7)),
         required(number_input("added_kv", "viscosity of the added fluid at the same temperature", "mm2/s", 0.21, 2e7)),
         number_input("share", "share of the added fluid", "%", 0, 100),
         number_input("target_kv", "viscosity aimed at, instead of a share", "mm2/s", 0.21, 2e7)},
        answer_blend,
        "base-kv=32 added-kv=100 share=40"};
}

}  // namespace

std::vector<Inquiry> viscosity_inquiries() { return {viscosity_index_inquiry(), viscosity_inquiry(), blend_inquiry()}; }

}  // namespace casebound::transmission_fluids
