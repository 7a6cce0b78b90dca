#include "rows/stand_in.h"

#include <cmath>

#include "core/contract/answer_lines.h"
#include "rows/part_record.h"

namespace casebound::solenoids {
namespace {

constexpr double nose_apart_mm = 0.5;  // from memory

struct Comparison {
    const PartRecord& wanted;
    const PartRecord& offered;
    Opinion opinion{};
    std::vector<std::string> not_recorded{};

    void refuse_it(std::string reason) {
        opinion.at_most = Verdict::does_not_fit;
        opinion.reasons.push_back(std::move(reason));
    }
    void only_if(std::string reason, std::string condition) {
        if (opinion.at_most != Verdict::does_not_fit) opinion.at_most = Verdict::check_first;
        opinion.reasons.push_back(std::move(reason));
        opinion.conditions.push_back(std::move(condition));
    }

    void drive() {
        if (wanted.kind != offered.kind)
            refuse_it(offered.group + " is " + offered.kind + ", " + wanted.group + " is " + wanted.kind +
                      ": driven in another way");
    }

    // A block or harness is compared by its plug; coils and seals are inside.
    bool assembly() const { return wanted.kind == "block" || wanted.kind == "harness"; }

    void resistance() {
        if (!wanted.ohm_20 || !offered.ohm_20) return not_recorded.push_back("resistance");
        if (apart(*wanted.ohm_20, *offered.ohm_20))
            return refuse_it("resistance at 20 °C: " + ohm_range_text(*offered.ohm_20) + " offered, " +
                             ohm_range_text(*wanted.ohm_20) + " wanted");
        const bool within = offered.ohm_20->low >= wanted.ohm_20->low && offered.ohm_20->high <= wanted.ohm_20->high;
        if (!within)
            only_if("resistance at 20 °C: " + ohm_range_text(*offered.ohm_20) + " offered, " +
                        ohm_range_text(*wanted.ohm_20) + " wanted, they only overlap",
                    "measure the new part: it must lie within " + ohm_range_text(*wanted.ohm_20) + " at 20 °C");
    }

    void body() {
        if (!wanted.connector_pins || !offered.connector_pins) not_recorded.emplace_back("pins");
        else if (*wanted.connector_pins != *offered.connector_pins)
            refuse_it(number_text(*offered.connector_pins) + " pins offered, " + number_text(*wanted.connector_pins) +
                      " wanted");
        if (assembly()) return;
        if (!wanted.nose_mm || !offered.nose_mm) not_recorded.emplace_back("length of the nose");
        else if (std::abs(*wanted.nose_mm - *offered.nose_mm) > nose_apart_mm)
            refuse_it("nose " + number_text(*offered.nose_mm) + " mm offered, " + number_text(*wanted.nose_mm) +
                      " mm wanted");
        if (!wanted.o_rings || !offered.o_rings) not_recorded.emplace_back("O-rings");
        else if (*wanted.o_rings != *offered.o_rings)
            only_if(number_text(*offered.o_rings) + " O-rings offered, " + number_text(*wanted.o_rings) + " wanted",
                    "the bore must have grooves and lands for its O-rings");
        if (!wanted.screen || !offered.screen) not_recorded.emplace_back("screen");
        else if (*wanted.screen != *offered.screen)
            only_if(std::string(*offered.screen ? "it has" : "it has no") + " screen, the wanted one " +
                        (*wanted.screen ? "has" : "has none"),
                    "the screen in the bore must suit it");
    }

    void grade() {
        if (wanted.grade.empty() && offered.grade.empty()) return;
        if (wanted.grade.empty() || offered.grade.empty())
            return only_if("the grade is recorded on one side only", "read the grade on the old and on the new part");
        if (wanted.grade != offered.grade)
            only_if("grade " + offered.grade + " offered, " + wanted.grade + " wanted",
                    "only with re-grading or relearning by the maker's procedure");
    }

    void block() {
        if (wanted.kind == "block" && offered.kind == "block")
            opinion.conditions.emplace_back(
                "its own calibration code must be loaded into the controller, where the family has one");
    }

    void compare() {
        drive();
        if (!assembly()) resistance();
        body(), grade(), block(), open_points();
    }

    void open_points() {
        if (!not_recorded.empty())
            only_if("not recorded on both sides: " + listed(not_recorded),
                    "compare at the bench: " + listed(not_recorded));
    }
};

}  // namespace

Opinion may_stand_in(const Substitution& substitution, const Services& services) {
    if (substitution.wanted_group == substitution.offered_group) return {};
    const auto wanted = part_of_group(services.facts, substitution.wanted_group);
    const auto offered = part_of_group(services.facts, substitution.offered_group);
    if (!wanted || !offered)
        return {Verdict::check_first,
                {"the body of " + (wanted ? substitution.offered_group : substitution.wanted_group) +
                 " is not recorded; the same function is not the same part"},
                {"compare resistance, connector, nose and O-rings at the bench before the old part is given up"},
                {},
                practice(),
                {}};
    Comparison comparison{*wanted, *offered};
    comparison.opinion.source = weaker(row_source(wanted->origin), row_source(offered->origin));
    comparison.compare();
    return std::move(comparison.opinion);
}

}  // namespace casebound::solenoids
