// Short ways to ask the domain of solenoids about the invented gearbox families.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "tests/fakes.h"
#include "tests/linked_domain.h"
#include "tests/solenoids/gearbox_facts.h"

namespace casebound::tests {

using Inputs = std::vector<std::pair<std::string, std::string>>;

inline Answer asked(const char* inquiry, const Inputs& inputs, const VehicleView* vehicle = nullptr) {
    return ask(instance(), inquiry, inputs, gearbox_facts(), vehicle);
}
inline Answer fault(const Inputs& inputs, const VehicleView* vehicle = nullptr) {
    return asked("fault", inputs, vehicle);
}

inline std::size_t place_of(const std::vector<std::string>& texts, const std::string& part) {
    for (std::size_t i = 0; i < texts.size(); ++i)
        if (texts[i].find(part) != std::string::npos) return i;
    return texts.size();
}

inline std::vector<std::string> rows_marked(const Answer& answer) {
    std::vector<std::string> labels;
    for (const auto row : answer.grids.at(0).marked_rows) labels.push_back(answer.grids[0].rows[row].front());
    return labels;
}

inline Examination examined(const std::string& group, const std::string& role, const VehicleView& vehicle) {
    static const auto facts = gearbox_facts();
    static const Engine engine;
    return instance().examine({role, group, ""}, {facts, engine, &vehicle});
}

inline std::string texts(const std::vector<Caution>& cautions) {
    std::string all;
    for (const auto& one : cautions) all += one.text + "\n";
    return all;
}

inline Opinion opinion(const std::string& wanted, const std::string& offered) {
    static const auto facts = gearbox_facts();
    static const Engine engine;
    return instance().may_stand_in({wanted, "", offered, "", "", false}, {facts, engine, nullptr});
}

inline std::string reasons(const Examination& examination) {
    std::string all;
    for (const auto& one : examination.objections) all += "[" + one.condition + "] " + one.reason + "\n";
    return all;
}

}  // namespace casebound::tests
