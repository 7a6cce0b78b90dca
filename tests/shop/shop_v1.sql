-- A shop file of version 1 as it was first written, with rows: frozen. Read by shop_upgrade_test.cpp.

-- version 1

-- Vehicles on the yard.
CREATE TABLE vehicles (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(name) BETWEEN 1 AND 64),  -- key: letters, digits, . _ -
  line TEXT NOT NULL CHECK (line <> ''),  -- key of the vehicle line, of a pack that may not be loaded today
  created TEXT NOT NULL CHECK (date(created) IS created)  -- day it was entered
) STRICT;

-- What the papers say of a vehicle; the newest row counts, older ones are kept.
CREATE TABLE papers (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  market TEXT,  -- market it was made for; NULL: not told
  vin TEXT,  -- vehicle identification number, upper case without spaces; NULL: not told
  date TEXT NOT NULL CHECK (date(date) IS date)  -- day it was entered
) STRICT;
CREATE INDEX papers_by_vehicle ON papers (vehicle, id);

-- What was told about a vehicle, only ever added to. The newest row of an attribute counts, unless it is a
-- withdrawal or a later row corrects it.
CREATE TABLE tellings (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  attribute TEXT NOT NULL CHECK (attribute <> ''),  -- key of the attribute, of a domain or pack that may not be loaded today
  text TEXT,  -- the value as typed; NULL: withdrawn
  right_side TEXT,  -- the value as the right side of a condition: "38mm", "a|b", "11..16"; NULL: withdrawn
  evidence TEXT CHECK (evidence IN ('measured','read','seller_said','assumed')),  -- how it is known; NULL: withdrawn
  date TEXT NOT NULL CHECK (date(date) IS date),  -- day it was found out
  entered TEXT NOT NULL CHECK (date(entered) IS entered),  -- day it was entered
  photo TEXT,  -- file name of a photo that shows it
  note TEXT,  -- where on the vehicle, by whom
  corrects INTEGER UNIQUE REFERENCES tellings (id) CHECK (corrects < id),  -- the row this one takes back
  CHECK ((text IS NULL) = (right_side IS NULL) AND (text IS NULL) = (evidence IS NULL))
) STRICT;
CREATE INDEX tellings_by_attribute ON tellings (vehicle, attribute, id);
CREATE TRIGGER tellings_are_kept BEFORE UPDATE ON tellings
BEGIN SELECT RAISE(ABORT, 'what was told is never overwritten: add a correction'); END;

-- Jobs started on a vehicle.
CREATE TABLE jobs_started (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  job TEXT NOT NULL CHECK (job <> ''),  -- key of the job
  started TEXT NOT NULL CHECK (date(started) IS started),  -- day the work began
  note TEXT  -- what it is about
) STRICT;
CREATE INDEX jobs_started_by_vehicle ON jobs_started (vehicle, id);

-- The shop's own settings and limits; the keys are listed in core/shop/shop_settings.cpp.
CREATE TABLE settings (
  key TEXT PRIMARY KEY,
  value TEXT NOT NULL,  -- as typed
  changed TEXT NOT NULL CHECK (date(changed) IS changed)  -- day it was set
) STRICT;


INSERT INTO vehicles VALUES (1, 'bookvan', 'quernmoor-packet', '2026-01-03');
INSERT INTO vehicles VALUES (2, 'Tender.2', 'skarn-tender', '2026-02-11');
INSERT INTO papers VALUES (1, 1, NULL, NULL, '2026-01-03');
INSERT INTO papers VALUES (2, 1, 'elsewhere', NULL, '2026-01-05');
INSERT INTO papers VALUES (3, 2, 'north-america', '11111111111111111', '2026-02-11');
INSERT INTO tellings VALUES (1, 1, 'pan_depth', '1.5 in', '1.5in', 'measured', '2026-01-04', '2026-01-05', 'pan.jpg', 'left rear corner, "by hand"', NULL);
INSERT INTO tellings VALUES (2, 1, 'pan_depth', '41mm', '41mm', 'measured', '2026-01-06', '2026-01-06', NULL, NULL, 1);
INSERT INTO tellings VALUES (3, 1, 'engine', '2.6', '2.6', 'seller_said', '2026-01-03', '2026-01-03', NULL, NULL, NULL);
INSERT INTO tellings VALUES (4, 1, 'engine', NULL, NULL, NULL, '2026-01-07', '2026-01-07', NULL, 'he does not know either', 3);
INSERT INTO tellings VALUES (5, 2, 'codes', 'P0753+P0758', 'P0753+P0758', 'read', '2026-02-11', '2026-02-11', NULL, NULL, NULL);
INSERT INTO jobs_started VALUES (1, 1, 'pan-service', '2026-01-08', 'as bought');
INSERT INTO jobs_started VALUES (2, 2, 'shift-solenoid-b', '2026-02-12', NULL);
INSERT INTO settings VALUES ('currency', 'cu', '2026-01-02');
INSERT INTO settings VALUES ('hour_value', '30', '2026-01-02');
