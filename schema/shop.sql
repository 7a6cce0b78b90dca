-- The person's own vehicles and what was told about them: precious, cannot be rebuilt from packs.
-- Each section below, from its "-- version N" line on, is applied once and in order; user_version remembers
-- the last. A section that has been released is never edited: a change is a new section at the end.
-- Every table that refers to a vehicle says ON DELETE CASCADE; all but `papers`, `tellings` and `out_of_reach` count as
-- records that keep a vehicle from being forgotten by mistake. Dates are ISO 8601, YYYY-MM-DD.

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

-- version 2
-- Offers, own shelf, job records, money and closings. Every row is only ever added; a later one corrects.
-- Money is whole cents of the currency in `settings`.

-- Who sells; the newest row of a name counts.
CREATE TABLE sellers (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK (name <> ''),  -- as the person calls them
  carriage_cents INTEGER NOT NULL CHECK (carriage_cents >= 0),  -- per order
  free_from_cents INTEGER CHECK (free_from_cents >= 0),  -- goods from which carriage is free; NULL: never
  minimum_cents INTEGER NOT NULL CHECK (minimum_cents >= 0),  -- least goods in an order
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was entered
) STRICT;
CREATE INDEX sellers_by_name ON sellers (name, id);

-- What a seller asks for an item; the newest row of a seller and item counts.
CREATE TABLE offers (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  seller TEXT NOT NULL CHECK (seller <> ''),  -- name of the seller
  item TEXT NOT NULL CHECK (item <> ''),  -- key of the item, of a pack that may not be loaded today
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),  -- 1: no longer offered
  pack_quantity REAL NOT NULL CHECK (pack_quantity > 0),  -- items in one pack
  price_cents INTEGER NOT NULL CHECK (price_cents >= 0),  -- of one pack
  available INTEGER CHECK (available >= 0),  -- packs; NULL: not limited
  days INTEGER NOT NULL CHECK (days >= 0),  -- until it is here
  returnable INTEGER NOT NULL CHECK (returnable IN (0, 1)),
  return_fee REAL NOT NULL CHECK (return_fee BETWEEN 0 AND 1),  -- share of the price that is kept
  return_days INTEGER CHECK (return_days > 0),  -- days in which it may go back; NULL: not said
  core_cents INTEGER NOT NULL CHECK (core_cents >= 0),  -- charged with each pack, paid back for the old part
  core_days INTEGER CHECK (core_days > 0),  -- days in which the old part must be back; NULL: not said
  note TEXT,
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was entered
) STRICT;
CREATE INDEX offers_by_item ON offers (seller, item, id);

-- What came on the own shelf and what was taken from it; the sum of an item is what is there.
CREATE TABLE shelf_entries (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  item TEXT NOT NULL CHECK (item <> ''),  -- key of the item
  quantity REAL NOT NULL CHECK (quantity <> 0),  -- of the item, in the kind's unit; negative: taken
  why TEXT NOT NULL CHECK (why <> ''),  -- left over, bought, taken, counted
  note TEXT,  -- from which vehicle, where it lies
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was entered
) STRICT;
CREATE INDEX shelf_entries_by_item ON shelf_entries (item, id);

-- What happened to a line of a started job.
CREATE TABLE line_events (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  job INTEGER REFERENCES jobs_started (id) ON DELETE CASCADE,  -- the started job; NULL: none
  role TEXT NOT NULL CHECK (role <> ''),  -- key of the role
  event TEXT NOT NULL CHECK (event IN ('ordered','received','matched','mismatched','fitted','left_over','returned','core_returned')),
  item TEXT,  -- key of the item
  quantity REAL CHECK (quantity > 0),  -- in the kind's unit
  seller TEXT,
  return_by TEXT CHECK (date(return_by) IS return_by),  -- last day it may go back; NULL: not said
  core_by TEXT CHECK (date(core_by) IS core_by),  -- last day for the old part; NULL: no core
  core_cents INTEGER CHECK (core_cents >= 0),  -- what the old part brings back
  note TEXT,  -- for matched: what was compared
  date TEXT NOT NULL CHECK (date(date) IS date),  -- day it happened
  entered TEXT NOT NULL CHECK (date(entered) IS entered),  -- day it was entered
  corrects INTEGER UNIQUE REFERENCES line_events (id) CHECK (corrects < id)  -- the row this one replaces
) STRICT;
CREATE INDEX line_events_by_vehicle ON line_events (vehicle, id);

-- What was done, seen and proved on a vehicle.
CREATE TABLE records (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  job INTEGER REFERENCES jobs_started (id) ON DELETE CASCADE,  -- the started job; NULL: none
  what TEXT NOT NULL CHECK (what IN ('fitted','looked_at','proof','odometer','for_sale','sold')),  -- looked_at: and not replaced
  role TEXT,  -- key of the role
  item TEXT,  -- key of the item, or what was fitted in words
  made TEXT CHECK (made IN ('new','remanufactured','used','own_stock')),  -- what kind of part it was
  label TEXT,  -- text on its label
  quantity REAL CHECK (quantity > 0),  -- in the kind's unit
  torque_nm REAL CHECK (torque_nm > 0),
  seals_out INTEGER CHECK (seals_out >= 0),  -- how many came out
  seals_in INTEGER CHECK (seals_in >= 0),
  out_l REAL CHECK (out_l >= 0),  -- fluid drained
  out_temp_c REAL,
  in_l REAL CHECK (in_l >= 0),  -- fluid filled
  in_temp_c REAL,
  gears TEXT,  -- proof: gears obtained
  codes TEXT,  -- proof: codes after the drives; "none"
  drives INTEGER CHECK (drives >= 0),  -- drives after which that was read
  leaks TEXT,  -- proof: what the leak check showed
  odometer_km REAL CHECK (odometer_km >= 0),
  photo TEXT,  -- file name of a photo that shows it
  note TEXT,
  date TEXT NOT NULL CHECK (date(date) IS date),  -- day it was done
  entered TEXT NOT NULL CHECK (date(entered) IS entered),  -- day it was entered
  corrects INTEGER UNIQUE REFERENCES records (id) CHECK (corrects < id)  -- the row this one replaces
) STRICT;
CREATE INDEX records_by_vehicle ON records (vehicle, id);

-- Money that went into a vehicle or came from it.
CREATE TABLE money (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  job INTEGER REFERENCES jobs_started (id) ON DELETE CASCADE,  -- the started job; NULL: none
  kind TEXT NOT NULL CHECK (kind IN ('purchase','transport','diagnosis','parts','fluid','hire','refund','sale','other')),
  cents INTEGER NOT NULL CHECK (cents >= 0),  -- refund and sale come in, all others go out
  note TEXT,
  date TEXT NOT NULL CHECK (date(date) IS date),  -- day it was paid
  entered TEXT NOT NULL CHECK (date(entered) IS entered),  -- day it was entered
  corrects INTEGER UNIQUE REFERENCES money (id) CHECK (corrects < id)  -- the row this one replaces
) STRICT;
CREATE INDEX money_by_vehicle ON money (vehicle, id);

-- How a started job ended; the newest row of a job counts.
CREATE TABLE closings (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES jobs_started (id) ON DELETE CASCADE,  -- the started job
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  cause TEXT NOT NULL CHECK (cause <> ''),  -- what was wrong, in words; "not found"
  worked TEXT NOT NULL CHECK (worked IN ('yes','no','not_known')),  -- did the job cure it?
  hours REAL NOT NULL CHECK (hours >= 0),  -- own hours
  cost_cents INTEGER NOT NULL CHECK (cost_cents >= 0),  -- money, without own hours
  note TEXT,
  date TEXT NOT NULL CHECK (date(date) IS date),  -- day it ended
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was entered
) STRICT;
CREATE INDEX closings_by_job ON closings (job, id);

CREATE TRIGGER sellers_are_kept BEFORE UPDATE ON sellers BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;
CREATE TRIGGER offers_are_kept BEFORE UPDATE ON offers BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;
CREATE TRIGGER shelf_entries_are_kept BEFORE UPDATE ON shelf_entries BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;
CREATE TRIGGER line_events_are_kept BEFORE UPDATE ON line_events BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;
CREATE TRIGGER records_are_kept BEFORE UPDATE ON records BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;
CREATE TRIGGER money_is_kept BEFORE UPDATE ON money BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;
CREATE TRIGGER closings_are_kept BEFORE UPDATE ON closings BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;

-- version 3
-- The leak check of a proof in figures, and the state of what was looked at.
ALTER TABLE records ADD COLUMN leak_minutes REAL CHECK (leak_minutes >= 0);  -- proof: minutes from wiping it dry to the leak check; NULL: not said
ALTER TABLE records ADD COLUMN state TEXT CHECK (state IN ('sound','worn','damaged','leaking'));  -- looked_at: how it was; NULL: not said
ALTER TABLE offers ADD COLUMN return_carriage_cents INTEGER NOT NULL DEFAULT 0 CHECK (return_carriage_cents >= 0);  -- what sending one pack back costs

-- version 4
-- Of an offer, what was not said is not known. Version 3 wrote 0 for "at once" and for "days not said", and 0 for
-- "cannot go back" and for "not said"; nothing in such a row tells them apart, so a 0 becomes "not said".
CREATE TABLE offers_4 (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  seller TEXT NOT NULL CHECK (seller <> ''),  -- name of the seller
  item TEXT NOT NULL CHECK (item <> ''),  -- key of the item, of a pack that may not be loaded today
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),  -- 1: no longer offered
  pack_quantity REAL NOT NULL CHECK (pack_quantity > 0),  -- items in one pack
  price_cents INTEGER NOT NULL CHECK (price_cents >= 0),  -- of one pack
  available INTEGER CHECK (available >= 0),  -- packs; NULL: not limited
  days INTEGER CHECK (days >= 0),  -- until it is here; 0: at once; NULL: not said
  returnable INTEGER CHECK (returnable IN (0, 1)),  -- NULL: not said
  return_fee REAL NOT NULL CHECK (return_fee BETWEEN 0 AND 1),  -- share of the price that is kept
  return_carriage_cents INTEGER NOT NULL CHECK (return_carriage_cents >= 0),  -- what sending one pack back costs
  return_days INTEGER CHECK (return_days > 0),  -- days in which it may go back; NULL: not said
  core_cents INTEGER NOT NULL CHECK (core_cents >= 0),  -- charged with each pack, paid back for the old part
  core_days INTEGER CHECK (core_days > 0),  -- days in which the old part must be back; NULL: not said
  note TEXT,
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was entered
) STRICT;
INSERT INTO offers_4
  SELECT id, seller, item, withdrawn, pack_quantity, price_cents, available, nullif(days, 0), nullif(returnable, 0), return_fee,
         return_carriage_cents, return_days, core_cents, core_days, note, entered FROM offers ORDER BY id;
DROP TABLE offers;
ALTER TABLE offers_4 RENAME TO offers;
CREATE INDEX offers_by_item ON offers (seller, item, id);
CREATE TRIGGER offers_are_kept BEFORE UPDATE ON offers BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;

-- version 5
-- What is typed without saying how it is known is said, not measured. An answer may be that nobody can get at it. An
-- order may rest on something accepted and not measured. An opened pack has the day it was opened.
CREATE TABLE tellings_5 (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  attribute TEXT NOT NULL CHECK (attribute <> ''),  -- key of the attribute, of a domain or pack that may not be loaded today
  text TEXT,  -- the value as typed; NULL: withdrawn
  right_side TEXT,  -- the value as the right side of a condition: "38mm", "a|b", "11..16"; NULL: withdrawn
  evidence TEXT CHECK (evidence IN ('measured','read','said','seller_said','assumed')),  -- how it is known; NULL: withdrawn
  date TEXT NOT NULL CHECK (date(date) IS date),  -- day it was found out
  entered TEXT NOT NULL CHECK (date(entered) IS entered),  -- day it was entered
  photo TEXT,  -- file name of a photo that shows it
  note TEXT,  -- where on the vehicle, by whom
  corrects INTEGER UNIQUE REFERENCES tellings_5 (id) CHECK (corrects < id),  -- the row this one takes back
  CHECK ((text IS NULL) = (right_side IS NULL) AND (text IS NULL) = (evidence IS NULL))
) STRICT;
INSERT INTO tellings_5 SELECT id, vehicle, attribute, text, right_side, evidence, date, entered, photo, note, corrects FROM tellings ORDER BY id;
DROP TABLE tellings;
ALTER TABLE tellings_5 RENAME TO tellings;
CREATE INDEX tellings_by_attribute ON tellings (vehicle, attribute, id);
CREATE TRIGGER tellings_are_kept BEFORE UPDATE ON tellings
BEGIN SELECT RAISE(ABORT, 'what was told is never overwritten: add a correction'); END;

-- What nobody could get at, so that it is not asked again; a later telling of the attribute counts more.
CREATE TABLE out_of_reach (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  attribute TEXT NOT NULL CHECK (attribute <> ''),  -- key of the attribute
  after_telling INTEGER NOT NULL CHECK (after_telling >= 0),  -- newest row of `tellings` then; 0: none
  reached INTEGER NOT NULL CHECK (reached IN (0, 1)),  -- 1: taken back, it can be got at
  note TEXT,  -- what is in the way
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was entered
) STRICT;
CREATE INDEX out_of_reach_by_vehicle ON out_of_reach (vehicle, id);
CREATE TRIGGER out_of_reach_is_kept BEFORE UPDATE ON out_of_reach BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;

-- What an order took for true although it is in doubt; it is repeated until the attribute is measured or read.
CREATE TABLE accepted (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER NOT NULL REFERENCES vehicles (id) ON DELETE CASCADE,
  job INTEGER NOT NULL REFERENCES jobs_started (id) ON DELETE CASCADE,  -- the job that the order is for
  attribute TEXT NOT NULL CHECK (attribute <> ''),  -- key of the attribute that is in doubt
  text TEXT NOT NULL CHECK (text <> ''),  -- the value taken for true, as typed
  doubt TEXT NOT NULL CHECK (doubt <> ''),  -- why it is in doubt, in words
  after_telling INTEGER NOT NULL CHECK (after_telling >= 0),  -- newest row of `tellings` then; 0: none
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was accepted
) STRICT;
CREATE INDEX accepted_by_vehicle ON accepted (vehicle, id);
CREATE TRIGGER accepted_is_kept BEFORE UPDATE ON accepted BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;

ALTER TABLE shelf_entries ADD COLUMN opened TEXT CHECK (date(opened) IS opened);  -- day a pack of it was opened; NULL: not said

-- version 6
-- Photos. Each lies beside the shop file, in the folder of its name and ".photos", under its hash; a row is written when
-- its file is there, and a file that no row names any more is swept away. A photo that was taken back keeps its row.
CREATE TABLE photos (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  vehicle INTEGER REFERENCES vehicles (id) ON DELETE CASCADE,  -- NULL: it was forgotten, and a statement of its line stayed
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),  -- of the file
  bytes INTEGER NOT NULL CHECK (bytes > 0),  -- of the file
  type TEXT NOT NULL CHECK (type IN ('jpeg','png','webp')),  -- by its content
  width INTEGER NOT NULL CHECK (width > 0),  -- in pixels, as it is shown
  height INTEGER NOT NULL CHECK (height > 0),  -- in pixels, as it is shown
  taken TEXT CHECK (date(taken) IS taken),  -- day it was taken, by the clock of the camera; NULL: not said
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was kept
) STRICT;
CREATE INDEX photos_by_vehicle ON photos (vehicle, id);
CREATE INDEX photos_by_file ON photos (sha256);

-- What a photo shows: one thing told, recorded or stated. A photo may show several.
CREATE TABLE photo_shows (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  photo INTEGER NOT NULL REFERENCES photos (id) ON DELETE CASCADE,
  telling INTEGER REFERENCES tellings (id) ON DELETE CASCADE,
  event INTEGER REFERENCES line_events (id) ON DELETE CASCADE,
  record INTEGER REFERENCES records (id) ON DELETE CASCADE,
  money INTEGER REFERENCES money (id) ON DELETE CASCADE,
  statement TEXT CHECK (statement <> ''),  -- key of its source in a pack of the person's own
  CHECK ((telling IS NOT NULL) + (event IS NOT NULL) + (record IS NOT NULL) + (money IS NOT NULL) + (statement IS NOT NULL) = 1)
) STRICT;
CREATE INDEX photo_shows_by_photo ON photo_shows (photo);
CREATE INDEX photo_shows_by_telling ON photo_shows (telling) WHERE telling IS NOT NULL;
CREATE INDEX photo_shows_by_statement ON photo_shows (statement) WHERE statement IS NOT NULL;

-- Its file goes as soon as no other photo has the same one.
CREATE TABLE photos_taken_back (
  photo INTEGER PRIMARY KEY REFERENCES photos (id) ON DELETE CASCADE,
  note TEXT,  -- why
  entered TEXT NOT NULL CHECK (date(entered) IS entered)  -- day it was taken back
) STRICT;
CREATE TRIGGER photos_are_kept BEFORE UPDATE OF id, sha256, bytes, type, width, height, taken, entered ON photos
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: take it back and add another'); END;
CREATE TRIGGER photo_shows_is_kept BEFORE UPDATE ON photo_shows BEGIN SELECT RAISE(ABORT, 'nothing is overwritten: add a row'); END;
CREATE TRIGGER photos_taken_back_is_kept BEFORE UPDATE ON photos_taken_back BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
