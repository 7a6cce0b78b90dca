#pragma once
// The words of the domain: what can be found out about an actuator at each place and about its trouble, and how; kinds
// of items and places.

#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/actuator.h"

namespace casebound::actuators {

Vocabulary vocabulary();

// "temperature_left", "recirculation": as findings name a place.
std::string key_of_place(Place place);
// "temperature-actuator-left", "recirculation-actuator".
std::string role_of_place(Place place);
// "temperature actuator, left".
std::string place_said(Place place);
// Unknown for what names none.
Place place_of_role(std::string_view role);
Place place_of_key(std::string_view key);
// "temperature_left_cavities".
std::string at_place(Place place, std::string_view what);

// Every role that an actuator fills.
std::vector<std::string> every_actuator();

}  // namespace casebound::actuators
