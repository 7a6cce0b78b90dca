#include "science/ring_size.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace casebound::filters_seals {
namespace {

constexpr Range kIdMm{0.3, 2000.0};
constexpr Range kSectionMm{0.3, 100.0};

// AS568 numbers; mm as ISO 3601-1 class A.
constexpr std::array<RingSize, 7> kBuiltIn{{
    {"010", about(6.07, 0.13), about(1.78, 0.08), ""},
    {"112", about(12.37, 0.13), about(2.62, 0.08), ""},
    {"120", about(25.07, 0.25), about(2.62, 0.08), ""},
    {"214", about(24.99, 0.25), about(3.53, 0.10), ""},
    {"325", about(37.47, 0.38), about(5.33, 0.13), ""},
    {"425", about(113.67, 0.84), about(6.99, 0.15), ""},
    {"910", about(19.18, 0.23), about(2.46, 0.08), ""},
}};

bool may_be(const std::optional<Toleranced>& measured, const Toleranced& row) {
    return !measured || measured->band().overlaps(row.band());
}

bool surely(const std::optional<Toleranced>& measured, const Toleranced& row) {
    return measured && row.band().contains(measured->band());
}

double off_mm(const std::optional<Toleranced>& measured, const Toleranced& row) {
    return measured ? std::abs(measured->nominal - row.nominal) : 0.0;
}

bool nearer(const RingMatch& a, const RingMatch& b) {
    return a.off_mm != b.off_mm ? a.off_mm < b.off_mm : a.size->number < b.size->number;
}

}  // namespace

std::span<const RingSize> built_in_ring_sizes() { return kBuiltIn; }

Source built_in_ring_sizes_source() { return {Evidence::standard, "AS568 sizes, mm as ISO 3601-1:2012 class A"}; }

const RingSize* ring_by_number(std::span<const RingSize> rows, std::string_view number) {
    const auto found = std::find_if(rows.begin(), rows.end(), [&](const RingSize& r) { return r.number == number; });
    return found == rows.end() ? nullptr : &*found;
}

std::vector<RingMatch> rings_like(std::span<const RingSize> rows, const std::optional<Toleranced>& id_mm,
                                  const std::optional<Toleranced>& section_mm) {
    if (id_mm) in_range("O-ring inside diameter", *id_mm, kIdMm, "mm");
    if (section_mm) in_range("O-ring section", *section_mm, kSectionMm, "mm");
    std::vector<RingMatch> out;
    for (const RingSize& row : rows)
        if (may_be(id_mm, row.id_mm) && may_be(section_mm, row.section_mm))
            out.push_back(
                {&row, Judgement::check_first, off_mm(id_mm, row.id_mm) + off_mm(section_mm, row.section_mm)});
    std::sort(out.begin(), out.end(), nearer);
    if (out.size() == 1 && surely(id_mm, out[0].size->id_mm) && surely(section_mm, out[0].size->section_mm))
        out[0].judgement = Judgement::fits;
    return out;
}

double class_b_id_tolerance_mm(double id_mm) {
    return 0.009 * std::pow(in_range("O-ring inside diameter", id_mm, kIdMm, "mm"), 0.95) + 0.11;
}

}  // namespace casebound::filters_seals
