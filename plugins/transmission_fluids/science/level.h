#pragma once
// What heat and slope do to a fluid level reading, and what an off reading means
// in litres. Never says what the right level is: that is the maker's.
// Expansion: API MPMS 11.1 / ASTM D1250, lubricating oils (Tables 54D, 6D),
// without custody-transfer rounding.

namespace casebound::transmission_fluids {

// Volume correction V(reference) / V(t). The density decides alpha; range 801 to
// 1164 kg/m3. Temperature -50 to 150 °C (from memory).
double volume_correction_15c(double density_15c_kg_m3, double temp_c);
double volume_correction_60f(double density_60f_kg_m3, double temp_f);

// alpha at the reference temperature, 1/°C and 1/°F.
double expansion_per_c(double density_15c_kg_m3);
double expansion_per_f(double density_60f_kg_m3);

// V(to) / V(from).
double volume_ratio(double density_15c_kg_m3, double from_c, double to_c);
double density_at_kg_m3(double density_15c_kg_m3, double temp_c);

// dV = V beta dT, for when no density is known; beta 0.0005 to 0.001 per °C.
double simple_volume_change_l(double volume_l, double beta_per_c, double from_c, double to_c);

// Rise of the level when the volume changes: change / free area. The free area
// is what the fluid surface really has, without the valve body; 0.005 to 1 m2.
double level_rise_mm(double volume_change_l, double free_area_m2);

struct LevelTarget {
    double level_mm;  // where the level belongs at check_temp_c
    double check_temp_c;
    double fluid_l;  // all the fluid in the unit at check_temp_c
    double density_15c_kg_m3;
    double free_area_m2;
};

// Where the level belongs at another temperature.
double level_target_at_mm(const LevelTarget& target, double temp_c);

// Litres too much (negative: too little) for a reading at temp_c. Only for a
// reading under the maker's own terms: engine running or not decides, because
// converter and cooler drain back into the pan.
double overfill_l(const LevelTarget& target, double reading_mm, double temp_c);

// One axle raised on ramps: angle = asin(height / wheelbase), and the error of a
// stick or plug that stands distance_mm off the middle of the pan along the
// vehicle. Refuses a ramp higher than half the wheelbase.
double tilt_deg(double ramp_height_mm, double wheelbase_mm);
double tilt_error_mm(double distance_mm, double angle_deg);

}  // namespace casebound::transmission_fluids
