-- What a pack of the chain test may say in its domain's name. Invented throughout.

-- Where a group is ruled out, or must be looked at first.
CREATE TABLE bench_rig_objections (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL REFERENCES groups (group_key),  -- the group
  condition TEXT,  -- where; empty: everywhere
  at_most TEXT NOT NULL CHECK (at_most IN ('does_not_fit','check_first')),  -- the best verdict there
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Substitutions that the domain forbids, or allows only after a look.
CREATE TABLE bench_rig_opinions (
  origin INTEGER PRIMARY KEY,
  offered TEXT NOT NULL REFERENCES groups (group_key),  -- the group one has
  wanted TEXT NOT NULL REFERENCES groups (group_key),  -- the group called for
  says TEXT NOT NULL CHECK (says IN ('veto','ask')),  -- veto: never; ask: only after a look
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- What is heard that holds orders back.
CREATE TABLE bench_rig_holds (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  role TEXT,  -- the role held; empty: all of the job
  noise TEXT NOT NULL,  -- what is heard
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Groups of which the old part never goes back.
CREATE TABLE bench_rig_single_use (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the group
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Places that need a new part when one of the group goes in.
CREATE TABLE bench_rig_companions (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL REFERENCES groups (group_key),  -- the group
  role TEXT NOT NULL,  -- the place beside it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;
