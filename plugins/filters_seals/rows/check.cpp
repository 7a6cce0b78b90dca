#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>

#include "core/contract/domain_words.h"
#include "core/contract/false_leads.h"
#include "rows/hooks.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "science/elastomer.h"
#include "science/fastener.h"
#include "science/gasket.h"
#include "science/ring_size.h"

namespace casebound::filters_seals {
namespace {

struct Check {
    const Facts& facts;
    std::string_view pack;
    std::vector<RowFault> faults{};

    void fault(const Row& row, std::string column, std::string what) {
        faults.push_back({row.origin, std::move(column), std::move(what)});
    }

    template <class Each> void each(std::string_view table, Each rule) {
        for (const auto& row : facts.rows(table))
            if (row.origin.pack == pack) rule(row);
    }

    // Which of this domain's kinds a table may describe; another domain's part may have a row too.
    void kind(const Row& row, std::initializer_list<std::string_view> kinds) {
        for (const auto& group : facts.rows("groups", "group_key", row.text("group_key"))) {
            const auto is = group.text("kind");
            if (!own_kind(is) || std::find(kinds.begin(), kinds.end(), is) != kinds.end()) return;
            std::string wanted;
            for (const auto one : kinds) wanted.append(wanted.empty() ? "" : " or ").append(one);
            fault(row, "group_key",
                  std::string(row.text("group_key")) + " is a " + std::string(is) + ": this table is for " + wanted +
                      "; move the row or correct the group's kind");
            return;
        }
    }

    static bool own_kind(std::string_view kind) {
        const auto& kinds = known_words<vocabulary>().item_kinds;
        return std::any_of(kinds.begin(), kinds.end(), [&](const ItemKind& one) { return one.name == kind; });
    }

    void in(const Row& row, std::string_view column, double low, double high, std::string_view unit) {
        const auto value = row.number(column);
        if (value && (*value < low || *value > high))
            fault(row, std::string(column),
                  "got " + shown(*value) + " " + std::string(unit) + ": valid range is " + shown(low) + " to " +
                      shown(high) + " " + std::string(unit) + "; look for a slipped point or inches");
    }
};

void check_filter(Check& check, const Row& row) {
    check.kind(row, {"pan-filter", "in-line-filter"});
    check.in(row, "height_mm", 1, 300, "mm");
    check.in(row, "pan_depth_mm", 1, 300, "mm");
    check.in(row, "neck_od_mm", 1, 200, "mm");
    check.in(row, "neck_length_mm", 1, 200, "mm");
    const auto height = row.number("height_mm"), depth = row.number("pan_depth_mm");
    if (height && depth && *height >= *depth)
        check.fault(row, "height_mm",
                    "filter " + shown(*height) + " mm high for a pan " + shown(*depth) +
                        " mm deep: the pan could not close; measure both again");
    const bool neck = row.stated("neck_od_mm") || row.stated("neck_length_mm");
    if (neck && row.text("type") != "pan_with_neck")
        check.fault(row, "type",
                    "a neck is recorded, and the type has none: make it pan_with_neck or empty the neck's cells");
    if (row.text("type") == "pan_with_neck" && row.text("neck_seal_form") == "none")
        check.fault(row, "neck_seal_form",
                    "a filter with a neck has a seal there: say which form, or leave the cell empty");
    if (row.text("type") == "in_line" && row.stated("pan_depth_mm"))
        check.fault(row, "pan_depth_mm", "a filter in a line sits in no pan: empty the cell");
}

void check_pan(Check& check, const Row& row) {
    check.kind(row, {"pan"});
    check.in(row, "depth_mm", 1, 300, "mm");
    if (row.text("drain_plug") == "no" && row.stated("drain_thread"))
        check.fault(row, "drain_thread", "a thread without a plug: set drain_plug to yes or empty the cell");
}

void check_form_and_method(Check& check, const Row& row) {
    const auto form = row.text("form"), method = row.text("fit_method");
    if (method.empty()) return;
    const auto must_be = [&](std::string_view wanted) {
        if (method != wanted)
            check.fault(row, "fit_method",
                        std::string(form) + " is fitted " + std::string(wanted) + ", not " + std::string(method) +
                            ": the wrong way leaks; correct form or method");
    };
    if (form == "hat_in_bore") must_be("pressed_in_bore");
    if (form == "oring_on_neck" || form == "ribbed_band_on_neck") must_be("on_neck");
    if (form == "flat_washer" || form == "bonded_washer") must_be("under_head");
}

// A size named by number must be that size; one that no pack and no built-in row holds cannot be checked.
void check_size(Check& check, const Row& row) {
    if (row.stated("size") != row.stated("size_standard")) {
        check.fault(row, row.stated("size") ? "size_standard" : "size",
                    "a size needs its standard and a standard its size: fill both or neither");
        return;
    }
    if (row.text("size_standard") != "AS568") return;
    const auto& rows = check.facts.rows("filters_seals_sizes", "size", row.text("size"));
    auto sizes = ring_sizes(rows);
    for (const auto& own : built_in_ring_sizes()) sizes.push_back(own);
    const RingSize* size = ring_by_number(sizes, row.text("size"));
    if (!size) return;
    const auto differs = [&](std::string_view column, const Toleranced& wanted) {
        const auto value = row.number(column);
        if (value && !wanted.band().contains(*value))
            check.fault(row, std::string(column),
                        "AS568 " + std::string(row.text("size")) + " is " + shown(wanted.nominal) + " mm, got " +
                            shown(*value) + ": correct the number or the length");
    };
    differs("id_mm", size->id_mm);
    differs("section_mm", size->section_mm);
}

void check_rubber(Check& check, const Row& row, std::string_view column) {
    const auto code = row.text(column);
    if (code.empty() || elastomer_from_code(code) || is_washer_metal(code)) return;
    check.fault(row, std::string(column),
                std::string(code) +
                    " is no ISO 1629 code that is known here: write the code (NBR, HNBR, ACM, FKM, EPDM, VMQ, FVMQ, "
                    "AEM, CR, SBR, NR), or a metal");
}

void check_seal(Check& check, const Row& row) {
    check.kind(row, {"neck-seal", "shaft-seal", "connector-seal", "tube-seal", "plug-washer"});
    check.in(row, "id_mm", 0.3, 2000, "mm");
    check.in(row, "section_mm", 0.3, 100, "mm");
    check_form_and_method(check, row);
    check_rubber(check, row, "elastomer");
    check_size(check, row);
    const auto form = row.text("form");
    const auto id = row.number("id_mm"), od = row.number("od_mm"), section = row.number("section_mm");
    if ((form == "oring" || form == "oring_on_neck") && id && od && section &&
        std::abs(*od - *id - 2 * *section) > 0.1 * *section)
        check.fault(row, "od_mm",
                    "an O-ring of " + shown(*id) + " x " + shown(*section) + " mm is " + shown(*id + 2 * *section) +
                        " mm outside, got " + shown(*od) + ": correct one of the three");
}

void check_gasket(Check& check, const Row& row) {
    check.kind(row, {"pan-gasket"});
    check.in(row, "thickness_mm", 0.1, 30, "mm");
    const bool bead = row.text("material") == "silicone_adhesive";
    if (bead && row.text("reusable") != "never")
        check.fault(row, "reusable", "a cured bead of sealant cannot go back: write never");
    if (bead != (row.text("sealant") == "bead_only"))
        check.fault(row, "sealant",
                    bead ? "sealant alone is a bead: write bead_only"
                         : "bead_only is a bead and no gasket: write spots_only or none, or correct the material");
}

// One source that says two things of a pair; two sources may disagree, and are shown.
void check_listing(Check& check, const Row& row) {
    for (const auto& other : check.facts.rows("filters_seals_gasket_flanges", "material", row.text("material"))) {
        const bool earlier = other.origin.pack == row.origin.pack && other.origin.line < row.origin.line;
        if (earlier && other.text("flange") == row.text("flange") && other.text("source") == row.text("source"))
            check.fault(row, "says",
                        "the same source already speaks of this pair in line " + std::to_string(other.origin.line) +
                            ": keep one");
    }
}

bool is_bolt(std::string_view text) {  // M6x20, M6
    if (text.size() < 2 || text.front() != 'M') return false;
    double number = 0;
    const char* const last = text.data() + text.size();
    auto [end, error] = std::from_chars(text.data() + 1, last, number, std::chars_format::fixed);
    if (error != std::errc{} || end == last) return error == std::errc{};
    if (*end != 'x') return false;
    const auto length = std::from_chars(end + 1, last, number, std::chars_format::fixed);
    return length.ec == std::errc{} && length.ptr == last;
}

void check_flange(Check& check, const Row& row) {
    const auto tightening = row.text("tightening");
    try {
        if (!tightening.empty() && !stages_from_text(tightening))
            check.fault(row, "tightening",
                        std::string(tightening) +
                            ": write the stages in order with their units, such as \"9 N m\" or \"5 N m + 60 deg\"");
    } catch (const std::domain_error& error) {
        check.fault(row, "tightening", std::string(error.what()) + "; correct the stage");
    }
    if (row.stated("bolt") && !is_bolt(row.text("bolt")))
        check.fault(row, "bolt", std::string(row.text("bolt")) + ": write thread and length, such as M6x20");
}

void check_bore(Check& check, const Row& row) {
    check.in(row, "bore_mm", 0.3, 500, "mm");
    check.in(row, "depth_to_seal_mm", 0, 200, "mm");
    if (role_in(known_words<vocabulary>(), row.text("role"))) return;
    check.fault(row, "role",
                std::string(row.text("role")) + " is no role of filters and seals: write one such as filter-neck-seal");
}

void check_debris(Check& check, const Row& row) {
    if (!debris_from(row.text("debris")))
        check.fault(row, "debris",
                    std::string(row.text("debris")) + ": not a value of pan_debris; see the attribute for its values");
}

void check_elastomer(Check& check, const Row& row) {
    const auto elastomer = elastomer_from_code(row.text("elastomer"));
    const auto fluid = fluid_from(row.text("fluid"));
    if (!elastomer)
        check.fault(row, "elastomer",
                    std::string(row.text("elastomer")) + " is no ISO 1629 code that is known here: correct it");
    if (elastomer && fluid && barred_by_law(*elastomer, *fluid) && row.text("rating") != "not_suitable")
        check.fault(
            row, "rating",
            std::string(row.text("elastomer")) + " must not meet mineral oil (49 CFR 571.116, S4): write not_suitable");
    if (row.text("status") == "seen" && row.origin.evidence == Evidence::memory)
        check.fault(row, "status", "seen, with a source that is from memory: name the work, or write from_memory");
}

void check_ring_size(Check& check, const Row& row) {
    const auto id = row.number("id_mm"), section = row.number("section_mm");
    const auto id_tol = row.number("id_tol_mm"), section_tol = row.number("section_tol_mm");
    if (id && id_tol && *id_tol >= *id)
        check.fault(row, "id_tol_mm", "a tolerance as large as the size: look for a slipped point");
    if (section && section_tol && *section_tol >= *section)
        check.fault(row, "section_tol_mm", "a tolerance as large as the section: look for a slipped point");
    if (row.text("size_standard") != "AS568") return;
    const RingSize* own = ring_by_number(built_in_ring_sizes(), row.text("size"));
    if (!own) return;
    const auto differs = [&](std::string_view column, const std::optional<double>& value, const Toleranced& wanted) {
        if (value && std::abs(*value - wanted.nominal) > 0.02)
            check.fault(row, std::string(column),
                        "AS568 " + std::string(row.text("size")) + " is " + shown(wanted.nominal) +
                            " mm (ISO 3601-1), got " + shown(*value) + ": read the cell again");
    };
    differs("id_mm", id, own->id_mm);
    differs("section_mm", section, own->section_mm);
}

// Two rows of one casing that both hold a bore.
// ISO 286: an H begins at the nominal diameter, an h ends there.
void check_shaft_fit(Check& check, const Row& row) {
    if (row.text("fit").substr(0, 1) == "H" && row.number("lower_mm") != 0.)
        check.fault(row, "lower_mm", "an H has its lower limit at the nominal diameter: write 0");
    if (row.text("fit").substr(0, 1) == "h" && row.number("upper_mm") != 0.)
        check.fault(row, "upper_mm", "an h has its upper limit at the nominal diameter: write 0");
}

void check_press_fit(Check& check, const Row& row) {
    const auto over = row.number("bore_over_mm"), to = row.number("bore_to_mm");
    for (const auto& other : check.facts.rows("filters_seals_press_fits", "cased", row.text("cased"))) {
        const auto other_over = other.number("bore_over_mm"), other_to = other.number("bore_to_mm");
        const bool earlier = other.origin.pack == row.origin.pack && other.origin.line < row.origin.line &&
                             other.text("source") == row.text("source");
        if (earlier && over && to && other_over && other_to && *over < *other_to && *other_over < *to)
            check.fault(row, "bore_over_mm",
                        "overlaps line " + std::to_string(other.origin.line) + ": a bore must find one row");
    }
}

}  // namespace

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    Check check{facts, pack};
    constexpr std::pair<std::string_view, void (*)(Check&, const Row&)> rules[] = {
        {"filters_seals_filters", check_filter},
        {"filters_seals_pans", check_pan},
        {"filters_seals_seals", check_seal},
        {"filters_seals_gaskets", check_gasket},
        {"filters_seals_gasket_flanges", check_listing},
        {"filters_seals_flanges", check_flange},
        {"filters_seals_bores", check_bore},
        {"filters_seals_debris", check_debris},
        {"filters_seals_elastomers", check_elastomer},
        {"filters_seals_sizes", check_ring_size},
        {"filters_seals_press_fits", check_press_fit},
        {"filters_seals_shaft_fits", check_shaft_fit}};
    for (const auto& [table, rule] : rules) check.each(table, [&, &rule = rule](const Row& row) { rule(check, row); });
    return check.faults;
}

}  // namespace casebound::filters_seals
