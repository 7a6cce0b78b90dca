-- What a pack may hold, shared by every domain. Each table is one CSV file of a pack, its columns the
-- header, in this order; the file's descriptor is derived from this text, never written by hand.
-- The comment above a table says what a row is; the comment on a column gives its meaning and unit.
-- Every cell is text in the file; an empty cell is "not stated". `origin` is not in the file: core fills
-- it with pack number << 32 | line in the file, so that every row can be opened by a person.
-- Keys: letters, digits, and . _ + / - ; no spaces. Conditions: the language of DEVELOPERS.md.

-- Where facts come from.
CREATE TABLE sources (
  origin INTEGER PRIMARY KEY,
  source TEXT NOT NULL UNIQUE,  -- key
  kind TEXT NOT NULL CHECK (kind IN ('law','standard','maker','measured','common_practice','memory','invented')),  -- evidence kind, strongest first: law, standard, maker's text, measured here, common practice, from memory, invented
  title TEXT NOT NULL,  -- the work, its edition and clause; "common practice, no source" where nothing is published
  edition TEXT,  -- year or edition of the work
  note TEXT  -- anything a reader needs to find the place again
) STRICT;

-- Attributes of this pack's own, beside those that core and the domains bring.
CREATE TABLE attributes (
  origin INTEGER PRIMARY KEY,
  attribute TEXT NOT NULL UNIQUE,  -- key, snake_case
  title TEXT NOT NULL,  -- what it is, in words
  kind TEXT NOT NULL CHECK (kind IN ('choice','yes_no','number','year','month','size')),  -- what a value looks like; month is YYYY-MM, a size 25x32x7
  unit TEXT,  -- unit of a number: mm, L, ohm, degC; empty for other kinds
  tolerance REAL CHECK (tolerance >= 0),  -- a measured number agrees with a recorded one within this, in the unit
  how TEXT NOT NULL,  -- how to find it out on the vehicle, imperative, one line
  minutes REAL NOT NULL CHECK (minutes > 0),  -- effort, minutes
  raised TEXT NOT NULL CHECK (raised IN ('yes','no')),  -- must the vehicle be raised?
  dismantling TEXT NOT NULL CHECK (dismantling IN ('yes','no')),  -- must something come off?
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Vehicle lines: what its maker sold under one name.
CREATE TABLE lines (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL UNIQUE,  -- key
  title TEXT NOT NULL,  -- maker and model as said aloud
  note TEXT,  -- what distinguishes it
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Configurations of a line that were built. A row with ranges or alternatives stands for every
-- combination of them; every row of a line gives the same attributes a value (`none` where it has none).
CREATE TABLE configurations (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  attribute_values TEXT NOT NULL,  -- attribute=value; attribute=a|b; year=2003..2006
  share REAL CHECK (share > 0),  -- relative number built, shared evenly by the row's combinations; 1 when empty
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Things that can be bought: a part, a fluid in a pack, a kit.
CREATE TABLE items (
  origin INTEGER PRIMARY KEY,
  item TEXT NOT NULL UNIQUE,  -- key: the part number as printed, text
  kind TEXT NOT NULL,  -- item kind of a domain, or `kit`
  title TEXT NOT NULL,  -- as on the label
  pack_quantity REAL NOT NULL CHECK (pack_quantity > 0),  -- how much one pack holds, in the kind's unit
  withdrawn TEXT,  -- why it is no longer to be used; empty while it is
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Interchange groups: items that are the same in form, fit and function.
CREATE TABLE groups (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE,  -- key; for a fluid, the spec
  kind TEXT NOT NULL,  -- item kind of its members
  title TEXT NOT NULL,  -- what the members are, in words
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Members of interchange groups.
CREATE TABLE group_members (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL REFERENCES groups (group_key),  -- the group
  item TEXT NOT NULL REFERENCES items (item),  -- the member
  basis TEXT NOT NULL CHECK (basis IN ('same','approved','meets','claimed')),  -- same: same part; approved: by the spec's owner or the unit's maker; meets: its maker states it meets; claimed: the seller says suitable for, which never chains
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (group_key, item)
) STRICT;

-- Applications: this group fills this role on these configurations.
CREATE TABLE applications (
  origin INTEGER PRIMARY KEY,
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  role TEXT NOT NULL,  -- the place or function, a role of a domain
  says TEXT NOT NULL CHECK (says IN ('fits','does_not_fit','none_needed')),  -- what the source says; none_needed: the configuration has no such place
  group_key TEXT REFERENCES groups (group_key),  -- the group; empty for none_needed
  condition TEXT,  -- on which configurations; empty: all of the line
  quantity REAL CHECK (quantity > 0),  -- how much the role takes, in the item kind's unit; 1 when empty
  note TEXT,  -- what the bench should know
  withdrawn TEXT,  -- why the statement no longer counts; it stays and is shown
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Stand-ins, one way: OFFERED relation WANTED. No row means not recorded, never no.
CREATE TABLE stand_ins (
  origin INTEGER PRIMARY KEY,
  offered TEXT NOT NULL REFERENCES groups (group_key),  -- the group one has
  relation TEXT NOT NULL CHECK (relation IN ('supersedes','stands_in_if','bolts_up_but','excludes')),  -- supersedes: may always replace it; stands_in_if: on the condition; bolts_up_but: goes on and works differently; excludes: published as not replaceable, both ways
  wanted TEXT NOT NULL REFERENCES groups (group_key),  -- the group called for
  condition TEXT,  -- vehicle condition, empty: any vehicle
  requirement TEXT,  -- what else must hold, in words; shown, and accumulated along a path
  also_requires TEXT,  -- groups that must be fitted with it, separated by |
  difference TEXT,  -- for bolts_up_but: what works differently
  withdrawn TEXT,  -- why the statement no longer counts; it stays and is shown
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (offered <> wanted)
) STRICT;

-- What a kit contains.
CREATE TABLE kit_contents (
  origin INTEGER PRIMARY KEY,
  kit TEXT NOT NULL REFERENCES items (item),  -- an item of kind `kit`
  group_key TEXT NOT NULL REFERENCES groups (group_key),  -- what is in it
  quantity REAL NOT NULL CHECK (quantity > 0),  -- how much of it, in the kind's unit
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (kit, group_key)
) STRICT;

-- Jobs: pieces of work.
CREATE TABLE jobs (
  origin INTEGER PRIMARY KEY,
  job TEXT NOT NULL UNIQUE,  -- key, kebab-case
  title TEXT NOT NULL,  -- in words
  minutes REAL NOT NULL CHECK (minutes > 0),  -- usual effort, minutes
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Roles a job touches.
CREATE TABLE job_roles (
  origin INTEGER PRIMARY KEY,
  job TEXT NOT NULL REFERENCES jobs (job),  -- the job
  role TEXT NOT NULL,  -- the role, of a domain
  reach TEXT NOT NULL CHECK (reach IN ('needs','consumes','disturbs','look_first')),  -- needs: the job is about it; consumes: used up or single-use; disturbs: removed, refitted if sound; look_first: inspect before ordering anything
  line TEXT REFERENCES lines (line),  -- only for this line; empty: every line
  condition TEXT,  -- only on these configurations; needs a line
  reuse TEXT NOT NULL CHECK (reuse IN ('never','if_undamaged','by_design','not_applicable')),  -- may the old one go back? by_design: made to be reused
  note TEXT,  -- why, or what to look for
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (condition IS NULL OR line IS NOT NULL)
) STRICT;

-- What stays behind in the vehicle when the old part comes off.
CREATE TABLE stays_behind (
  origin INTEGER PRIMARY KEY,
  role TEXT NOT NULL,  -- the role whose old part stays
  line TEXT NOT NULL REFERENCES lines (line),  -- the vehicle line
  condition TEXT,  -- on which configurations; empty: all of the line
  place TEXT NOT NULL,  -- where it stays
  see TEXT NOT NULL,  -- how to see it
  remove TEXT NOT NULL,  -- how to get it out unharmed
  count INTEGER CHECK (count > 0),  -- how many pieces; as many go in as came out; empty: not counted, as of a liquid
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;

-- Cautions of a job.
CREATE TABLE cautions (
  origin INTEGER PRIMARY KEY,
  job TEXT NOT NULL REFERENCES jobs (job),  -- the job
  line TEXT REFERENCES lines (line),  -- only for this line; empty: every line
  condition TEXT,  -- only on these configurations; needs a line
  caution TEXT NOT NULL,  -- one sentence, imperative
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (condition IS NULL OR line IS NOT NULL)
) STRICT;

-- Causes: what may be behind a trouble that somebody tells of a vehicle, before anything is opened.
CREATE TABLE causes (
  origin INTEGER PRIMARY KEY,
  cause TEXT NOT NULL UNIQUE,  -- key, kebab-case
  title TEXT NOT NULL,  -- in words
  finding TEXT NOT NULL CHECK (finding NOT LIKE '%;%'),  -- what is told where it may be this: attribute=value, attribute=a|b, or not attribute=a
  line TEXT REFERENCES lines (line),  -- only for this line: its own causes of a finding stand instead of the general ones; empty: every line
  share REAL CHECK (share > 0),  -- how often it is this beside the other causes of the finding, a relative number; empty: nobody has counted
  cure TEXT NOT NULL CHECK (cure IN ('repair','unit')),  -- repair: it is mended by itself; unit: only a replacement unit cures it
  job TEXT REFERENCES jobs (job),  -- the job that mends it; empty: none is on record
  cost_low REAL CHECK (cost_low >= 0),  -- what mending it costs at least, parts, fluid and paid hours, in the currency
  cost_likely REAL CHECK (cost_likely >= 0),  -- what it is likely to cost, in the currency
  cost_high REAL CHECK (cost_high >= 0),  -- what it costs at most, in the currency
  currency TEXT,  -- of the costs, as the shop sets it
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK ((cost_low IS NULL) = (cost_likely IS NULL) AND (cost_likely IS NULL) = (cost_high IS NULL) AND (cost_low IS NULL OR (cost_low <= cost_likely AND cost_likely <= cost_high AND currency IS NOT NULL)))
) STRICT;

-- Signs of causes: what is found where it is this.
CREATE TABLE cause_signs (
  origin INTEGER PRIMARY KEY,
  cause TEXT NOT NULL REFERENCES causes (cause),  -- the cause
  finding TEXT NOT NULL CHECK (finding NOT LIKE '%;%' AND finding NOT LIKE 'not %'),  -- what is found where it is this: attribute=value or attribute=a|b
  chance REAL CHECK (chance >= 0 AND chance <= 1),  -- how often that is found where it is this, of 1; empty: always
  ask TEXT,  -- the question as it is asked by phone; empty: it is looked at, not asked
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (cause, finding)
) STRICT;

-- What imitates a part that fails: looked at before one is ordered.
CREATE TABLE imitators (
  origin INTEGER PRIMARY KEY,
  seen TEXT NOT NULL,  -- what is seen
  rival TEXT NOT NULL,  -- what it could be instead of the part
  test TEXT NOT NULL,  -- what tells the two apart, a clause without a full stop
  minutes REAL NOT NULL CHECK (minutes > 0),  -- takes, in minutes
  parts TEXT NOT NULL,  -- places that the part would be bought for: of one domain, joined by |
  blames_condition TEXT NOT NULL,  -- the finding that blames the part
  rival_condition TEXT NOT NULL,  -- the finding that shows the rival
  cleared_condition TEXT NOT NULL,  -- the finding that rules the rival out
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  UNIQUE (seen, rival, parts)
) STRICT;
