// An invented fleet of mounts, and short ways to ask the domain about it.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "tests/fakes.h"
#include "tests/linked_domain.h"

namespace casebound::tests {

inline FakeFacts fleet() {
    FakeFacts facts;
    facts.table("mounts_mounts",
                "group_key,position,kind,connection,hose_mm,pins,bracket,stud_thread_mm,stud_length_mm,locating_pin,"
                "natural_hz,damping_ratio\n"
                "HYD-L,left,hydraulic,none,,,separate,12,30,yes,,\n"
                "SOLID-L,left,solid,none,,,separate,12,,yes,,\n"
                "HYD-R,right,hydraulic,none,,,separate,12,,yes,,\n"
                "VAC-L,left,switched_vacuum,hose,6,,separate,12,,yes,,\n"
                "ELE-L,left,switched_electric,plug,,2,separate,12,,yes,,\n"
                "BARE-L,left,hydraulic,,,,,,,,9,0.25\n");
    facts.table("mounts_lifting",
                "line,condition,point,says,words,source\n"
                "test-line,,oil pan,forbidden,no jack under the pan,manual-one\n"
                "test-line,,oil pan,allowed,wood block under the pan,manual-two\n"
                "test-line,,lifting eye,allowed,use the eyes,manual-one\n"
                "other-line,,crank pulley,allowed,not ours,manual-two\n");
    facts.table("mounts_fasteners",
                "line,condition,position,fastener,form,count,tightening,reuse,settle_first\n"
                "test-line,,left,M12 nut,nut,1,45 N m,never,yes\n"
                "test-line,drive=4wd,left,M10 bolt,bolt,2,40 N m + 60 deg,never,no\n");
    facts.table("mounts_pairs",
                "line,condition,position,with_position,rule,words\ntest-line,,left,right,recommended,change both\n");
    facts.table("mounts_loads",
                "line,condition,position,carried_kg,cylinders,idle_rpm,figure_mm\ntest-line,,left,110,4,700,300\n");
    facts.table("mounts_clearances", "line,condition,what,room_mm,release\ntest-line,,fan to shroud,20,upper shroud\n");
    return facts;
}

inline Answer shake(const std::vector<std::pair<std::string, std::string>>& inputs,
                    const VehicleView* vehicle = nullptr) {
    return ask(instance(), "shake", inputs, fleet(), vehicle);
}

inline const Objection* objection_on(const Examination& examination, const std::string& condition) {
    for (const auto& one : examination.objections)
        if (one.condition == condition) return &one;
    return nullptr;
}

inline Examination examined(const std::string& group, const std::string& role, const VehicleView& vehicle) {
    static const auto facts = fleet();
    static const Engine engine;
    return instance().examine({role, group, ""}, {facts, engine, &vehicle});
}

inline Opinion opinion(const std::string& wanted, const std::string& offered, const VehicleView* vehicle = nullptr,
                       const std::string& role = "") {
    static const auto facts = fleet();
    static const Engine engine;
    return instance().may_stand_in({wanted, "", offered, "", role, false}, {facts, engine, vehicle});
}

}  // namespace casebound::tests
