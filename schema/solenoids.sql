-- What a pack may hold about solenoids: functions, apply tables, fail-safe, wiring, codes, how they are sold.
-- `gearbox` is the value of the vehicle attribute of that name, the family. Resistances in ohm at 20 degC.
-- A code or a gear names a circuit or a behaviour, never a part to order.

-- Gearbox families, and what they do when the current is gone.
CREATE TABLE solenoids_gearboxes (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL UNIQUE,  -- the family
  title TEXT NOT NULL,  -- in words
  elements TEXT NOT NULL CHECK (elements IN ('solenoid_states','friction_elements')),  -- what the apply table is of
  default_gear TEXT,  -- gear with no current
  default_reason TEXT CHECK (default_reason IN ('hydraulic_rest','controller_choice')),  -- why it is that one
  reverse_without_current TEXT CHECK (reverse_without_current IN ('yes','no')),  -- is reverse still there?
  low_by_lever TEXT CHECK (low_by_lever IN ('yes','no')),  -- does the lever still give a low gear?
  lockup_off TEXT CHECK (lockup_off IN ('yes','no')),  -- is the converter lock off in fail-safe?
  pressure_high TEXT CHECK (pressure_high IN ('yes','no')),  -- is the pressure at its highest in fail-safe? Then harsh engagement is normal
  ratio_window REAL CHECK (ratio_window BETWEEN 0.001 AND 0.2),  -- share by which a measured ratio may differ
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Elements of a gearbox that a current moves, by function.
CREATE TABLE solenoids_functions (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  element TEXT NOT NULL,  -- its letter or name in the apply table and the wiring
  function TEXT NOT NULL CHECK (function IN ('shift','line_pressure','lockup','clutch_pressure','shift_timing','ratio_control','park_lock','lever_lock','lubrication')),  -- what it does
  role TEXT NOT NULL,  -- the role it fills
  kind TEXT NOT NULL CHECK (kind IN ('on_off','pulsed','linear','stepper')),  -- how it is driven
  rest TEXT CHECK (rest IN ('open','closed','low_pressure','high_pressure')),  -- without current
  ohm_20_low REAL CHECK (ohm_20_low > 0),  -- least resistance at 20 degC, ohm
  ohm_20_high REAL CHECK (ohm_20_high > 0),  -- most, ohm
  wires INTEGER CHECK (wires IN (1, 2, 4)),  -- 1: grounded by design
  max_current_a REAL CHECK (max_current_a > 0),  -- limit for feeding it at the bench, A; none recorded is no permission
  pin TEXT,  -- pin of the case connector
  group_key TEXT REFERENCES groups (group_key),  -- the part, where it is one by itself
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (gearbox, element),
  CHECK (ohm_20_low <= ohm_20_high)
) STRICT;

-- Apply table: which element is on in which gear. One row each; an element not named is off.
CREATE TABLE solenoids_apply (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  gear TEXT NOT NULL,  -- 1, 2 ... R
  lever TEXT,  -- lever range the gear belongs to; empty: forward
  element TEXT NOT NULL,  -- solenoid, or clutch or brake
  state TEXT NOT NULL CHECK (state IN ('on','off')),  -- on: current flows, or the clutch is applied
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (gearbox, gear, element)
) STRICT;

-- Gear ratios.
CREATE TABLE solenoids_ratios (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  gear TEXT NOT NULL,  -- 1, 2 ... R
  ratio REAL NOT NULL CHECK (ratio > 0),  -- input over output speed, no unit
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (gearbox, gear)
) STRICT;

-- What the controller commands instead once it has noticed. The first row that matches counts.
CREATE TABLE solenoids_failsafe (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  fault TEXT CHECK (fault IN ('stuck_off','stuck_on','node_lost')),  -- what has happened; empty: anything
  subject TEXT,  -- element or node it happened to; empty: any
  detected TEXT CHECK (detected IN ('circuit','electrical','intermittent','stuck_off','stuck_on','ratio','supply_open')),  -- kind of code stored; empty: any
  commands TEXT NOT NULL,  -- what is commanded, such as A=off;B=off
  also TEXT,  -- what else it does: lock-up off, pressure high
  back TEXT CHECK (back IN ('ignition_cycle','code_cleared')),  -- what brings the gears back until it is noticed again
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Lever positions in which the manual valve overrides the solenoids.
CREATE TABLE solenoids_levers (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  lever TEXT NOT NULL,  -- position
  commanded TEXT,  -- gear commanded; empty: any
  obtained TEXT NOT NULL,  -- gear that comes
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- A published failure chart. It overrides what the apply table would predict.
CREATE TABLE solenoids_published_failures (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  fault TEXT NOT NULL CHECK (fault IN ('stuck_off','stuck_on','node_lost')),  -- what has happened
  subject TEXT NOT NULL,  -- element or node
  commanded TEXT NOT NULL,  -- gear commanded
  obtained TEXT NOT NULL,  -- gear that comes
  phase TEXT NOT NULL CHECK (phase IN ('before_fail_safe','in_fail_safe')),  -- before or after the controller noticed
  lever TEXT,  -- lever position; empty: as commanded
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Feeds, grounds and connectors that several elements share. One row an element.
CREATE TABLE solenoids_nodes (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  node TEXT NOT NULL,  -- key of the feed, ground, connector or plate track
  title TEXT NOT NULL,  -- where it is, in words
  element TEXT NOT NULL,  -- an element behind it
  state_when_lost TEXT NOT NULL CHECK (state_when_lost IN ('on','off')),  -- what its elements do when it is lost
  check_by TEXT,  -- how to test it under load
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (gearbox, node, element)
) STRICT;

-- How an element is sold and reached.
CREATE TABLE solenoids_service (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  element TEXT NOT NULL,  -- the element
  serviced_as TEXT NOT NULL CHECK (serviced_as IN ('single','set','block_with_plate','valve_body','unit_only')),  -- smallest thing that can be bought
  order_role TEXT,  -- the role to order when it is not sold by itself
  calibration TEXT NOT NULL CHECK (calibration IN ('none','graded','block_code')),  -- none; a grade to match; a code to load into the controller
  calibration_words TEXT,  -- where the grade or code stands, and what to do with it
  access TEXT NOT NULL CHECK (access IN ('outside','pan_off','pan_and_filter_off','valve_body_off','unit_out')),  -- what must come off first
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (gearbox, element, source)
) STRICT;

-- Where each element sits on the valve body: by its order from the front, not in mm, so that anybody can write it down.
CREATE TABLE solenoids_positions (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  element TEXT NOT NULL,  -- the element
  side TEXT NOT NULL CHECK (side IN ('left','middle','right')),  -- row of the body it is in, left and right as from the driver's seat
  from_front INTEGER NOT NULL CHECK (from_front BETWEEN 1 AND 20),  -- 1: the foremost of its row
  mark TEXT,  -- how to know it: colour of its plug, its length, what is beside it
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (gearbox, element),
  UNIQUE (gearbox, side, from_front)
) STRICT;

-- The bodies of solenoids, by interchange group: what to compare at the bench.
CREATE TABLE solenoids_parts (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the part
  kind TEXT NOT NULL CHECK (kind IN ('on_off','pulsed','linear','stepper','block','harness','sensor')),  -- what it is
  ohm_20_low REAL CHECK (ohm_20_low > 0),  -- least resistance at 20 degC, ohm
  ohm_20_high REAL CHECK (ohm_20_high > 0),  -- most, ohm
  o_rings INTEGER CHECK (o_rings >= 0),  -- how many on its nose
  screen TEXT CHECK (screen IN ('yes','no')),  -- has it a screen that may stay in the bore?
  nose_mm REAL CHECK (nose_mm > 0),  -- length of the nose, mm
  connector_pins INTEGER CHECK (connector_pins > 0),  -- pins
  grade TEXT,  -- grade mark, where graded
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (ohm_20_low <= ohm_20_high)
) STRICT;

-- Codes as published. Matched by number, never by text.
CREATE TABLE solenoids_codes (
  origin INTEGER PRIMARY KEY,
  code TEXT NOT NULL CHECK (code GLOB '[PCBU][0-9A-F][0-9A-F][0-9A-F][0-9A-F]'),  -- five characters
  gearbox TEXT,  -- the family it is the maker's own code of; empty: generic
  element TEXT,  -- element of that family it speaks of
  class TEXT NOT NULL CHECK (class IN ('circuit','electrical','intermittent','stuck_off','stuck_on','ratio','supply_open','request','range_performance','low','high','no_signal','shift')),  -- the behaviour it names
  words TEXT NOT NULL,  -- the published text, shortened
  lists_agreeing INTEGER CHECK (lists_agreeing > 0),  -- how many public lists carry the same text
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (code, gearbox)
) STRICT;

-- The gearbox's own temperature sensor: resistance falls as it warms.
CREATE TABLE solenoids_temperatures (
  origin INTEGER PRIMARY KEY,
  gearbox TEXT NOT NULL REFERENCES solenoids_gearboxes (gearbox),  -- the family
  temp_c REAL NOT NULL CHECK (temp_c BETWEEN -60 AND 250),  -- temperature, degC
  low_ohm REAL NOT NULL CHECK (low_ohm > 0),  -- least resistance, ohm
  high_ohm REAL NOT NULL CHECK (high_ohm > 0),  -- most, ohm
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (gearbox, temp_c),
  CHECK (low_ohm <= high_ohm)
) STRICT;

-- What imitates a bad solenoid: look here before any electrical order.
CREATE TABLE solenoids_look_first (
  origin INTEGER PRIMARY KEY,
  what TEXT NOT NULL,  -- what to look at
  how TEXT NOT NULL,  -- how, imperative
  minutes REAL NOT NULL CHECK (minutes > 0),  -- effort, minutes
  cause TEXT NOT NULL CHECK (cause IN ('coil','shared_feed','internal_plate','valve_or_debris','clutch_or_seal','controller','fluid')),  -- where the fault would then be
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Published ranges that belong to no family. Sources disagree: each keeps its own row.
CREATE TABLE solenoids_published (
  origin INTEGER PRIMARY KEY,
  quantity TEXT NOT NULL,  -- what it is, snake_case
  low REAL NOT NULL,  -- lower end, in the unit
  high REAL NOT NULL,  -- upper end, in the unit; equal to low for one figure
  unit TEXT NOT NULL,  -- unit of both ends; "share" for a part of one
  words TEXT,  -- what the source says of it, shortened
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low <= high)
) STRICT;
