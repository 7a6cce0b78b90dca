#include "rows/seal_search.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>

#include "rows/triple.h"
#include "science/lip_seal.h"

namespace casebound::filters_seals {
namespace {

constexpr Range kDiameterMm{0.3, 2000.0};
constexpr Range kThicknessMm{0.3, 100.0};

// One number from the front, spaces skipped; nothing when there is none.
std::optional<double> take_number(std::string_view& text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    if (error != std::errc{} || value <= 0) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return value;
}

// `x`, `X`, `*`, `-`, `/` or the multiplication sign, spaces around it.
bool take_times(std::string_view& text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    for (const std::string_view sign : {"x", "X", "*", "-", "/", "\xC3\x97"}) {
        if (!text.starts_with(sign)) continue;
        text.remove_prefix(sign.size());
        return true;
    }
    return false;
}

bool is_end(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    return text.empty() || text == "mm";
}

Range around(double value, double off_by) { return {value - off_by, value + off_by}; }

const Row* size_row(const Row& seal, const std::vector<Row>& sizes) {
    for (const auto& row : sizes)
        if (!seal.text("size").empty() && row.text("size") == seal.text("size") &&
            row.text("size_standard") == seal.text("size_standard"))
            return &row;
    return nullptr;
}

double tolerance(const Row* size, std::string_view column) { return size ? size->number(column).value_or(0.0) : 0.0; }

bool is_lip(const Row& seal) { return seal.text("form") == "lip"; }

// What a sound part of that row may measure.
Range id_band(const Row& seal, const Row* size) { return around(*seal.number("id_mm"), tolerance(size, "id_tol_mm")); }

Range od_band(const Row& seal) {
    const double od = *seal.number("od_mm");
    if (!is_lip(seal) || od > 500) return around(od, 0);
    const double most = std::max(press_fit_allowance_mm(od, LipCasing::metal).high,
                                 press_fit_allowance_mm(od, LipCasing::rubber_covered).high);
    return {od, od + most};
}

Range height_band(const Row& seal) {
    const double height = *seal.number("height_mm");
    return around(height, is_lip(seal) && height >= 1 && height <= 50 ? width_tolerance_mm(height) : 0);
}

struct Comparison {
    SealMatch match;
    bool possible = true;

    void take(const std::optional<Toleranced>& measured, const std::optional<double>& stated, Range band) {
        if (!measured) return;
        if (!stated) {
            match.certain = false;
            return;
        }
        ++match.compared;
        match.off_mm += std::abs(measured->nominal - *stated);
        possible = possible && measured->band().overlaps(band);
        match.certain = match.certain && (band.contains(measured->nominal) || measured->band().contains(band));
    }
};

Comparison compare(const Row& seal, const std::vector<Row>& sizes, const InHand& hand) {
    const Row* size = size_row(seal, sizes);
    const auto id = seal.number("id_mm"), od = seal.number("od_mm"), height = seal.number("height_mm"),
               section = seal.number("section_mm");
    Comparison out{{&seal, 0, true, 0.0}};
    out.take(hand.id_mm, id, id ? id_band(seal, size) : Range{});
    out.take(hand.od_mm, od, od ? od_band(seal) : Range{});
    out.take(hand.height_mm, height, height ? height_band(seal) : Range{});
    out.take(hand.section_mm, section, section ? around(*section, tolerance(size, "section_tol_mm")) : Range{});
    if (!hand.form.empty() && neck_form(hand.form) != neck_form(seal.text("form"))) out.possible = false;
    return out;
}

void require_physical(const InHand& hand) {
    if (hand.id_mm) in_range("inside diameter", *hand.id_mm, kDiameterMm, "mm");
    if (hand.od_mm) in_range("outside diameter", *hand.od_mm, kDiameterMm, "mm");
    if (hand.height_mm) in_range("height", *hand.height_mm, kThicknessMm, "mm");
    if (hand.section_mm) in_range("section", *hand.section_mm, kThicknessMm, "mm");
}

bool nearer(const SealMatch& a, const SealMatch& b) {
    if (a.compared != b.compared) return a.compared > b.compared;
    if (a.off_mm != b.off_mm) return a.off_mm < b.off_mm;
    return a.row->text("group_key") < b.row->text("group_key");
}

}  // namespace

std::optional<PrintedSize> printed_size(std::string_view text) {
    const auto id = take_number(text);
    if (!id || !take_times(text)) return std::nullopt;
    const auto od = take_number(text);
    if (!od || !take_times(text)) return std::nullopt;
    const auto height = take_number(text);
    if (!height || !is_end(text) || *od <= *id) return std::nullopt;
    return PrintedSize{*id, *od, *height};
}

std::vector<SealMatch> seals_like(const std::vector<Row>& seals, const std::vector<Row>& sizes, const InHand& in_hand) {
    require_physical(in_hand);
    std::vector<SealMatch> out;
    for (const auto& seal : seals) {
        const Comparison one = compare(seal, sizes, in_hand);
        if (one.possible && one.match.compared > 0) out.push_back(one.match);
    }
    std::sort(out.begin(), out.end(), nearer);
    return out;
}

}  // namespace casebound::filters_seals
