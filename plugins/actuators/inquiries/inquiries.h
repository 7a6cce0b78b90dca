#pragma once
// The inquiries of the domain, each in the file that names its topic.

#include "core/contract/plugin.h"
#include "science/actuator.h"

namespace casebound::actuators {

Inquiry trouble_inquiry();    // trouble.cpp
Inquiry feedback_inquiry();   // feedback.cpp
Inquiry end_stops_inquiry();  // feedback.cpp
Inquiry motor_inquiry();      // motor.cpp
Inquiry steps_inquiry();      // motor.cpp
Inquiry compare_inquiry();    // compare.cpp
Inquiry way_in_inquiry();     // way_in.cpp
Inquiry code_inquiry();       // code.cpp
Inquiry wire_inquiry();       // supply.cpp
Inquiry fuse_inquiry();       // supply.cpp
Inquiry battery_inquiry();    // supply.cpp
Inquiry sensor_inquiry();     // supply.cpp

// Which actuator: by hand, else the one that was told to have been looked at.
Input place_input();
Place place_given(const Given& given);

}  // namespace casebound::actuators
