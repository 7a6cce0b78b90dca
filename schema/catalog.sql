-- How the catalog stores what packs hold, so that an answer costs the same at ten thousand rows and at
-- ten million. Applied after core.sql: it replaces the four large tables by interned, clustered ones and
-- gives them back as views of the same names and columns. Derived data: it can be rebuilt from the packs.

DROP TABLE applications;
DROP TABLE group_members;
DROP TABLE groups;
DROP TABLE items;

-- Packs that are loaded.
CREATE TABLE pack (
  id INTEGER PRIMARY KEY,        -- upper 32 bits of every origin
  name TEXT NOT NULL UNIQUE,     -- from the descriptor
  title TEXT NOT NULL,           -- from the descriptor
  version TEXT NOT NULL,         -- from the descriptor
  invented INTEGER NOT NULL,     -- 1: every output that uses it is labelled invented demo data
  digest TEXT NOT NULL,          -- sha256 over the files' sha256, to make a second load a no-op
  folder TEXT NOT NULL           -- where it was read from
) STRICT;

-- Every key and condition text once.
CREATE TABLE name (
  id INTEGER PRIMARY KEY,
  text TEXT NOT NULL UNIQUE
) STRICT;

-- A part number is found however it is typed: core/verdict/part_number.h.
CREATE INDEX name_as_compared ON name (upper(replace(replace(replace(replace(replace(text, ' ', ''), '.', ''), '-', ''), '/', ''), '_', '')));

CREATE TABLE item (
  id INTEGER PRIMARY KEY REFERENCES name (id),
  kind INTEGER NOT NULL REFERENCES name (id),
  title TEXT NOT NULL,
  pack_quantity REAL NOT NULL,
  withdrawn TEXT,
  source INTEGER NOT NULL REFERENCES name (id),
  origin INTEGER NOT NULL
) STRICT;

CREATE TABLE item_group (
  id INTEGER PRIMARY KEY REFERENCES name (id),
  kind INTEGER NOT NULL REFERENCES name (id),
  title TEXT NOT NULL,
  source INTEGER NOT NULL REFERENCES name (id),
  origin INTEGER NOT NULL
) STRICT;

CREATE TABLE member (
  id INTEGER PRIMARY KEY,        -- group << 20 | ordinal: clustered by group
  item INTEGER NOT NULL REFERENCES item (id),
  basis INTEGER NOT NULL,        -- 0 same, 1 approved, 2 meets, 3 claimed
  source INTEGER NOT NULL REFERENCES name (id),
  origin INTEGER NOT NULL
) STRICT;
CREATE INDEX member_by_item ON member (item);

CREATE TABLE application (
  id INTEGER PRIMARY KEY,        -- line << 20 | ordinal: clustered by vehicle line
  role INTEGER NOT NULL REFERENCES name (id),
  says INTEGER NOT NULL,         -- 0 fits, 1 does not fit, 2 none needed
  item_group INTEGER REFERENCES item_group (id),
  condition INTEGER REFERENCES name (id),
  quantity REAL,
  source INTEGER NOT NULL REFERENCES name (id),
  origin INTEGER NOT NULL,
  note TEXT,
  withdrawn TEXT
) STRICT;

-- What the loaded domains said of themselves when the last pack was loaded, so that a domain that is
-- missing today is named and its roles are still known.
CREATE TABLE known_role (
  role TEXT PRIMARY KEY,
  title TEXT NOT NULL,
  item_kind TEXT NOT NULL,
  exact_only INTEGER NOT NULL,
  domain TEXT NOT NULL
) STRICT;
CREATE TABLE known_item_kind (
  kind TEXT PRIMARY KEY,
  title TEXT NOT NULL,
  unit TEXT NOT NULL,
  domain TEXT NOT NULL
) STRICT;
CREATE TABLE known_attribute (
  attribute TEXT PRIMARY KEY,
  title TEXT NOT NULL,
  kind TEXT NOT NULL,
  unit TEXT NOT NULL,
  tolerance REAL NOT NULL,
  how TEXT NOT NULL,
  minutes REAL NOT NULL,
  raised INTEGER NOT NULL,
  dismantling INTEGER NOT NULL,
  finding INTEGER NOT NULL,
  choices TEXT NOT NULL,         -- separated by |, empty when open
  least REAL NOT NULL,           -- what a told number can be; outside it is refused
  most REAL NOT NULL,
  usual_least REAL NOT NULL,     -- outside it is taken, and said
  usual_most REAL NOT NULL,
  whole INTEGER NOT NULL,        -- a count
  words TEXT NOT NULL,           -- taken in place of a number; separated by |
  several INTEGER NOT NULL,      -- several choices may be told side by side
  alone TEXT NOT NULL,           -- of several: the one that says there is none
  domain TEXT NOT NULL           -- a domain; `core`; or `pack <name>`
) STRICT;

CREATE INDEX configurations_by_line ON configurations (line);
CREATE INDEX stand_ins_by_wanted ON stand_ins (wanted);
CREATE INDEX stand_ins_by_offered ON stand_ins (offered);
CREATE INDEX kit_contents_by_group ON kit_contents (group_key);
CREATE INDEX job_roles_by_job ON job_roles (job);
CREATE INDEX stays_behind_by_role ON stays_behind (role);
CREATE INDEX cautions_by_job ON cautions (job);

-- Both halves of the joins on id >> 20 are written out: the one finds the row's key, the other a key's rows.
CREATE VIEW items AS
  SELECT i.origin, n.text AS item, k.text AS kind, i.title, i.pack_quantity, i.withdrawn, s.text AS source
  FROM item i JOIN name n ON n.id = i.id JOIN name k ON k.id = i.kind JOIN name s ON s.id = i.source;
CREATE VIEW groups AS
  SELECT g.origin, n.text AS group_key, k.text AS kind, g.title, s.text AS source
  FROM item_group g JOIN name n ON n.id = g.id JOIN name k ON k.id = g.kind JOIN name s ON s.id = g.source;
CREATE VIEW group_members AS
  SELECT m.origin, g.text AS group_key, i.text AS item,
         CASE m.basis WHEN 0 THEN 'same' WHEN 1 THEN 'approved' WHEN 2 THEN 'meets' ELSE 'claimed' END AS basis,
         s.text AS source
  FROM member m JOIN name g ON g.id = m.id >> 20 AND m.id BETWEEN g.id << 20 AND (g.id << 20) + 1048575 JOIN name i ON i.id = m.item JOIN name s ON s.id = m.source;
CREATE VIEW applications AS
  SELECT a.origin, l.text AS line, r.text AS role,
         CASE a.says WHEN 0 THEN 'fits' WHEN 1 THEN 'does_not_fit' ELSE 'none_needed' END AS says,
         g.text AS group_key, c.text AS condition, a.quantity, a.note, a.withdrawn, s.text AS source
  FROM application a JOIN name l ON l.id = a.id >> 20 AND a.id BETWEEN l.id << 20 AND (l.id << 20) + 1048575 JOIN name r ON r.id = a.role
       LEFT JOIN name g ON g.id = a.item_group LEFT JOIN name c ON c.id = a.condition
       JOIN name s ON s.id = a.source;
