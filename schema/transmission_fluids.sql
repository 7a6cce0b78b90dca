-- What a pack may hold about transmission fluids: specs, claims, capacities, level checks, intervals.
-- Volumes in L, temperatures in degC, viscosities in mm2/s. Colour is not here: it identifies nothing.
-- `line` and `condition` mean the same as in core.sql; an empty condition is all of the line.

-- Fluid specs: what the owner of a spec has defined. The group is the spec, its members the products.
CREATE TABLE transmission_fluids_specs (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the spec
  gearbox_kind TEXT NOT NULL CHECK (gearbox_kind IN ('planetary_automatic','belt_cvt','chain_cvt','dual_clutch_wet','dual_clutch_dry','manual','transfer_case')),  -- what it is made for; another kind is a hard stop
  owner TEXT,  -- who defines the spec and speaks for it
  issued TEXT,  -- year, YYYY-MM or YYYY-MM-DD of issue or revision
  kv40_mm2_s REAL CHECK (kv40_mm2_s > 0),  -- kinematic viscosity at 40 degC, mm2/s, typical of the spec
  kv100_mm2_s REAL CHECK (kv100_mm2_s > 0),  -- kinematic viscosity at 100 degC, mm2/s, typical of the spec
  cold_viscosity_mpas REAL CHECK (cold_viscosity_mpas > 0),  -- highest dynamic viscosity at -40 degC, mPa s
  jaso_class TEXT CHECK (jaso_class IN ('1-A13','1-A-LV13','2-A13')),  -- class name of JASO M315, where stated
  sae_j306_grade TEXT,  -- grade of SAE J306, such as 75W-90, where stated
  base TEXT CHECK (base IN ('mineral','synthetic')),  -- base fluid, where it must not be crossed
  note TEXT,  -- anything the bench should know
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (kv40_mm2_s IS NULL OR kv100_mm2_s IS NULL OR kv40_mm2_s > kv100_mm2_s)
) STRICT;

-- What kind each gearbox family is, so that a fluid made for another kind is stopped.
CREATE TABLE transmission_fluids_gearboxes (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL UNIQUE,  -- value of the attribute `gearbox`
  gearbox_kind TEXT NOT NULL CHECK (gearbox_kind IN ('planetary_automatic','belt_cvt','chain_cvt','dual_clutch_wet','dual_clutch_dry','manual')),  -- what it is
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What is printed on a product about a spec, word for word.
CREATE TABLE transmission_fluids_claims (
  origin INTEGER PRIMARY KEY,
  item TEXT NOT NULL REFERENCES items (item),  -- the product, in this pack size
  group_key TEXT NOT NULL REFERENCES groups (group_key),  -- the spec it speaks of
  wording TEXT NOT NULL CHECK (wording IN ('licensed','approved','meets','suitable_for','none_stated')),  -- how firm: licensed or approved by the spec's owner, meets by the product's maker, suitable_for by its seller
  words TEXT NOT NULL,  -- the words as printed
  claimed_by TEXT NOT NULL,  -- who says so
  seen TEXT CHECK (seen GLOB '[12][0-9][0-9][0-9]*'),  -- date the label was read, YYYY-MM-DD
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (item, group_key, claimed_by)
) STRICT;

-- A product's own data sheet, where it differs from what is typical of its spec.
CREATE TABLE transmission_fluids_products (
  origin INTEGER PRIMARY KEY,
  item TEXT NOT NULL UNIQUE REFERENCES items (item),  -- the product, in this pack size
  kv40_mm2_s REAL CHECK (kv40_mm2_s > 0),  -- kinematic viscosity at 40 degC, mm2/s
  kv100_mm2_s REAL CHECK (kv100_mm2_s > 0),  -- kinematic viscosity at 100 degC, mm2/s
  density_15c_kg_m3 REAL CHECK (density_15c_kg_m3 BETWEEN 700 AND 1200),  -- density at 15 degC, kg/m3
  shelf_months INTEGER CHECK (shelf_months > 0),  -- how long an opened pack keeps, months
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- How much goes in. Always of one kind: a dry fill is that of an empty unit, never of a service.
CREATE TABLE transmission_fluids_fills (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  service_refill_l REAL CHECK (service_refill_l > 0),  -- after a drain through pan or plug, L
  pan_filter_refill_l REAL CHECK (pan_filter_refill_l > 0),  -- after pan off and a new filter, L
  total_l REAL CHECK (total_l > 0),  -- all the fluid in unit, converter and cooler, L
  dry_fill_l REAL CHECK (dry_fill_l > 0),  -- empty unit without cooler, L
  cooler_l REAL CHECK (cooler_l >= 0),  -- cooler and pipes, L
  drain_method TEXT CHECK (drain_method IN ('pan_off','pan_plug','converter_plug','overflow_plug','exchange_machine')),  -- how it is drained
  drain_tilt TEXT,  -- what the drained volume does when the vehicle is not level
  reuse_clean TEXT CHECK (reuse_clean IN ('yes','no')),  -- does the maker let clean drained fluid go back?
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (total_l IS NULL OR service_refill_l IS NULL OR total_l >= service_refill_l)
) STRICT;

-- How the level is checked: the reading means nothing without every one of these.
CREATE TABLE transmission_fluids_levels (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  method TEXT NOT NULL CHECK (method IN ('dipstick_hot','dipstick_cold_and_hot','overflow_plug','side_plug','sight_glass')),  -- how it is read
  low_temp_c REAL,  -- lowest fluid temperature of the check, degC
  high_temp_c REAL,  -- highest fluid temperature of the check, degC
  engine_running TEXT NOT NULL CHECK (engine_running IN ('yes','no')),  -- must the engine run?
  lever TEXT,  -- lever position during the check
  lever_routine TEXT,  -- what to do with the lever first
  attitude TEXT NOT NULL CHECK (attitude IN ('level','as_parked')),  -- level: all four wheels raised equally or none
  free_area_m2 REAL CHECK (free_area_m2 BETWEEN 0.005 AND 1),  -- free fluid surface in the pan at the level, m2
  off_centre_mm REAL CHECK (off_centre_mm >= 0),  -- stick or plug from the middle of the pan along the vehicle, mm
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low_temp_c <= high_temp_c)
) STRICT;

-- When the fluid is due. "Filled for life" is no interval stated, not an infinite one.
CREATE TABLE transmission_fluids_intervals (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  interval_km REAL CHECK (interval_km > 0),  -- distance, km; empty: none stated
  interval_months INTEGER CHECK (interval_months > 0),  -- age, months; empty: none stated
  severe_factor REAL CHECK (severe_factor > 0 AND severe_factor <= 1),  -- both are multiplied by this in severe use
  words TEXT,  -- as the source puts it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Published ranges that belong to no vehicle line. Sources disagree: each keeps its own row.
CREATE TABLE transmission_fluids_published (
  origin INTEGER PRIMARY KEY,
  quantity TEXT NOT NULL,  -- what it is, snake_case; drained_share_of_total is what one drain takes out of all
  low REAL NOT NULL,  -- lower end, in the unit
  high REAL NOT NULL,  -- upper end, in the unit; equal to low for one figure
  unit TEXT NOT NULL,  -- unit of both ends; "share" for a part of one
  words TEXT,  -- what the source says of it, shortened
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low <= high)
) STRICT;

-- Viscosity classes of gear oils, SAE J306.
CREATE TABLE transmission_fluids_gear_grades (
  origin INTEGER PRIMARY KEY,
  grade TEXT NOT NULL UNIQUE,  -- 75W, 90
  temp_at_150000_c REAL,  -- warmest at which it still has 150 000 mPa s, degC
  kv100_min_mm2_s REAL NOT NULL CHECK (kv100_min_mm2_s > 0),  -- least kinematic viscosity at 100 degC, mm2/s
  kv100_below_mm2_s REAL CHECK (kv100_below_mm2_s > 0),  -- less than this at 100 degC, mm2/s
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Viscosity classes of industrial oils, ISO 3448: the middle at 40 degC, and a tenth either way.
CREATE TABLE transmission_fluids_iso_classes (
  origin INTEGER PRIMARY KEY,
  iso_class TEXT NOT NULL,  -- as printed, VG 32
  kv40_mid_mm2_s REAL NOT NULL CHECK (kv40_mid_mm2_s > 0),  -- middle at 40 degC, mm2/s
  kv40_min_mm2_s REAL NOT NULL,  -- least at 40 degC, mm2/s
  kv40_max_mm2_s REAL NOT NULL,  -- most at 40 degC, mm2/s
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (kv40_mid_mm2_s, kv40_min_mm2_s),
  CHECK (kv40_min_mm2_s < kv40_mid_mm2_s AND kv40_mid_mm2_s < kv40_max_mm2_s)
) STRICT;
