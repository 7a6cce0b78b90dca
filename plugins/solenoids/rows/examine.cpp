#include "rows/examine.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

#include "core/contract/answer_lines.h"
#include "rows/family.h"
#include "rows/part_record.h"
#include "rows/seen.h"

namespace casebound::solenoids {
namespace {

const char* const outline_kinds[] = {"block", "harness"};  // they carry the case connector themselves

std::optional<Told> told_of(const VehicleView& vehicle, std::string_view attribute) {
    for (const auto& told : vehicle.told())
        if (told.attribute == attribute) return told;
    return std::nullopt;
}

struct Examiner {
    const Candidate& candidate;
    const Services& services;
    std::vector<std::string> gearboxes{};
    bool on_line{};  // is `gearbox` an attribute of the vehicle's line?
    Examination result{};

    const VehicleView& vehicle() const { return *services.vehicle; }

    void find_gearboxes() {
        for (const auto& value : vehicle().possible("gearbox")) gearboxes.push_back(value.text);
        on_line = !gearboxes.empty();
        if (const auto told = told_of(vehicle(), "gearbox");
            !on_line && told && told->text.find('|') == std::string::npos)
            gearboxes.push_back(told->text);
    }

    // Empty when it holds on everything that is left.
    std::string condition_for(const std::string& gearbox) const {
        return on_line && gearboxes.size() > 1 ? "gearbox=" + gearbox : "";
    }
    std::string where_text(const std::string& gearbox) const {
        return gearboxes.size() > 1 ? " where gearbox=" + gearbox : "";
    }

    void object(std::string condition, Verdict at_most, std::string reason, SourceNote source) {
        result.objections.push_back({std::move(condition), at_most, std::move(reason), std::move(source)});
    }
    void warn(std::string text) {
        auto& cautions = result.cautions;
        if (std::find(cautions.begin(), cautions.end(), text) == cautions.end()) cautions.push_back(std::move(text));
    }
    void ask(const std::string& attribute) {
        auto& questions = result.questions;
        if (std::find(questions.begin(), questions.end(), attribute) == questions.end()) questions.push_back(attribute);
    }
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
                     where_text(gearbox));
        }
        if (service.calibration == "graded")
            warn("graded" + where_text(gearbox) + ": order the same grade; " + service.calibration_words);
        if (service.calibration == "block_code") by_calibration(gearbox, service, alone);
    }

    // The code must be known before a block is ordered, and somebody must load it.
    void by_calibration(const std::string& gearbox, const Service& service, bool alone) {
        const auto source = row_source(service.origin);
        if (!told_of(vehicle(), "block_code")) {
            ask("block_code");
            object(condition_for(gearbox), Verdict::check_first,
                   "its calibration code must be loaded into the controller and is not read yet: " +
                       service.calibration_words,
                   source);
        }
        if (alone) bring("block-calibration", "the calibration code must be loaded into the controller", source);
        else warn("a calibration code must be loaded into the controller" + where_text(gearbox));
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
                   candidate.group + " has " + ohm_range_text(*part.ohm_20) + " at 20 degC, solenoid " + element.name +
                       " of " + gearbox + " needs " + ohm_range_text(*element.ohm_20),
                   row_source(part.origin));
    }

    void by_pins(const PartRecord& part) {
        const bool carries = std::find(std::begin(outline_kinds), std::end(outline_kinds), part.kind) !=
                             std::end(outline_kinds);
        if (!carries || !part.connector_pins || vehicle().possible("case_connector_pins").empty()) return;
        if (vehicle().possible("case_connector_pins").size() > 1) ask("case_connector_pins");
        const std::string pins = number_text(*part.connector_pins);
        object("not case_connector_pins=" + pins, Verdict::does_not_fit,
               candidate.group + " has " + pins + " pins at the case connector", row_source(part.origin));
    }

    void by_seals(const PartRecord& part) {
        if (part.o_rings && *part.o_rings > 0)
            bring("solenoid-o-rings", number_text(*part.o_rings) + " O-rings on its nose, new each time",
                  row_source(part.origin));
        if (part.screen.value_or(false)) warn("the old screen may stay in the bore: screens and O-rings out = in");
    }

    void by_family(const std::string& gearbox, const std::optional<PartRecord>& part) {
        const auto family = read_family(services.facts, gearbox);
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

    // ------------------------------------------------------------ the trouble told

    std::vector<std::string> failed_circuits(bool& supply) const {
        const auto codes = told_of(vehicle(), "codes");
        if (!codes || codes->text == "none" || codes->text.find('|') != std::string::npos) return {};
        const auto family = gearboxes.size() == 1 ? read_family(services.facts, gearboxes.front()) : std::nullopt;
        Seen seen;
        try {
            for (const auto code : codes_from(codes->text))
                seen.codes.push_back(about(code, family ? &*family : nullptr, services.facts));
        } catch (const std::domain_error&) {  // told in other words than codes: nothing to conclude
            return {};
        }
        supply = seen.supply_reported();
        return seen.failed_circuits();
    }

    // Bought on a code when the connector was wet: the dear mistake. Told clean again, it no longer stands in the way.
    void by_connector() {
        const auto told = told_of(vehicle(), "connector_state");
        if (!told || told->text.find("clean") != std::string::npos) return;
        const auto state = told->text == "pins_spread"                 ? "has spread pins"
                           : told->text.find('|') != std::string::npos ? "is not clean"
                                                                       : "is " + told->text;
        object("", Verdict::check_first,
               "the case connector " + state +
                   ": put it right, clear the codes, drive and read again; then tell connector_state=clean",
               {Evidence::measured, "told connector_state"});
    }

    // A code names a circuit, not a part: until feed and connector are tested, no solenoid is ordered on it.
    void by_trouble() {
        if (candidate.role == "internal-harness" || candidate.role.find("sensor") != std::string::npos) return;
        by_connector();
        bool supply = false;
        const auto failed = failed_circuits(supply);
        if (failed.empty() && !supply) return;
        const std::string what = supply               ? "their common supply is reported open"
                                 : failed.size() == 1 ? "a code names the circuit of " + failed.front() + ", not a part"
                                                      : std::to_string(failed.size()) + " circuits report at once (" +
                                                            listed(failed) + ")";
        const bool one = failed.size() == 1 && !supply;
        const std::string untested = what + (one ? ": its feed, ground and connector are not tested yet"
                                                 : ": what they share, feed, ground or connector, is not tested yet");
        warn("do not order solenoids yet: " + what +
             (one ? "; test its feed and connector first" : "; test what they share first"));
        bool said = false;
        for (const char* attribute : {"feed_under_load", "connector_state"}) {
            if (told_of(vehicle(), attribute)) continue;
            ask(attribute);
            if (!std::exchange(said, true))
                object("", Verdict::check_first, untested, {Evidence::measured, "told codes"});
        }
    }
};

}  // namespace

Examination examine(const Candidate& candidate, const Services& services) {
    if (services.vehicle == nullptr) return {};
    Examiner examiner{candidate, services};
    examiner.find_gearboxes();
    const auto part = part_of_group(services.facts, candidate.group);
    for (const auto& gearbox : examiner.gearboxes) examiner.by_family(gearbox, part);
    if (part) {
        examiner.by_pins(*part);
        examiner.by_seals(*part);
    }
    examiner.by_trouble();
    return std::move(examiner.result);
}

}  // namespace casebound::solenoids
