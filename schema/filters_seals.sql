-- What a pack may hold about filters and seals: filter, pan and seal as one triple, gaskets and flanges,
-- what the pan shows, and which rubber stands which fluid. Lengths in mm, torques in N m.
-- Properties belong to the group: its members are the same in form, fit and function.

-- Filters, by interchange group.
CREATE TABLE filters_seals_filters (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the filter
  type TEXT NOT NULL CHECK (type IN ('pan_with_neck','flat_bolted','spin_on','in_line','washable_screen')),  -- how it sits
  height_mm REAL CHECK (height_mm > 0),  -- from the rail's level down to its lowest point, mm
  neck_od_mm REAL CHECK (neck_od_mm > 0),  -- outside diameter of the neck, mm
  neck_length_mm REAL CHECK (neck_length_mm > 0),  -- free length of the neck, mm
  neck_seal_form TEXT CHECK (neck_seal_form IN ('oring_on_neck','ribbed_band_on_neck','hat_in_bore','moulded_to_filter','none')),  -- the seal it is made for
  pan_depth_mm REAL CHECK (pan_depth_mm > 0),  -- rail to floor of the pan it is made for, mm
  bolt_count INTEGER CHECK (bolt_count >= 0),  -- bolts that hold it
  retained_by TEXT CHECK (retained_by IN ('bolts','clip','friction','thread')),  -- what holds it
  media TEXT CHECK (media IN ('felt','mesh','paper')),  -- what filters
  captive_above TEXT,  -- balls or springs that may drop when it comes off
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Pans, by interchange group.
CREATE TABLE filters_seals_pans (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the pan
  depth_mm REAL NOT NULL CHECK (depth_mm > 0),  -- rail to floor, mm
  outline TEXT,  -- its shape seen from below, in words
  bolt_count INTEGER CHECK (bolt_count > 0),  -- bolts in the rail
  flange TEXT CHECK (flange IN ('flat','ribs_between_holes','continuous_rib','lipped')),  -- form of the rail
  drain_plug TEXT CHECK (drain_plug IN ('yes','no')),  -- has it a plug?
  drain_thread TEXT,  -- thread of the plug
  magnets INTEGER CHECK (magnets >= 0),  -- how many magnets belong in it
  filter_in_pan TEXT CHECK (filter_in_pan IN ('yes','no')),  -- filter and pan are one part
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Seals of every form, by interchange group.
CREATE TABLE filters_seals_seals (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the seal
  form TEXT NOT NULL CHECK (form IN ('oring','oring_on_neck','ribbed_band_on_neck','hat_in_bore','moulded_to_filter','lip','flat_washer','bonded_washer')),  -- form
  id_mm REAL CHECK (id_mm > 0),  -- inside diameter, free, mm
  od_mm REAL CHECK (od_mm > 0),  -- outside diameter, free, mm
  section_mm REAL CHECK (section_mm > 0),  -- cross-section, mm
  height_mm REAL CHECK (height_mm > 0),  -- height along the bore, mm
  elastomer TEXT,  -- ISO 1629 code: NBR, HNBR, ACM, FKM, EPDM, VMQ, CR; or the metal
  fit_method TEXT CHECK (fit_method IN ('on_neck','pressed_in_bore','in_groove','over_shaft','under_head')),  -- where it goes before assembly
  lubricate TEXT,  -- what to wet it with
  colour TEXT,  -- hint only, never matched on
  size_standard TEXT,  -- AS568, ISO 3601-1; empty when of no standard size
  size TEXT,  -- size in that standard, such as 214
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (od_mm IS NULL OR id_mm IS NULL OR od_mm > id_mm)
) STRICT;

-- Gaskets, by interchange group.
CREATE TABLE filters_seals_gaskets (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the gasket
  material TEXT NOT NULL CHECK (material IN ('cork','cork_rubber','coated_cork_rubber','nitrile','neoprene','moulded_lip','silicone_adhesive','rigid_carrier')),  -- material; rigid_carrier: rubber bead on steel or plastic
  thickness_mm REAL CHECK (thickness_mm > 0),  -- free thickness, mm
  bolt_count INTEGER CHECK (bolt_count > 0),  -- holes
  torque_limiters TEXT CHECK (torque_limiters IN ('yes','no')),  -- metal sleeves in the holes
  reusable TEXT NOT NULL CHECK (reusable IN ('never','if_undamaged','by_design')),  -- may the old one go back?
  sealant TEXT NOT NULL CHECK (sealant IN ('none','spots_only','bead_only')),  -- none: sealant does harm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Which gasket material suits which flange.
CREATE TABLE filters_seals_gasket_flanges (
  origin INTEGER PRIMARY KEY,
  material TEXT NOT NULL CHECK (material IN ('cork','cork_rubber','coated_cork_rubber','nitrile','neoprene','moulded_lip','silicone_adhesive','rigid_carrier')),  -- gasket material
  flange TEXT NOT NULL CHECK (flange IN ('flat','ribs_between_holes','continuous_rib','lipped')),  -- form of the rail
  says TEXT NOT NULL CHECK (says IN ('listed','specified_application_only','not_listed')),  -- what the source says of the pair; a pair with no row is not recorded
  reason TEXT,  -- why, where the source says
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Flanges of a line: what the pan is bolted to, and how.
CREATE TABLE filters_seals_flanges (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  flange TEXT NOT NULL CHECK (flange IN ('flat','ribs_between_holes','continuous_rib','lipped')),  -- form of the pan's rail
  bolt_count INTEGER NOT NULL CHECK (bolt_count > 0),  -- bolts in the rail
  bolt TEXT,  -- thread and length, such as M6x20
  tightening TEXT,  -- stages in order: "8 N m" or "5 N m + 60 deg"
  sequence TEXT,  -- order of the bolts, in words
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Bores of a line that a seal goes into.
CREATE TABLE filters_seals_bores (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  role TEXT NOT NULL,  -- the seal's role, of a domain
  bore_mm REAL NOT NULL CHECK (bore_mm > 0),  -- inside diameter, mm
  depth_to_seal_mm REAL CHECK (depth_to_seal_mm >= 0),  -- bore mouth to the seal's near face, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What is found in the pan, as evidence. It points; it never names a faulty part.
CREATE TABLE filters_seals_debris (
  origin INTEGER PRIMARY KEY,
  debris TEXT NOT NULL,  -- the finding, a value of the attribute pan_debris
  reads_as TEXT NOT NULL,  -- what it usually means
  steps REAL NOT NULL CHECK (steps BETWEEN -5 AND 5),  -- each -1 halves the odds that a small repair is enough, each +1 doubles them; a default from memory whatever the source says of the finding
  stop TEXT NOT NULL CHECK (stop IN ('yes','no')),  -- open the go or no-go question again
  next TEXT,  -- what to look at next
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Elastomers against fluids, by ISO 1629 code. No row is "ask", never "yes".
CREATE TABLE filters_seals_elastomers (
  origin INTEGER PRIMARY KEY,
  elastomer TEXT NOT NULL,  -- ISO 1629 code
  fluid TEXT NOT NULL CHECK (fluid IN ('mineral_oil_atf','hydraulic_system_mineral_oil','glycol_brake_fluid','silicone_brake_fluid','engine_coolant','gasoline')),  -- the fluid's kind
  rating TEXT NOT NULL CHECK (rating IN ('good','fair_to_good','good_to_fair','fair','poor_to_fair','poor','poor_to_good_by_type','not_suitable','unknown')),  -- as the source puts it
  status TEXT NOT NULL CHECK (status IN ('seen','from_memory')),  -- seen: read in the work named
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (elastomer, fluid, source)
) STRICT;

-- O-ring sizes of a standard.
CREATE TABLE filters_seals_sizes (
  origin INTEGER PRIMARY KEY,
  size_standard TEXT NOT NULL,  -- AS568, ISO 3601-1
  size TEXT NOT NULL,  -- number in that standard
  id_mm REAL NOT NULL CHECK (id_mm > 0),  -- inside diameter, mm
  id_tol_mm REAL CHECK (id_tol_mm >= 0),  -- plus or minus, mm
  section_mm REAL NOT NULL CHECK (section_mm > 0),  -- cross-section, mm
  section_tol_mm REAL CHECK (section_tol_mm >= 0),  -- plus or minus, mm
  note TEXT,  -- where sources differ
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (size_standard, size)
) STRICT;

-- Press-fit allowance of a lip or hat seal's outside over its nominal bore.
CREATE TABLE filters_seals_press_fits (
  origin INTEGER PRIMARY KEY,
  cased TEXT NOT NULL CHECK (cased IN ('metal','rubber')),  -- what touches the bore
  bore_over_mm REAL NOT NULL CHECK (bore_over_mm >= 0),  -- bores above this, mm
  bore_to_mm REAL NOT NULL,  -- up to and with this, mm
  low_mm REAL NOT NULL,  -- least allowance, mm
  high_mm REAL NOT NULL,  -- most, mm
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (bore_over_mm < bore_to_mm AND low_mm <= high_mm)
) STRICT;

-- Published ranges that belong to no vehicle line. Sources disagree: each keeps its own row.
CREATE TABLE filters_seals_published (
  origin INTEGER PRIMARY KEY,
  quantity TEXT NOT NULL,  -- what it is, snake_case
  low REAL NOT NULL,  -- lower end, in the unit
  high REAL NOT NULL,  -- upper end, in the unit; equal to low for one figure
  unit TEXT NOT NULL,  -- unit of both ends; % of the section or diameter
  words TEXT,  -- what the source says of it, shortened
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low <= high)
) STRICT;

-- Sizes of shaft seals, as printed on them: shaft, bore, width. Of a standard, or met without one.
CREATE TABLE filters_seals_shaft_seals (
  origin INTEGER PRIMARY KEY,
  size_standard TEXT NOT NULL,  -- ISO 6194-1, DIN 3760, or standard not known
  shaft_mm REAL NOT NULL CHECK (shaft_mm > 0),  -- shaft that it runs on, inside, mm
  bore_mm REAL NOT NULL,  -- bore that it is pressed into, outside, mm
  width_mm REAL NOT NULL CHECK (width_mm > 0),  -- width, mm
  note TEXT,  -- anything the bench should know
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (shaft_mm, bore_mm, width_mm, size_standard),
  CHECK (bore_mm > shaft_mm)
) STRICT;

-- How far the bore and the shaft of a shaft seal may be off, by diameter: limits of ISO 286.
CREATE TABLE filters_seals_shaft_fits (
  origin INTEGER PRIMARY KEY,
  fit TEXT NOT NULL,  -- letter and grade, H8 for a bore, h11 for a shaft
  measured TEXT NOT NULL CHECK (measured IN ('bore','shaft')),  -- what is measured
  over_mm REAL NOT NULL CHECK (over_mm >= 0),  -- diameters above this, mm
  up_to_mm REAL NOT NULL,  -- up to and with this, mm
  lower_mm REAL NOT NULL,  -- lower limit, off the nominal diameter, mm
  upper_mm REAL NOT NULL,  -- upper limit, mm
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (fit, over_mm),
  CHECK (over_mm < up_to_mm AND lower_mm <= upper_mm)
) STRICT;

-- Letters of a rubber's line call-out in ASTM D2000: the type says how hot, the class how far oil swells it.
CREATE TABLE filters_seals_rubber_letters (
  origin INTEGER PRIMARY KEY,
  place TEXT NOT NULL CHECK (place IN ('type','class')),  -- first letter: type; second: class
  letter TEXT NOT NULL,  -- as called out
  value REAL,  -- the limit, in the unit; empty: none
  unit TEXT NOT NULL,  -- of the limit: degC, %
  words TEXT NOT NULL,  -- what is limited
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (place, letter)
) STRICT;

-- Rubbers that usually meet a type and class of ASTM D2000, by ISO 1629 code.
CREATE TABLE filters_seals_rubber_polymers (
  origin INTEGER PRIMARY KEY,
  letters TEXT NOT NULL UNIQUE,  -- type and class, as BG
  polymers TEXT NOT NULL,  -- codes, separated by /
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;
