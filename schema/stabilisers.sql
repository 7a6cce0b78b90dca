-- What a pack may hold about stabiliser links and the bushes of the bar: ends, thread, length and angle of each link,
-- the bar that a bush is for, and how all of it is tightened. Lengths in mm, torques in N m, stresses in MPa.
-- Left and right as seen from the driver's seat facing forward.

-- Links, by interchange group. Front is never rear; left is right only where the row says either.
CREATE TABLE stabilisers_links (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the link
  axle TEXT NOT NULL CHECK (axle IN ('front','rear')),  -- which axle
  side TEXT NOT NULL CHECK (side IN ('left','right','either')),  -- which side; either: the same link left and right
  ends TEXT NOT NULL CHECK (ends IN ('two_studs','stud_and_eye','two_eyes','long_bolt')),  -- what its two ends are; long_bolt: a bolt through rubber washers and a sleeve
  thread_mm REAL CHECK (thread_mm > 0),  -- thread of stud or bolt, 10 for M10
  pitch_mm REAL CHECK (pitch_mm > 0),  -- pitch of that thread, mm
  length_mm REAL CHECK (length_mm > 0),  -- between the centres of both ends, mm
  angle_deg REAL CHECK (angle_deg BETWEEN 0 AND 180),  -- between the two studs, seen along the rod, degrees
  nuts_in_box TEXT CHECK (nuts_in_box IN ('yes','no')),  -- do its nuts come with it?
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Bushes that hold the bar to the body or subframe, by interchange group.
CREATE TABLE stabilisers_bushes (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the bush
  axle TEXT NOT NULL CHECK (axle IN ('front','rear')),  -- which axle
  bar_mm REAL NOT NULL CHECK (bar_mm > 0),  -- diameter of the bar that it is for, mm
  form TEXT CHECK (form IN ('split','closed','bonded')),  -- split: slips over the bar; closed: from its end; bonded: held to the bar by vulcanising or glue
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Fasteners of links and clamps, and how they are tightened. An empty torque is not stated: it is computed from class
-- and thread, and said to be.
CREATE TABLE stabilisers_joints (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  axle TEXT NOT NULL CHECK (axle IN ('front','rear')),  -- which axle
  place TEXT NOT NULL CHECK (place IN ('link_to_bar','link_to_wheel','clamp')),  -- which joint; link_to_wheel: at strut, arm or axle
  fastener TEXT NOT NULL,  -- which one, thread and length
  count INTEGER NOT NULL CHECK (count > 0),  -- how many, a side
  thread_mm REAL CHECK (thread_mm > 0),  -- 10 for M10
  pitch_mm REAL CHECK (pitch_mm > 0),  -- mm
  property_class TEXT,  -- of the bolt or stud, as marked: 8.8
  torque_nm REAL CHECK (torque_nm > 0),  -- the maker's, N m; empty: not stated
  angle_deg REAL CHECK (angle_deg > 0),  -- to turn on after the torque, degrees; never added up
  reuse TEXT NOT NULL CHECK (reuse IN ('never','if_undamaged','by_design')),  -- may the old ones go back?
  at_ride_height TEXT CHECK (at_ride_height IN ('yes','no')),  -- last turn only with the weight on the wheels, because a rubber twists
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What is changed left and right together.
CREATE TABLE stabilisers_both_sides (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  axle TEXT NOT NULL CHECK (axle IN ('front','rear')),  -- which axle
  rule TEXT NOT NULL CHECK (rule IN ('required','recommended','no')),  -- what the source says of the pair of links
  words TEXT,  -- how it puts it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Stress under proof load of bolts, screws and studs of carbon and alloy steel, by property class and thread.
CREATE TABLE stabilisers_classes (
  origin INTEGER PRIMARY KEY,
  property_class TEXT NOT NULL,  -- as marked on the head: 8.8
  over_mm REAL NOT NULL CHECK (over_mm >= 0),  -- threads larger than this, mm
  up_to_mm REAL NOT NULL,  -- and no larger than this, mm
  proof_mpa REAL NOT NULL CHECK (proof_mpa > 0),  -- stress that leaves no lasting stretch, MPa
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (over_mm < up_to_mm)
) STRICT;

-- Nominal stress areas of metric threads, as printed.
CREATE TABLE stabilisers_threads (
  origin INTEGER PRIMARY KEY,
  thread_mm REAL NOT NULL CHECK (thread_mm > 0),  -- 10 for M10
  pitch_mm REAL NOT NULL CHECK (pitch_mm > 0),  -- mm
  stress_area_mm2 REAL NOT NULL CHECK (stress_area_mm2 > 0),  -- mm2
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Nut factor K of T = K F d: what part of the torque is lost in friction.
CREATE TABLE stabilisers_friction (
  origin INTEGER PRIMARY KEY,
  state TEXT NOT NULL UNIQUE CHECK (state IN ('as_received','lubricated','dry')),  -- of thread and face
  nut_factor REAL NOT NULL CHECK (nut_factor BETWEEN 0.05 AND 0.6),  -- K, no unit
  words TEXT,  -- what it is like
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;
