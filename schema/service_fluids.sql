-- What a pack may hold about engine oil, coolant, the engine's oil filter and the washers of drain plugs: classes,
-- families, volumes, intervals. Volumes in L, lengths in mm, temperatures in degC, shares in per cent by volume. Colour
-- is not here: it identifies nothing.

-- Engine oils, by spec: what the maker of the engine asks for. The group is the spec, its members the products.
CREATE TABLE service_fluids_oils (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the spec
  viscosity TEXT NOT NULL,  -- class of SAE J300, 5W-30
  category TEXT,  -- service class as printed, API SP; empty: none stated
  note TEXT,  -- anything the bench should know
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Coolants, by spec.
CREATE TABLE service_fluids_coolants (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the spec
  family TEXT NOT NULL CHECK (family IN ('inorganic','organic','hybrid_silicate','hybrid_phosphate')),  -- what its inhibitors are
  base TEXT NOT NULL CHECK (base IN ('ethylene_glycol','propylene_glycol')),  -- the glycol
  d3306_type TEXT CHECK (d3306_type IN ('I','II','III','IV','V','VI')),  -- type of ASTM D3306, where stated
  glycol_pct REAL NOT NULL CHECK (glycol_pct BETWEEN 20 AND 100),  -- concentrate in it as sold: 100, or 50 ready to use
  note TEXT,  -- anything the bench should know
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What a source says of one family in another. No row: not recorded, and not mixed.
CREATE TABLE service_fluids_mixes (
  origin INTEGER PRIMARY KEY,
  offered TEXT NOT NULL CHECK (offered IN ('inorganic','organic','hybrid_silicate','hybrid_phosphate')),  -- the family that is poured in
  present TEXT NOT NULL CHECK (present IN ('inorganic','organic','hybrid_silicate','hybrid_phosphate')),  -- the family that is in the circuit
  may TEXT NOT NULL CHECK (may IN ('yes','no')),  -- may they be mixed?
  words TEXT,  -- as the source puts it
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (offered <> present)
) STRICT;

-- Brake fluids, by grade. The exact grade only, and a base is never crossed.
CREATE TABLE service_fluids_brake_fluids (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the grade
  grade TEXT CHECK (grade IN ('DOT 3','DOT 4','DOT 5','DOT 5.1','HSMO')),  -- grade of 49 CFR 571.116; empty: a maker's own
  base TEXT NOT NULL CHECK (base IN ('glycol','silicone','mineral')),  -- what it must not be crossed with
  dry_boiling_min_c REAL,  -- least boiling point, new, degC
  wet_boiling_min_c REAL,  -- least boiling point, wet, degC
  kv_minus_40_max_mm2_s REAL,  -- most at -40 degC, mm2/s
  kv_100_min_mm2_s REAL,  -- least at 100 degC, mm2/s
  note TEXT,  -- anything the bench should know
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- How long an opened pack keeps: brake fluid draws water out of the air.
CREATE TABLE service_fluids_opened (
  origin INTEGER PRIMARY KEY,
  item TEXT NOT NULL UNIQUE REFERENCES items (item),  -- the product, in this pack size
  shelf_months INTEGER NOT NULL CHECK (shelf_months > 0),  -- how long an opened pack keeps, months
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Oil filters of engines, by interchange group.
CREATE TABLE service_fluids_oil_filters (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the filter
  form TEXT NOT NULL CHECK (form IN ('spin_on','element')),  -- spin_on: can with a thread; element: paper in a housing
  thread_mm REAL CHECK (thread_mm > 0),  -- of a can, 20 for M20
  pitch_mm REAL CHECK (pitch_mm > 0),  -- of a can, mm
  seal_outside_mm REAL CHECK (seal_outside_mm > 0),  -- seal ring, outside, mm
  height_mm REAL CHECK (height_mm > 0),  -- over all, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Washers of drain plugs, by interchange group.
CREATE TABLE service_fluids_washers (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the washer
  inside_mm REAL NOT NULL CHECK (inside_mm > 0),  -- hole, mm
  outside_mm REAL CHECK (outside_mm > 0),  -- rim, mm
  thick_mm REAL CHECK (thick_mm > 0),  -- new, mm
  form TEXT NOT NULL CHECK (form IN ('copper','aluminium','crush','bonded','plain_rubber')),  -- bonded: rubber vulcanised into metal
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (outside_mm > inside_mm)
) STRICT;

-- Drain plugs and screwed filters of a line: thread and how they are tightened.
CREATE TABLE service_fluids_plugs (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  plug TEXT NOT NULL CHECK (plug IN ('engine_oil','coolant','oil_filter')),  -- which one
  thread_mm REAL CHECK (thread_mm > 0),  -- 14 for M14
  pitch_mm REAL CHECK (pitch_mm > 0),  -- mm
  torque_nm REAL CHECK (torque_nm > 0),  -- the maker's, N m; empty: not stated
  words TEXT,  -- where it is no torque: three quarters of a turn after the seal touches
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (torque_nm IS NOT NULL OR words IS NOT NULL)
) STRICT;

-- How much engine oil comes out and goes in.
CREATE TABLE service_fluids_oil_volumes (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  without_filter_l REAL CHECK (without_filter_l > 0),  -- what goes in after a drain, the filter left on, L
  with_filter_l REAL CHECK (with_filter_l > 0),  -- what goes in after a drain with a new filter, L
  dry_l REAL CHECK (dry_l > 0),  -- what a dry engine takes, L; never that of a service
  low_to_full_l REAL CHECK (low_to_full_l > 0),  -- from the lower to the upper mark, L
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (with_filter_l IS NULL OR without_filter_l IS NULL OR with_filter_l >= without_filter_l),
  CHECK (dry_l IS NULL OR with_filter_l IS NULL OR dry_l >= with_filter_l)
) STRICT;

-- How much coolant is in, and how much of it a plug or a hose lets out: the rest stays in the block.
CREATE TABLE service_fluids_coolant_volumes (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  total_l REAL CHECK (total_l > 0),  -- all there is, heater and tank included, L
  drained_l REAL CHECK (drained_l > 0),  -- what comes out, L
  bleeding TEXT,  -- how the air gets out
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (total_l IS NULL OR drained_l IS NULL OR total_l >= drained_l)
) STRICT;

-- When engine oil is due: by distance, by time, and less in hard use.
CREATE TABLE service_fluids_oil_changes (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  interval_km REAL CHECK (interval_km > 0),  -- distance, km; empty: none stated
  interval_months INTEGER CHECK (interval_months > 0),  -- time, months; empty: none stated
  severe_factor REAL CHECK (severe_factor BETWEEN 0.3 AND 1),  -- both are multiplied by this in hard use
  words TEXT,  -- as the source puts it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- When coolant is due. "Filled for life" is no interval stated, not an infinite one.
CREATE TABLE service_fluids_coolant_changes (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  interval_km REAL CHECK (interval_km > 0),  -- distance, km; empty: none stated
  interval_months INTEGER CHECK (interval_months > 0),  -- time, months; empty: none stated
  severe_factor REAL CHECK (severe_factor BETWEEN 0.3 AND 1),  -- both are multiplied by this in hard use
  words TEXT,  -- as the source puts it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Freezing points of glycol in water: the first ice. Sources disagree: each keeps its own row.
CREATE TABLE service_fluids_freezing (
  origin INTEGER PRIMARY KEY,
  base TEXT NOT NULL CHECK (base IN ('ethylene_glycol','propylene_glycol')),  -- the glycol
  glycol_pct REAL NOT NULL CHECK (glycol_pct BETWEEN 0 AND 100),  -- concentrate in it, per cent by volume
  freeze_c REAL NOT NULL CHECK (freeze_c BETWEEN -80 AND 0),  -- degC
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (base, glycol_pct)
) STRICT;

-- Viscosity classes of engine oils.
CREATE TABLE service_fluids_viscosities (
  origin INTEGER PRIMARY KEY,
  viscosity TEXT NOT NULL,  -- 5W, 30
  beside TEXT,  -- only beside these winter classes, separated by |: 0W|5W|10W; empty: beside every other
  winter TEXT NOT NULL CHECK (winter IN ('yes','no')),  -- is it a class for cold starts?
  cranking_mpas REAL CHECK (cranking_mpas > 0),  -- most at the cranking temperature, mPa s
  cranking_c REAL,  -- temperature of that limit, degC
  pumping_c REAL,  -- temperature at which 60 000 mPa s is the most, degC
  kv100_min_mm2_s REAL CHECK (kv100_min_mm2_s > 0),  -- least kinematic viscosity at 100 degC, mm2/s
  kv100_below_mm2_s REAL CHECK (kv100_below_mm2_s > 0),  -- less than this at 100 degC, mm2/s
  hths_mpas REAL CHECK (hths_mpas > 0),  -- least viscosity at 150 degC and high shear, mPa s
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (viscosity, beside)
) STRICT;

-- Service classes in their order: a later one of a series may be filled where an earlier one is called for.
CREATE TABLE service_fluids_categories (
  origin INTEGER PRIMARY KEY,
  category TEXT NOT NULL UNIQUE,  -- as printed, API SN
  series TEXT NOT NULL,  -- those with one key follow each other; alone in its series, nothing follows from it
  place INTEGER NOT NULL CHECK (place > 0),  -- order within the series, the oldest first
  words TEXT,  -- what the source says
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (series, place)
) STRICT;

-- Limits of 49 CFR 571.116 by grade of brake fluid. A grade is no more than its limits; the maker names the grade.
CREATE TABLE service_fluids_brake_limits (
  origin INTEGER PRIMARY KEY,
  grade TEXT NOT NULL,  -- as printed, DOT 4
  base TEXT NOT NULL CHECK (base IN ('glycol','silicone','mineral')),  -- what it must not be crossed with
  dry_boiling_min_c REAL,  -- least boiling point new, degC
  wet_boiling_min_c REAL,  -- least boiling point wet, degC
  kv_minus_40_max_mm2_s REAL,  -- most viscosity at -40 degC, mm2/s
  kv_100_min_mm2_s REAL,  -- least viscosity at 100 degC, mm2/s
  ph_min REAL CHECK (ph_min BETWEEN 0 AND 14),  -- least pH
  ph_max REAL CHECK (ph_max BETWEEN 0 AND 14),  -- most pH
  colour TEXT,  -- as the rule has it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Sizes of sealing washers for drain and filler plugs.
CREATE TABLE service_fluids_washer_sizes (
  origin INTEGER PRIMARY KEY,
  inside_mm REAL NOT NULL CHECK (inside_mm > 0),  -- inside, mm
  outside_mm REAL NOT NULL,  -- outside, mm
  thick_mm REAL NOT NULL CHECK (thick_mm > 0),  -- thickness, mm
  note TEXT,  -- anything the bench should know
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (inside_mm, outside_mm, thick_mm),
  CHECK (outside_mm > inside_mm)
) STRICT;

-- Threads that drain and filler plugs are met with, and the washer that goes over each.
CREATE TABLE service_fluids_plug_threads (
  origin INTEGER PRIMARY KEY,
  thread TEXT NOT NULL,  -- as called, M14x1.5
  thread_mm REAL NOT NULL CHECK (thread_mm > 0),  -- thread diameter, mm
  pitch_mm REAL NOT NULL CHECK (pitch_mm > 0),  -- pitch, mm
  washer_inside_mm REAL NOT NULL CHECK (washer_inside_mm > 0),  -- inside of its washer, mm
  words TEXT,  -- where it is met
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (thread_mm, pitch_mm)
) STRICT;

-- Ranges in which makers' intervals lie, by design. Never an interval of a vehicle: that is its maker's.
CREATE TABLE service_fluids_change_ranges (
  origin INTEGER PRIMARY KEY,
  fluid TEXT NOT NULL,  -- which fluid, by its design
  low_km REAL CHECK (low_km > 0),  -- shortest distance met, km
  high_km REAL CHECK (high_km > 0),  -- longest distance met, km
  low_months REAL CHECK (low_months > 0),  -- shortest time met, months
  high_months REAL CHECK (high_months > 0),  -- longest time met, months
  words TEXT,  -- what goes with it
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low_km IS NULL OR high_km IS NULL OR low_km <= high_km),
  CHECK (low_months IS NULL OR high_months IS NULL OR low_months <= high_months)
) STRICT;
