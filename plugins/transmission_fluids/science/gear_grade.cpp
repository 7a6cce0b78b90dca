#include "science/gear_grade.h"

#include <stdexcept>

#include "core/contract/answer_words.h"

namespace casebound::transmission_fluids {

namespace {

bool within(const ViscosityClass* row, double kv100_mm2_s) {
    if (row == nullptr) return true;
    return kv100_mm2_s >= row->kv100_min_mm2_s && (!row->kv100_below_mm2_s || kv100_mm2_s < *row->kv100_below_mm2_s);
}

}  // namespace

std::optional<OilGrade> gear_grade_if_known(OilScale edition, std::string_view label) {
    try {
        return oil_grade(edition, label);
    } catch (const std::domain_error&) { return std::nullopt; }
}

bool known_gear_grade(std::string_view label) {
    for (const OilScale edition : gear_editions)
        if (gear_grade_if_known(edition, label)) return true;
    return false;
}

std::string gear_grade_shortfall(std::string_view offered, std::string_view wanted) {
    bool compared = false;
    for (const OilScale edition : gear_editions) {
        const auto have = gear_grade_if_known(edition, offered), need = gear_grade_if_known(edition, wanted);
        if (!have || !need) continue;
        compared = true;
        const auto answer = grade_covers(*have, *need);
        if (answer.verdict == GradeVerdict::does_not_cover || answer.verdict == GradeVerdict::not_comparable)
            return std::string(scale_name(edition)) + ", " + answer.why;
    }
    return compared ? ""
                    : std::string(offered) + " and " + std::string(wanted) +
                          " are not both grades of one edition of SAE J306";
}

std::string outside_gear_grade(std::string_view label, double kv100_mm2_s) {
    for (const OilScale edition : gear_editions) {
        const auto grade = gear_grade_if_known(edition, label);
        if (grade && within(grade->winter, kv100_mm2_s) && within(grade->hot, kv100_mm2_s)) return "";
    }
    return quantity_text(kv100_mm2_s, "mm2/s") + " at 100 °C is not within SAE J306 " + std::string(label) +
           " of 2005 or 2019";
}

}  // namespace casebound::transmission_fluids
