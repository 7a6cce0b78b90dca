-- What a pack may hold about door seals: the bulb of each. Lengths in mm.

-- Door seals, by interchange group.
CREATE TABLE door_seals_bulbs (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the seal
  bulb_mm REAL NOT NULL CHECK (bulb_mm BETWEEN 1 AND 60),  -- height of the free bulb, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;
