-- What a pack may hold about the small motors that move a door, flap or valve of heating and air: what tells one from
-- another, where it sits and what comes off to reach it, what is to be taught after fitting, and how its feedback and
-- winding read. Left and right as seen from the driver's seat facing forward. Angles in degrees, times in minutes.

-- Actuators, by interchange group. The same look is not the same actuator: function, side, cavities and shaft decide.
CREATE TABLE actuators_door_motors (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the actuator
  function TEXT NOT NULL CHECK (function IN ('temperature','air_distribution','defrost','recirculation','heater_valve')),  -- what it moves
  side TEXT NOT NULL CHECK (side IN ('only','left','right','rear','either')),  -- only: one for the whole vehicle; either: the same left and right
  cavities INTEGER CHECK (cavities BETWEEN 0 AND 16),  -- holes of its plug, filled or not; 0: no plug, a vacuum hose
  shaft TEXT CHECK (shaft IN ('d_shaft','double_d','spline','square','slot','lever','crank_pin')),  -- coded shape of what turns the door
  plug_code TEXT,  -- coding of the plug: its letter or colour, as marked
  travel_deg REAL CHECK (travel_deg > 0 AND travel_deg <= 720),  -- of the shaft, from stop to stop
  drive TEXT CHECK (drive IN ('dc','stepper','bus','vacuum')),  -- dc: two wires drive it; stepper: four or more; bus: it has its own electronics
  feedback TEXT CHECK (feedback IN ('potentiometer','pulses','end_switches','bus','none')),  -- how it says where it is
  turns TEXT CHECK (turns IN ('left','right')),  -- of a dc drive: which way the shaft turns, seen from its end, with plus on the lower-numbered motor wire
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What comes off, in order, to reach an actuator, and how long that takes with putting it back.
CREATE TABLE actuators_ways_in (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  function TEXT NOT NULL CHECK (function IN ('temperature','air_distribution','defrost','recirculation','heater_valve')),  -- which actuator
  side TEXT NOT NULL CHECK (side IN ('only','left','right','rear')),  -- which of them
  step INTEGER NOT NULL CHECK (step > 0),  -- first is 1
  comes_off TEXT NOT NULL,  -- what comes off, or is moved aside
  minutes REAL NOT NULL CHECK (minutes > 0),  -- off and on again
  beside_airbag TEXT NOT NULL CHECK (beside_airbag IN ('yes','no')),  -- does this step touch or uncover an airbag, or its wiring?
  place TEXT,  -- where on the housing it is found, in the last step
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- How long the battery is off before anybody works beside an airbag.
CREATE TABLE actuators_airbag_waits (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  minutes REAL NOT NULL CHECK (minutes > 0),  -- the maker's
  words TEXT,  -- how it puts it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What is to be taught after an actuator was fitted, or the battery was off.
CREATE TABLE actuators_teachings (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  function TEXT CHECK (function IN ('temperature','air_distribution','defrost','recirculation','heater_valve')),  -- of which; empty: of every actuator
  method TEXT NOT NULL CHECK (method IN ('by_itself','by_buttons','by_tester','none')),  -- by_itself: at the next start
  words TEXT,  -- how it is done
  minutes REAL CHECK (minutes > 0),  -- how long it takes
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Where the maker says: this part and no other.
CREATE TABLE actuators_makers_rules (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  function TEXT CHECK (function IN ('temperature','air_distribution','defrost','recirculation','heater_valve')),  -- of which; empty: of every actuator
  rule TEXT NOT NULL CHECK (rule IN ('exact_part_only','no_rule')),  -- what the source says of stand-ins
  words TEXT,  -- how it puts it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Where the feedback stands at both stops, as a share of its reference voltage.
CREATE TABLE actuators_end_stops (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  function TEXT NOT NULL CHECK (function IN ('temperature','air_distribution','defrost','recirculation','heater_valve')),  -- which actuator
  side TEXT NOT NULL CHECK (side IN ('only','left','right','rear')),  -- which of them
  first_stop TEXT NOT NULL,  -- what the first stop is: cold, feet, fresh air, shut
  first_pct REAL NOT NULL CHECK (first_pct BETWEEN 0 AND 100),  -- % of the reference there
  last_stop TEXT NOT NULL,  -- what the last stop is: hot, screen, recirculated, open
  last_pct REAL NOT NULL CHECK (last_pct BETWEEN 0 AND 100),  -- % of the reference there
  reference_v REAL CHECK (reference_v > 0 AND reference_v <= 32),  -- V, between the outer pins of the track
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What the winding of an actuator reads, by interchange group.
CREATE TABLE actuators_windings (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the actuator
  low_ohm REAL NOT NULL CHECK (low_ohm > 0),  -- least of several readings, shaft turned between them
  high_ohm REAL NOT NULL CHECK (high_ohm > 0),  -- most of them
  running_a REAL CHECK (running_a > 0),  -- A, moving its door at running_v
  stall_a REAL CHECK (stall_a > 0),  -- A, held still at running_v
  running_v REAL CHECK (running_v > 0 AND running_v <= 32),  -- V, at the plug
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low_ohm <= high_ohm)
) STRICT;

-- The two digits behind a code, after the hyphen: how it failed. Open standard, from public copies.
CREATE TABLE actuators_failure_types (
  origin INTEGER PRIMARY KEY,
  failure_type TEXT NOT NULL UNIQUE,  -- two hexadecimal digits
  words TEXT NOT NULL,  -- what the list says
  points_at TEXT NOT NULL CHECK (points_at IN ('wiring','feedback','door_or_gear','teaching','control_unit','anything')),  -- where to look first; casebound's own sorting
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Wires of vehicles: resistance of the conductor at 20 degC, by section.
CREATE TABLE actuators_wires (
  origin INTEGER PRIMARY KEY,
  area_mm2 REAL NOT NULL UNIQUE CHECK (area_mm2 > 0),  -- section of the copper, mm2
  mohm_per_m REAL NOT NULL CHECK (mohm_per_m > 0),  -- most resistance, mohm for each metre
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Blade fuses by colour.
CREATE TABLE actuators_fuses (
  origin INTEGER PRIMARY KEY,
  form TEXT NOT NULL,  -- blade, or large blade
  rating_a REAL NOT NULL CHECK (rating_a > 0),  -- rating, A
  colour TEXT NOT NULL,  -- of its body
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (form, rating_a)
) STRICT;

-- Rest voltage of a 12 V battery against its charge, at 25 degC, hours after charging or driving.
CREATE TABLE actuators_battery_charge (
  origin INTEGER PRIMARY KEY,
  battery TEXT NOT NULL CHECK (battery IN ('flooded','mat')),  -- flooded: liquid acid; mat: acid in a glass mat
  charge_pct REAL NOT NULL CHECK (charge_pct BETWEEN 0 AND 100),  -- charge, %
  rest_v REAL NOT NULL CHECK (rest_v BETWEEN 8 AND 16),  -- rest voltage, V
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (battery, charge_pct)
) STRICT;

-- Sensors of temperature whose resistance falls as they warm.
CREATE TABLE actuators_sensor_curves (
  origin INTEGER PRIMARY KEY,
  sensor TEXT NOT NULL,  -- which one, in words
  temp_c REAL NOT NULL CHECK (temp_c BETWEEN -60 AND 250),  -- temperature, degC
  resistance_ohm REAL NOT NULL CHECK (resistance_ohm > 0),  -- resistance, ohm
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (sensor, temp_c)
) STRICT;
