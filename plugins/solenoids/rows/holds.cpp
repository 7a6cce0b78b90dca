#include "rows/holds.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "core/contract/answer_words.h"
#include "core/contract/false_leads.h"
#include "rows/family.h"
#include "rows/findings.h"
#include "rows/seen.h"
#include "rows/vocabulary.h"
#include "science/conclusion.h"

namespace casebound::solenoids {
namespace {

constexpr const char* block_role = "solenoid-block";
constexpr const char* calibration_role = "block-calibration";
constexpr const char* harness_role = "internal-harness";

struct SensorRole {
    const char* role;
    Function function;
};
constexpr std::array<SensorRole, 2> sensor_roles{
    {{"input-speed-sensor", Function::input_speed}, {"output-speed-sensor", Function::output_speed}}};

// Roles of one reason come under one hold.
void add_hold(std::vector<Hold>& holds, const std::string& role, Hold hold) {
    const auto same = std::find_if(holds.begin(), holds.end(), [&](const Hold& one) {
        return one.reason == hold.reason && one.until == hold.until;
    });
    if (same == holds.end()) {
        hold.roles = {role};
        holds.push_back(std::move(hold));
        return;
    }
    add_once(same->roles, role);
    for (const auto& attribute : hold.attributes) add_once(same->attributes, attribute);
}

Hold hold_of(const Judgement& judged, const std::string& where) {
    return {{}, {}, judged.reason + where, judged.source, judged.until, judged.attributes};
}

// ---------------------------------------------------------------- a fault that is looked for

// Where something told speaks of trouble, or against every solenoid; the diagnosis is dear, and nothing is looked for
// without.
bool fault_looked_for(const Seen& seen) { return seen.trouble() || seen.speaks_against(); }

struct Looking {
    const Services& services;
    const GearboxFamily& family;
    std::string where;  // " where gearbox=weir-6", while others are possible
    Seen seen;
    const Vocabulary& words = known_words<vocabulary>();
    Seen firm_seen = seen.firm();
    Diagnosis diagnosis = diagnose_places(family, seen, services.reasoner, words);
    Diagnosis firm_diagnosis = seen.any_hearsay() ? diagnose_places(family, firm_seen, services.reasoner, words)
                                                  : diagnosis;
    Conclusion all{family, seen, diagnosis};
    Conclusion firm{family, firm_seen, firm_diagnosis};
    std::vector<Hold> held{};

    void hold_element(const Element& element) {
        const auto judged = judge_order(element.name, all, firm);
        if (judged.released()) return;
        add_hold(held, element.role, hold_of(judged, where));
        if (judged.standing == Standing::connector_bad && names_alone(element.name) && !firm_seen.feed_v)
            add_hold(
                held, element.role,
                {{},
                 {},
                 "a code names the circuit of " + element.name + ", not a part, and its feed is not tested yet" + where,
                 seen.source(SeenWhat::codes),
                 "load the feed and measure at the case connector",
                 {"feed_under_load"}});
    }

    bool names_alone(const std::string& element) const { return seen.failed_circuits() == std::vector{element}; }

    // What every reading of a circuit passes through, and nobody here has tested.
    std::vector<std::string> untested() const {
        std::vector<std::string> attributes;
        if (!seen.electrical()) return attributes;
        if (!firm_seen.feed_v) attributes.emplace_back("feed_under_load");
        if (!firm_seen.connector) attributes.emplace_back("connector_state");
        return attributes;
    }

    // Why, for `fits`: of a lone code it says that it names no part.
    std::string why(const Judgement& judged, const std::string& element) const {
        const bool own = judged.standing != Standing::stop && names_alone(element);
        return own ? "a code names the circuit of " + element + ", not a part; " + judged.reason : judged.reason;
    }

    std::optional<Waiting> waiting(const Element& element) const {
        const auto judged = judge_order(element.name, all, firm);
        if (judged.released()) return std::nullopt;
        auto tests = untested();
        const bool in_doubt = !tests.empty() || judged.standing == Standing::connector_bad;
        return Waiting{family.name, why(judged, element.name), judged.until, in_doubt, std::move(tests), judged.source};
    }

    // A block is released by any solenoid in it, and by its plate.
    bool releases(const Service& service) const {
        const bool with_plate = service.serviced_as == "block_with_plate";
        return judge_order(service.element, all, firm).released() || (with_plate && harness_released());
    }

    // The solenoid that speaks loudest for the role: one that something points at, else the first.
    Judgement why_not(const std::string& role) const {
        const Service* first = nullptr;
        for (const auto& service : family.services)
            if (service.order_role == role) {
                if (all.named().at(service.element)) return judge_order(service.element, all, firm);
                if (first == nullptr) first = &service;
            }
        return judge_order(first->element, all, firm);
    }

    void hold_assemblies() {
        std::vector<std::string> roles;
        for (const auto& service : family.services)
            if (!service.order_role.empty()) add_once(roles, service.order_role);
        for (const auto& role : roles) {
            if (std::any_of(family.services.begin(), family.services.end(),
                            [&](const Service& one) { return one.order_role == role && releases(one); }))
                continue;
            const auto hold = hold_of(why_not(role), where);
            add_hold(held, role, hold);
            if (role == block_role) add_hold(held, calibration_role, hold);
        }
    }

    bool harness_released() const { return !stop_finding(seen) && all.harness_speaks() && firm.harness_speaks(); }

    void hold_harness() {
        if (harness_released()) return;
        if (const auto stop = stop_finding(seen))
            return add_hold(held, harness_role,
                            {{}, {}, stop->words + where, seen.source(stop->what), stop->find_out, stop->attributes});
        add_hold(held, harness_role,
                 {{},
                  {},
                  "nothing that was told decides for the internal harness" + where,
                  all.what_speaks(),
                  "read the coils at the case connector and at their own pins: a harness shows as a difference",
                  {"coil_a", "coil_a_at_part"}});
    }

    static bool reported(const Seen& seen, Function function) {
        return std::any_of(seen.codes.begin(), seen.codes.end(),
                           [&](const SeenCode& code) { return code.function == function; });
    }

    // A sensor is measured by no attribute here: its own code, a sound feed and a clean connector are what speaks
    // for it.
    void hold_sensor(const SensorRole& sensor) {
        Hold hold{{}, {}, "", all.what_speaks(), "", {}};
        if (const auto stop = stop_finding(seen)) {
            hold.reason = stop->words, hold.until = stop->find_out, hold.attributes = stop->attributes;
        } else if (!reported(firm_seen, sensor.function)) {
            hold.reason = "no code that was read names this sensor", hold.until = "read every code";
            hold.attributes = {"codes"};
        } else if (seen.feed_fails() || seen.connector_bad() || !firm_seen.connector) {
            hold.reason = "its feed and connector come before the sensor",
            hold.until = "put feed and case connector right, clear the codes, drive and read again";
            hold.attributes = {"feed_under_load", "feed_fuse", "connector_state"};
        } else return;
        hold.reason += where;
        add_hold(held, sensor.role, std::move(hold));
    }

    // A coil out of limits, or a fault that moved with the part, is set by no battery and no foam.
    bool speaks_for_itself(const std::string& element) const {
        return firm_seen.coil_out(element) || (firm_seen.swap_moved() && all.named().at(element));
    }

    std::vector<std::string> speaking_for_themselves() const {
        std::vector<std::string> roles;
        for (const auto& element : family.elements)
            if (!element.role.empty() && speaks_for_itself(element.name)) add_once(roles, element.role);
        for (const auto& service : family.services)
            if (!service.order_role.empty() && speaks_for_itself(service.element)) add_once(roles, service.order_role);
        return roles;
    }

    // What imitates a code: said first where it is shown; else only of what nothing else holds.
    void hold_for_imitators() {
        auto leads = false_leads(services, known_words<vocabulary>());
        const bool any_shown = std::any_of(leads.begin(), leads.end(),
                                           [](const FalseLead& one) { return one.standing == LeadStanding::shown; });
        auto spared = speaking_for_themselves();
        if (!any_shown)
            for (const auto& hold : held)
                for (const auto& role : hold.roles) add_once(spared, role);
        auto first = lead_holds(services, leads, spared);
        for (auto& hold : first) hold.reason += where;
        held.insert(held.begin(), first.begin(), first.end());
    }

    void look() {
        for (const auto& element : family.elements)
            if (!element.role.empty()) hold_element(element);
        hold_assemblies();
        hold_harness();
        for (const auto& sensor : sensor_roles) hold_sensor(sensor);
        hold_for_imitators();
    }
};

std::vector<std::string> solenoid_roles() {
    std::vector<std::string> roles;
    for (const auto& role : known_words<vocabulary>().roles)
        if (role.item_kind == "solenoid" || role.item_kind == "solenoid-block" || role.item_kind == "calibration")
            roles.push_back(role.name);
    return roles;
}

// What was told cannot be read against a family: nothing is released on it.
Hold all_roles(std::string reason, std::string until, std::vector<std::string> attributes) {
    return {solenoid_roles(), {}, std::move(reason), practice(), std::move(until), std::move(attributes)};
}

void look_in(std::vector<Hold>& held, const Services& services, const GearboxFamily& family, const std::string& where) {
    try {
        auto seen = read_seen({}, services, family);
        if (!fault_looked_for(seen)) return;
        Looking looking{services, family, where, std::move(seen)};
        looking.look();
        held.insert(held.end(), looking.held.begin(), looking.held.end());
    } catch (const std::domain_error& unreadable) {  // gears that this gearbox has not
        held.push_back(all_roles(std::string("what was told cannot be read") + where + ": " + unreadable.what(),
                                 "tell the gears and codes again", {"gears_obtained", "codes"}));
    }
}

// No family is known: only that anything told speaks of trouble can be said.
void look_without_family(std::vector<Hold>& held, const Services& services) {
    const auto told = findings(services).troubles;
    Seen read;
    try {
        read = read_seen({}, services, {});
    } catch (const std::domain_error&) {  // codes in other words: findings have them
    }
    if (told.empty() && !fault_looked_for(read)) return;
    held.push_back(all_roles("the gearbox family is not known, so that what was told names no solenoid",
                             "read the gearbox tag, or count gears and look at the pan outline", {"gearbox"}));
}

// ---------------------------------------------------------------- what must be programmed

bool can_be_loaded(const VehicleView& vehicle) {
    const auto means = told_of(&vehicle, "code_loading");
    return means && !is_hearsay(means->evidence) && (means->text == "own_tool" || means->text == "hired");
}

// The role to order: of the block or set, else of the solenoid itself. "" where the pack names none.
std::string role_to_order(const Facts& facts, std::string_view gearbox, const Row& service) {
    if (service.stated("order_role")) return cell(service, "order_role");
    for (const auto& element : facts.rows("solenoids_functions", "gearbox", gearbox))
        if (element.text("element") == service.text("element")) return cell(element, "role");
    return "";
}

void hold_until_programmable(std::vector<Hold>& held, const Facts& facts, std::string_view gearbox,
                             const std::string& where) {
    for (const auto& service : facts.rows("solenoids_service", "gearbox", gearbox)) {
        if (service.text("calibration") != "block_code") continue;
        const Hold hold{
            {},
            {},
            "its calibration code must be loaded into the controller, and nobody has said with what" + where,
            row_source(service),
            "find the tool that loads it, or who does it and for how much; then tell "
            "code loading own tool, or hired",
            {"code_loading"}};
        if (const auto role = role_to_order(facts, gearbox, service); !role.empty()) add_hold(held, role, hold);
        add_hold(held, calibration_role, hold);
    }
}

void wait_in(std::vector<Waiting>& all, std::string_view role, const Services& services, const GearboxFamily& family) {
    const auto* element = family.element_of_role(role);
    if (element == nullptr) return;
    try {
        auto seen = read_seen({}, services, family);
        if (!fault_looked_for(seen)) return;
        const Looking looking{services, family, "", std::move(seen)};
        if (auto one = looking.waiting(*element)) all.push_back(std::move(*one));
    } catch (const std::domain_error&) {  // what was told cannot be read here: the hold says so
    }
}

}  // namespace

std::vector<Waiting> waiting(std::string_view role, const Services& services) {
    std::vector<Waiting> all;
    if (services.vehicle == nullptr || !may_show_trouble(*services.vehicle)) return all;
    for (const auto& gearbox : services.vehicle->possible("gearbox"))
        if (const auto family = read_family(services.facts, gearbox.text)) wait_in(all, role, services, *family);
    return all;
}

bool code_is_read(const VehicleView& vehicle) {
    const auto code = told_of(&vehicle, "block_code");
    return code && !is_hearsay(code->evidence) && code->alternatives().size() == 1 && code->text != "unreadable" &&
           code->text != "none";
}

std::vector<Hold> holds(const Services& services) {
    std::vector<Hold> held;
    if (services.vehicle == nullptr) return held;
    const bool trouble = may_show_trouble(*services.vehicle), loadable = can_be_loaded(*services.vehicle);
    if (!trouble && loadable) return held;
    const auto gearboxes = services.vehicle->possible("gearbox");
    bool known = false;
    for (const auto& gearbox : gearboxes) {
        const std::string where = gearboxes.size() > 1 ? " where gearbox=" + gearbox.text : "";
        const auto family = trouble ? read_family(services.facts, gearbox.text) : std::nullopt;
        known |= family.has_value();
        if (family) look_in(held, services, *family, where);
        if (!loadable) hold_until_programmable(held, services.facts, gearbox.text, where);
    }
    if (trouble && !known) look_without_family(held, services);
    return held;
}

}  // namespace casebound::solenoids
