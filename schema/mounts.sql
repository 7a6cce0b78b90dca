-- What a pack may hold about mounts: kind, bracket and stud of each, what they carry, and what sources say
-- about lifting the engine. Lengths in mm, stiffness in N/mm, mass in kg.
-- Positions by vehicle axes: left and right as seen from the driver's seat facing forward.

-- Mounts, by interchange group. Left is never right, even where they look alike.
CREATE TABLE mounts_mounts (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the mount
  position TEXT NOT NULL CHECK (position IN ('left','right','front','rear','transmission','torque')),  -- where it belongs
  kind TEXT NOT NULL CHECK (kind IN ('solid','hydraulic','switched_vacuum','switched_electric','active','tie_rod')),  -- how it works; switched: hydraulic, by hose or plug
  connection TEXT CHECK (connection IN ('none','hose','plug')),  -- what is connected to it
  hose_mm REAL CHECK (hose_mm > 0),  -- outside diameter of the pipe stub, mm
  pins INTEGER CHECK (pins > 0),  -- pins of the plug
  bracket TEXT CHECK (bracket IN ('integral','included','separate')),  -- integral: one piece; included: in the box; separate: the old one is used again
  bracket_mark TEXT,  -- number cast in the bracket
  stud_thread_mm REAL CHECK (stud_thread_mm > 0),  -- 10 for M10
  stud_length_mm REAL CHECK (stud_length_mm > 0),  -- free length, mm
  locating_pin TEXT CHECK (locating_pin IN ('yes','no')),  -- has it a pin?
  height_mm REAL CHECK (height_mm > 0),  -- free height between faces, mm
  stiffness_n_mm REAL CHECK (stiffness_n_mm > 0),  -- static vertical stiffness, N/mm; seldom published
  damping_ratio REAL CHECK (damping_ratio > 0 AND damping_ratio <= 2),  -- near its natural frequency, no unit
  natural_hz REAL CHECK (natural_hz > 0),  -- of the engine on it, Hz
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What a mount of a line carries, and what shakes it.
CREATE TABLE mounts_loads (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  position TEXT NOT NULL CHECK (position IN ('left','right','front','rear','transmission','torque')),  -- which mount
  carried_kg REAL CHECK (carried_kg > 0),  -- mass on this mount, kg
  cylinders INTEGER NOT NULL CHECK (cylinders BETWEEN 1 AND 16),  -- of the engine
  idle_rpm REAL NOT NULL CHECK (idle_rpm BETWEEN 50 AND 12000),  -- idle in gear, 1/min
  figure_mm REAL CHECK (figure_mm > 0),  -- maker's height at this mount, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What sources say about lifting the engine at a point. Conflicting ones stay side by side.
CREATE TABLE mounts_lifting (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  point TEXT NOT NULL,  -- where: oil pan, lifting eye, crank pulley, gearbox pan
  says TEXT NOT NULL CHECK (says IN ('allowed','forbidden')),  -- what the source says
  words TEXT NOT NULL,  -- how it puts it, shortened
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What is in the way when the engine goes up. Room is the person's to measure; a figure here is a hint.
CREATE TABLE mounts_clearances (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  what TEXT NOT NULL,  -- between what, such as fan to shroud
  room_mm REAL CHECK (room_mm >= 0),  -- usual room, mm; empty: measure it
  release TEXT,  -- what to undo when there is not enough
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Which mounts are changed together.
CREATE TABLE mounts_pairs (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  position TEXT NOT NULL CHECK (position IN ('left','right','front','rear','transmission','torque')),  -- the one that is broken
  with_position TEXT NOT NULL CHECK (with_position IN ('left','right','front','rear','transmission','torque')),  -- the other one
  rule TEXT NOT NULL CHECK (rule IN ('required','recommended','no')),  -- what the source says of the pair
  words TEXT,  -- how it puts it
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (position <> with_position)
) STRICT;

-- Fasteners of a mount, and how they are tightened.
CREATE TABLE mounts_fasteners (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  position TEXT NOT NULL CHECK (position IN ('left','right','front','rear','transmission','torque')),  -- which mount
  fastener TEXT NOT NULL,  -- which one, thread and length
  form TEXT CHECK (form IN ('bolt','nut')),  -- which of the two it is; empty: not stated
  count INTEGER NOT NULL CHECK (count > 0),  -- how many
  tightening TEXT,  -- stages in order: "45 N m" or "40 N m + 60 deg + 30 deg"; never added up
  reuse TEXT NOT NULL CHECK (reuse IN ('never','if_undamaged','by_design')),  -- may the old ones go back?
  settle_first TEXT CHECK (settle_first IN ('yes','no')),  -- loose until the engine has settled in its free position
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Published ranges that belong to no vehicle line. Sources disagree: each keeps its own row.
CREATE TABLE mounts_published (
  origin INTEGER PRIMARY KEY,
  quantity TEXT NOT NULL,  -- what it is, snake_case
  low REAL NOT NULL,  -- lower end, in the unit
  high REAL NOT NULL,  -- upper end, in the unit; equal to low for one figure
  unit TEXT NOT NULL,  -- unit of both ends; "ratio" for a plain number
  words TEXT,  -- what the source says of it, shortened
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low <= high)
) STRICT;
