// Invented gearbox families as rows of a pack, for tests of the solenoids domain. No real gearbox has these tables.
#pragma once

#include "tests/fakes.h"

namespace casebound::tests {

// ash-4: two on/off shift solenoids of one part, a lock-up solenoid, a common feed fuse and case connector; third gear
// with no current. birch-4: top gear with no current, fail-safe by the controller. birch-6: clutch to clutch, linear
// solenoids in a block with a calibration code.
inline FakeFacts gearbox_facts() {
    FakeFacts facts;
    facts.table("solenoids_gearboxes",
                "gearbox,title,elements,default_gear,default_reason,reverse_without_current,low_by_lever,lockup_off,"
                "pressure_high,ratio_window\n"
                "ash-4,Ash-4,solenoid_states,3,hydraulic_rest,yes,yes,yes,yes,0.04\n"
                "birch-4,Birch-4,solenoid_states,3,controller_choice,yes,no,yes,,\n"
                "birch-6,Birch-6,friction_elements,4,controller_choice,yes,no,yes,yes,0.03\n");
    facts.table("solenoids_functions",
                "gearbox,element,function,role,kind,rest,ohm_20_low,ohm_20_high,wires,max_current_a,pin,group_key\n"
                "ash-4,A,shift,shift-solenoid-a,on_off,closed,11,16,1,0.75,3,SOL-7\n"
                "ash-4,B,shift,shift-solenoid-b,on_off,closed,11,16,1,0.75,4,SOL-7\n"
                "ash-4,L,lockup,lockup-solenoid,on_off,closed,11,16,1,,5,SOL-9\n"
                "birch-4,No1,shift,shift-solenoid-a,on_off,,20,40,2,,,\n"
                "birch-4,No2,shift,shift-solenoid-b,on_off,,20,40,2,,,\n"
                "birch-6,A,clutch_pressure,clutch-solenoid-a,linear,low_pressure,5.0,5.6,2,,,\n"
                "birch-6,B,clutch_pressure,clutch-solenoid-b,linear,low_pressure,5.0,5.6,2,,,\n"
                "birch-6,C,clutch_pressure,clutch-solenoid-c,linear,low_pressure,5.0,5.6,2,,,\n"
                "birch-6,D,clutch_pressure,clutch-solenoid-d,linear,low_pressure,5.0,5.6,2,,,\n"
                "birch-6,E,clutch_pressure,clutch-solenoid-e,linear,low_pressure,5.0,5.6,2,,,\n");
    facts.table(
        "solenoids_apply",
        "gearbox,gear,lever,element,state\n"
        "ash-4,1,,A,on\nash-4,1,,B,on\nash-4,2,,A,off\nash-4,2,,B,on\nash-4,3,,A,off\nash-4,3,,B,off\nash-4,4,,A,"
        "on\nash-4,4,,B,off\n"
        "birch-4,1,,No1,on\nbirch-4,2,,No1,on\nbirch-4,2,,No2,on\nbirch-4,3,,No2,on\nbirch-4,4,,No1,off\n"
        "birch-6,1,,A,on\nbirch-6,1,,D,on\nbirch-6,2,,A,on\nbirch-6,2,,C,on\nbirch-6,3,,A,on\nbirch-6,3,,E,on\nbirch-6,"
        "4,,A,on\nbirch-6,4,,B,on\n"
        "birch-6,5,,B,on\nbirch-6,5,,E,on\nbirch-6,6,,B,on\nbirch-6,6,,C,on\nbirch-6,R,R,D,on\nbirch-6,R,R,E,on\n");
    facts.table("solenoids_failsafe",
                "gearbox,fault,subject,detected,commands,also,back\n"
                "ash-4,,,,A=off;B=off,lock-up off,ignition_cycle\n"
                "birch-4,stuck_off,No1,,No2=on,,ignition_cycle\n");
    facts.table("solenoids_nodes",
                "gearbox,node,title,element,state_when_lost,check_by\n"
                "ash-4,feed,feed fuse of the gearbox controller,A,off,load it with a 5 W bulb\n"
                "ash-4,feed,feed fuse of the gearbox controller,B,off,\n"
                "ash-4,feed,feed fuse of the gearbox controller,L,off,\n"
                "ash-4,plug,case connector,A,off,unplug it and look\n"
                "ash-4,plug,case connector,B,off,\n"
                "ash-4,plug,case connector,L,off,\n");
    facts.table("solenoids_ratios", "gearbox,gear,ratio\nash-4,1,2.80\nash-4,2,1.53\nash-4,3,1.00\nash-4,4,0.70\n");
    facts.table("solenoids_service",
                "gearbox,element,serviced_as,order_role,calibration,calibration_words,access\n"
                "ash-4,A,single,,none,,pan_and_filter_off\n"
                "ash-4,B,single,,none,,pan_and_filter_off\n"
                "birch-6,A,block_with_plate,solenoid-block,block_code,on the tag on the case and stamped on the "
                "block,valve_body_off\n"
                "birch-6,B,block_with_plate,solenoid-block,block_code,on the tag on the case and stamped on the "
                "block,valve_body_off\n");
    facts.table("solenoids_temperatures",
                "gearbox,temp_c,low_ohm,high_ohm\nash-4,10,5600,7300\nash-4,25,3400,3600\nash-4,110,220,270\n");
    facts.table("solenoids_parts",
                "group_key,kind,ohm_20_low,ohm_20_high,o_rings,screen,nose_mm,connector_pins,grade\n"
                "SOL-7,on_off,11,16,2,yes,24,1,\n"
                "SOL-7B,on_off,11,16,2,yes,24,1,\n"
                "SOL-20,on_off,20,40,2,yes,24,1,\n"
                "SOL-LIN,linear,5.0,5.6,2,no,24,2,\n"
                "SOL-PWM,pulsed,11,16,2,yes,24,1,\n"
                "SOL-3O,on_off,11,16,3,yes,24,1,\n"
                "SOL-WIDE,on_off,10,18,2,yes,24,1,\n"
                "BLK-16,block,,,,,,16,\n");
    facts.table("solenoids_codes",
                "code,gearbox,element,class,words,lists_agreeing,source\n"
                "P1750,ash-4,B,stuck_off,B held off as the maker words it,,invented\n"
                "P0753,,,electrical,Shift Solenoid A Electrical,3,invented\n");
    return facts;
}

}  // namespace casebound::tests
