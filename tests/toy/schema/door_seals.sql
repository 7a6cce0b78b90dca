-- What a pack may hold about door seals: the bulb of each. Lengths in mm.

-- Door seals, by interchange group.
CREATE TABLE door_seals_bulbs (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the seal
  bulb_mm REAL NOT NULL CHECK (bulb_mm BETWEEN 1 AND 60),  -- height of the free bulb, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Door frames of a line: the gap as it should be, and what the bench should know of the frame.
CREATE TABLE door_seals_frames (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  gap_mm REAL CHECK (gap_mm BETWEEN 0 AND 60),  -- gap between door and frame, mm
  advice TEXT,  -- what to do at this frame before the seal goes on
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;
