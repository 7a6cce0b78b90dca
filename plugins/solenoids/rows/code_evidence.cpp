#include "rows/findings.h"

namespace casebound::solenoids {

std::vector<std::string> code_cautions(bool told, bool none, std::optional<bool> before_clearing) {
    if (before_clearing == false) {
        std::vector<std::string> cautions{
            "codes were cleared before they were read: what they would have said is gone until the fault comes back"};
        if (told && none)
            cautions.emplace_back(
                "no codes after clearing clears nothing: drive until the fault shows, then read again");
        return cautions;
    }
    if (told && !before_clearing)
        return {
            "nobody has said whether the codes were read before clearing: until then they are half a finding "
            "(codes_before_clearing=yes or no)"};
    return {};
}

std::vector<std::string> code_cautions(const VehicleView& vehicle) {
    bool told = false, none = false;
    std::optional<bool> before;
    for (const auto& one : vehicle.told()) {
        if (one.attribute == "codes") told = true, none = one.text == "none";
        if (one.attribute == "codes_before_clearing") before = one.text == "yes";
    }
    return code_cautions(told, none, before);
}

}  // namespace casebound::solenoids
