// Pans, filters, seals and gaskets for the tests of this domain, and the domain asked about them. The parts, the vehicle
// and their numbers are invented.
#pragma once

#include "tests/fakes.h"
#include "tests/linked_domain.h"

namespace casebound::tests {

// Rows of this domain's own tables with every column that the schema has, as a catalog lends them: those that a test
// does not write are not stated.
class PartFacts : public FakeFacts {
public:
    PartFacts& table(const std::string& name, const std::string& csv, Evidence evidence = Evidence::invented,
                     const std::string& pack = "test-pack", const std::string& source = "invented for the test") {
        const auto end = csv.find('\n');
        std::string header = csv.substr(0, end);
        for (const auto& column : columns(name))
            if (("," + header + ",").find("," + column + ",") == std::string::npos) header += "," + column;
        FakeFacts::table(name, header + csv.substr(end), evidence, pack, source);
        return *this;
    }

private:
    static std::vector<std::string> columns(const std::string& table) {
        std::vector<std::string> names;
        std::istringstream schema{std::string(instance().schema())};
        std::string line;
        while (std::getline(schema, line) && line != "CREATE TABLE " + table + " (") continue;
        while (std::getline(schema, line) && line.rfind(") STRICT", 0) != 0)
            if (const auto name = line.substr(2, line.find(' ', 2) - 2); name != "CHECK" && name != "UNIQUE")
                names.push_back(name);
        return names;
    }
};

inline constexpr const char* kFilters =
    "group_key,type,height_mm,neck_od_mm,neck_length_mm,neck_seal_form,pan_depth_mm,bolt_count,captive_above\n"
    "filter-33,pan_with_neck,33,22,38,hat_in_bore,38,2,\n"
    "filter-52,pan_with_neck,52,22,38,hat_in_bore,58,2,one steel ball\n"
    "filter-33-ring,pan_with_neck,33,22.2,36,oring_on_neck,38,2,\n"
    "filter-bare,pan_with_neck,,,,,,,\n";
inline constexpr const char* kSeals =
    "group_key,form,id_mm,od_mm,section_mm,height_mm,elastomer,fit_method,lubricate,size_standard,size\n"
    "seal-hat,hat_in_bore,21.2,30.25,,8,NBR,pressed_in_bore,the same fluid,,\n"
    "seal-hat-acm,hat_in_bore,21.2,30.25,,8,ACM,pressed_in_bore,the same fluid,,\n"
    "seal-hat-loose,hat_in_bore,21.2,29.9,,8,NBR,pressed_in_bore,,,\n"
    "seal-hat-epdm,hat_in_bore,21.2,30.25,,8,EPDM,pressed_in_bore,,,\n"
    "seal-hat-hnbr,hat_in_bore,21.2,30.25,,8,HNBR,pressed_in_bore,,,\n"
    "seal-band,ribbed_band_on_neck,21.5,30.4,,10,NBR,on_neck,,,\n"
    "seal-ring,oring_on_neck,21.82,,3.53,,NBR,on_neck,,AS568,212\n"
    "seal-bare,hat_in_bore,,,,,,,,,\n"
    "lip-25-acm,lip,25,32,,7,ACM,over_shaft,,,\n"
    "lip-25-fkm,lip,25,32,,7,FKM,over_shaft,,,\n"
    "lip-30,lip,30,40,,7,ACM,over_shaft,,,\n";

inline PartFacts parts() {
    PartFacts facts;
    facts.table("filters_seals_filters", kFilters).table("filters_seals_seals", kSeals);
    facts.table("filters_seals_pans",
                "group_key,depth_mm,outline,bolt_count,flange,drain_plug,drain_thread,magnets,filter_in_pan\n"
                "pan-38,38,,16,flat,no,,1,no\npan-58,58,,16,flat,yes,M14x1.5,2,no\npan-18,38,,18,flat,no,,1,no\n");
    facts.table("filters_seals_gaskets",
                "group_key,material,thickness_mm,bolt_count,torque_limiters,reusable,sealant\n"
                "gasket-rigid,rigid_carrier,4.5,16,yes,by_design,none\ngasket-cork,cork,3,16,no,never,none\n"
                "gasket-18,cork,3,18,no,never,none\n");
    facts.table("filters_seals_bores",
                "line,condition,role,bore_mm,depth_to_seal_mm\ntest-line,,filter-neck-seal,30,12\ntest-line,,output-"
                "shaft-seal,62,\n");
    facts.table("groups",
                "group_key,kind,title\nfilter-33,pan-filter,\nfilter-52,pan-filter,\nfilter-33-ring,pan-filter,"
                "\nfilter-bare,pan-filter,\n"
                "seal-hat,neck-seal,\nseal-hat-acm,neck-seal,\nseal-hat-loose,neck-seal,\nseal-hat-epdm,neck-seal,"
                "\nseal-hat-hnbr,neck-seal,\n"
                "seal-band,neck-seal,\nseal-ring,neck-seal,\nseal-bare,neck-seal,\nlip-25-acm,shaft-seal,\nlip-25-fkm,"
                "shaft-seal,\nlip-30,shaft-seal,\n"
                "pan-38,pan,\npan-58,pan,\npan-18,pan,\ngasket-rigid,pan-gasket,\ngasket-cork,pan-gasket,\ngasket-18,"
                "pan-gasket,\nbolt-20,pan-bolt,\n");
    facts.table("group_members", "group_key,item\nfilter-33,F-1033\nseal-hat,S-2290\nlip-25-acm,L-7025\n");
    facts.table("applications",
                "line,role,says,group_key,condition,withdrawn\ntest-line,pan-filter,fits,filter-33,,\n"
                "test-line,pan-filter,fits,filter-33-ring,,\n");
    return facts;
}

inline Examination examine(const FakeFacts& facts, const std::string& role, const std::string& group,
                           const FakeVehicle& vehicle) {
    const Engine engine;
    return instance().examine({role, group, ""}, Services{facts, engine, &vehicle});
}

inline Opinion stand_in(const FakeFacts& facts, const std::string& wanted, const std::string& offered,
                        const VehicleView* vehicle = nullptr) {
    const Engine engine;
    return instance().may_stand_in({wanted, "", offered, "", "", false}, Services{facts, engine, vehicle});
}

inline Answer asked(const std::string& name, const std::vector<std::pair<std::string, std::string>>& inputs,
                    const FakeFacts& facts = {}, const VehicleView* vehicle = nullptr) {
    return ask(instance(), name, inputs, facts, vehicle);
}

// What core throws for inputs the computation refuses.
inline std::string refusal_of(const std::string& name, const std::vector<std::pair<std::string, std::string>>& inputs,
                              const FakeFacts& facts = {}) {
    try {
        asked(name, inputs, facts);
    } catch (const std::exception& error) { return error.what(); }
    return "";
}

inline const Objection* objection_where(const Examination& examination, const std::string& condition) {
    for (const auto& one : examination.objections)
        if (one.condition == condition) return &one;
    return nullptr;
}

inline bool firm(const Answer& answer) {
    return answer.verdict == Verdict::fits || answer.verdict == Verdict::does_not_fit;
}

}  // namespace casebound::tests
