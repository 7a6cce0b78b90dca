-- What a pack may hold about new domain: the length of each part, and the space that vehicles have for it. Lengths in mm.

-- Parts, by interchange group.
CREATE TABLE new_domain_parts (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the part
  length_mm REAL NOT NULL CHECK (length_mm BETWEEN 1 AND 3000),  -- over all, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Places of a line: the space as it should be, and what the bench should know.
CREATE TABLE new_domain_places (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  space_mm REAL CHECK (space_mm BETWEEN 1 AND 3000),  -- between the two brackets, mm
  advice TEXT,  -- what to do there before the part goes in
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;
