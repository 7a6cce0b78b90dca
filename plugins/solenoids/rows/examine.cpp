#include "rows/examine.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/contract/answer_lines.h"
#include "core/contract/examiner.h"
#include "rows/family.h"
#include "rows/holds.h"
#include "rows/part_record.h"

namespace casebound::solenoids {
namespace {

const char* const outline_kinds[] = {"block", "harness"};  // they carry the case connector themselves

struct SolenoidExaminer : Examiner {
    std::vector<std::string> gearboxes{};

    void find_gearboxes() {
        for (const auto& value : vehicle().possible("gearbox")) gearboxes.push_back(value.text);
    }

    // Empty when it holds on everything that is left.
    std::string condition_for(const std::string& gearbox) const {
        return gearboxes.size() > 1 ? "gearbox=" + gearbox : "";
    }
    std::string where_text(const std::string& gearbox) const {
        return gearboxes.size() > 1 ? " where gearbox=" + gearbox : "";
    }

    // Of a vehicle whose line does not have it as well.
    void ask_in_any_case(const std::string& attribute) { add_once(result.questions, attribute); }
    void bring(const std::string& role, const std::string& reason, const SourceNote& source) {
        const bool there = std::any_of(result.companions.begin(), result.companions.end(),
                                       [&](const Companion& one) { return one.role == role; });
        if (role != candidate.role && !there) result.companions.push_back({role, reason, source});
    }

    // ------------------------------------------------------------ how it is sold

    void by_service(const std::string& gearbox, const Service& service) {
        const auto source = row_source(service.origin);
        const bool alone = gearboxes.size() == 1;
        if (service.serviced_as != "single" && service.order_role != candidate.role) {
            const std::string instead = service.order_role.empty() ? "" : ": order the " + service.order_role;
            object(condition_for(gearbox), Verdict::check_first,
                   "solenoid " + service.element + " is sold as " + service.serviced_as + instead, source);
            if (alone && !service.order_role.empty())
                bring(service.order_role, "solenoid " + service.element + " is sold as " + service.serviced_as, source);
            else
                warn("solenoid " + service.element + " is sold as " + service.serviced_as + instead +
                         where_text(gearbox),
                     source);
        }
        if (service.calibration == "graded")
            warn("graded" + where_text(gearbox) + ": order the same grade; " + service.calibration_words, source);
        if (service.calibration == "block_code") by_calibration(gearbox, service, alone);
    }

    // The code must be known before a block is ordered, and somebody must load it.
    void by_calibration(const std::string& gearbox, const Service& service, bool alone) {
        const auto source = row_source(service.origin);
        if (!code_is_read(vehicle())) {
            ask_in_any_case("block_code");
            object(condition_for(gearbox), Verdict::check_first,
                   "its calibration code must be loaded into the controller and is not read yet: " +
                       service.calibration_words,
                   source);
        }
        if (alone) bring("block-calibration", "the calibration code must be loaded into the controller", source);
        else warn("a calibration code must be loaded into the controller" + where_text(gearbox), source);
    }

    // ------------------------------------------------------------ the part itself

    void by_drive(const std::string& gearbox, const Element& element, const PartRecord& part) {
        if (!element.kind.empty() && !part.kind.empty() && element.kind != part.kind && part.kind != "block" &&
            part.kind != "harness")
            object(condition_for(gearbox), Verdict::does_not_fit,
                   candidate.group + " is " + part.kind + ", solenoid " + element.name + " of " + gearbox +
                       " is driven " + element.kind,
                   row_source(part.origin));
        if (element.ohm_20 && part.ohm_20 && apart(*element.ohm_20, *part.ohm_20))
            object(condition_for(gearbox), Verdict::does_not_fit,
                   candidate.group + " has " + ohm_range_text(*part.ohm_20) + " at 20 °C, solenoid " + element.name +
                       " of " + gearbox + " needs " + ohm_range_text(*element.ohm_20),
                   row_source(part.origin));
    }

    void by_pins(const PartRecord& part) {
        const bool carries = std::find(std::begin(outline_kinds), std::end(outline_kinds), part.kind) !=
                             std::end(outline_kinds);
        if (!carries || !part.connector_pins || vehicle().possible("case_connector_pins").empty()) return;
        ask("case_connector_pins");
        const std::string pins = number_text(*part.connector_pins);
        object("not case_connector_pins=" + pins, Verdict::does_not_fit,
               candidate.group + " has " + pins + " pins at the case connector", row_source(part.origin));
    }

    void by_seals(const PartRecord& part) {
        if (part.o_rings && *part.o_rings > 0)
            bring("solenoid-o-rings", number_text(*part.o_rings) + " O-rings on its nose, new each time",
                  row_source(part.origin));
        if (part.screen.value_or(false))
            warn("the old screen may stay in the bore: screens and O-rings out = in", row_source(part.origin));
    }

    void by_family(const std::string& gearbox, const std::optional<PartRecord>& part) {
        const auto family = read_what_is_ordered(services.facts, gearbox);
        if (!family) return;
        for (const auto& element : family->elements) {
            if (element.role != candidate.role) continue;
            for (const auto& service : family->services_of(element.name)) by_service(gearbox, service);
            if (part) by_drive(gearbox, element, *part);
        }
        by_block(gearbox, *family);
    }

    // A block stands for every element that is ordered by it; their calibration is its own.
    void by_block(const std::string& gearbox, const GearboxFamily& family) {
        for (const auto& service : family.services)
            if (service.order_role == candidate.role && service.calibration == "block_code")
                return by_calibration(gearbox, service, gearboxes.size() == 1);
    }

    // Its order is held (holds.h); that is said of the part as well, and of one that is not tested yet as a doubt.
    void by_trouble() {
        for (const auto& one : waiting(candidate.role, services)) {
            warn("do not order solenoids yet: " + one.reason + where_text(one.gearbox), one.source);
            for (const auto& attribute : one.untested) ask_in_any_case(attribute);
            if (one.in_doubt)
                object(condition_for(one.gearbox), Verdict::check_first, one.reason + ": " + one.until, one.source);
        }
    }
};

}  // namespace

Examination examine(const Candidate& candidate, const Services& services) {
    if (services.vehicle == nullptr) return {};
    SolenoidExaminer examiner{{candidate, services}};
    examiner.find_gearboxes();
    examiner.by_trouble();
    const auto part = part_of_group(services.facts, candidate.group);
    for (const auto& gearbox : examiner.gearboxes) examiner.by_family(gearbox, part);
    if (part) {
        examiner.by_pins(*part);
        examiner.by_seals(*part);
    }
    return std::move(examiner.result);
}

}  // namespace casebound::solenoids
