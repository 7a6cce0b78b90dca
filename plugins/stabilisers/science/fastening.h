#pragma once
// Torque from property class, size and friction, for where the maker's figure is not recorded. Never stronger than that
// figure, and knows no class or friction of its own: both are given.

namespace casebound::stabilisers {

struct Thread {
    double diameter_mm, pitch_mm;  // 10 and 1.5 for M10x1.5
};

// As(nom) = pi/4 ((d2 + d3) / 2)^2 = pi/4 (d - 0.9382 P)^2, ISO 898-1. Refuses diameters outside 3 to 39 mm and a pitch
// that is no part of 0.05 to 0.25 of the diameter: every coarse and fine pitch of ISO 261 up to M39 lies in it.
double stress_area_of(Thread thread);

// N; MPa times mm2. Refuses a proof stress outside 100 to 1500 MPa.
double proof_load_of(Thread thread, double proof_mpa);

// T = K F d, N m. `share` of the proof load, above 0 to 0.9; `nut_factor` 0.05 to 0.6.
struct Torque {
    double preload_n, torque_nm;
};
Torque torque_for(Thread thread, double proof_mpa, double share, double nut_factor);

// What share of the proof load a torque comes to when friction is another than reckoned with.
double share_reached(Thread thread, double proof_mpa, double torque_nm, double nut_factor);

// By torque alone the preload scatters by this much either way: public design texts, +/-25 %.
inline constexpr double preload_scatter = 0.25;

}  // namespace casebound::stabilisers
