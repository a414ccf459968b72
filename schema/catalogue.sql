-- The catalogue: everything the program claims to know, compiled from the text sources under data/.
-- It is rebuilt, never migrated. schema/README.md says what each table means.
--
-- Rows refer to each other by `idx`, the position in the program's own lists, counted from 0 without a gap; `seq`
-- counts the members of a list inside one row the same way. The order carries meaning (questions, cautions, faults), so
-- it is kept as data and never left to the database.

PRAGMA application_id = 1280001369;  -- 'LKEY'
PRAGMA user_version = 2;

-- content_hash: SHA-256 over all content; search_hash: over the search index.
CREATE TABLE meta (
  name  TEXT PRIMARY KEY CHECK (name IN ('content_hash', 'search_hash')),
  value TEXT NOT NULL CHECK (length(value) = 64)
) STRICT, WITHOUT ROWID;

CREATE TABLE setting (
  name  TEXT PRIMARY KEY CHECK (name IN ('tracer_lost', 'dark_chance')),
  value REAL NOT NULL CHECK (value >= 0 AND value < 1)
) STRICT, WITHOUT ROWID;

-- What a reading costs

CREATE TABLE tool (
  idx   INTEGER PRIMARY KEY CHECK (idx >= 0),
  id    TEXT NOT NULL UNIQUE,
  name  TEXT NOT NULL,
  fetch REAL NOT NULL CHECK (fetch >= 0)
) STRICT;

CREATE TABLE effort (
  idx  INTEGER PRIMARY KEY CHECK (idx >= 0),
  id   TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  cost REAL NOT NULL CHECK (cost > 0),
  tool INTEGER REFERENCES tool (idx)
) STRICT;

-- Words of observers

CREATE TABLE colour (
  idx INTEGER PRIMARY KEY CHECK (idx >= 0),
  id  TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE colour_becomes (
  colour  INTEGER NOT NULL REFERENCES colour (idx),
  seq     INTEGER NOT NULL CHECK (seq >= 0),
  becomes INTEGER NOT NULL REFERENCES colour (idx) CHECK (becomes <> colour),
  chance  REAL NOT NULL CHECK (chance > 0 AND chance < 1),
  PRIMARY KEY (colour, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE familiar (
  idx    INTEGER PRIMARY KEY CHECK (idx >= 0),
  id     TEXT NOT NULL UNIQUE,
  spread REAL NOT NULL CHECK (spread > 0 AND spread < 1)
) STRICT;

CREATE TABLE familiar_name (
  familiar INTEGER NOT NULL REFERENCES familiar (idx),
  seq      INTEGER NOT NULL CHECK (seq >= 0),
  name     TEXT NOT NULL,
  PRIMARY KEY (familiar, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE familiar_size (
  familiar INTEGER NOT NULL REFERENCES familiar (idx),
  seq      INTEGER NOT NULL CHECK (seq BETWEEN 0 AND 2),
  mm       REAL NOT NULL CHECK (mm > 0),
  PRIMARY KEY (familiar, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE symptom (
  idx  INTEGER PRIMARY KEY CHECK (idx >= 0),
  id   TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL
) STRICT;

-- Sources and warnings

CREATE TABLE basis (
  idx  INTEGER PRIMARY KEY CHECK (idx >= 0),
  id   TEXT NOT NULL UNIQUE,
  kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 3),  -- standard, handbook, practice, memory
  text TEXT NOT NULL
) STRICT;

CREATE TABLE caution (
  idx    INTEGER PRIMARY KEY CHECK (idx >= 0),
  id     TEXT NOT NULL UNIQUE,
  rank   INTEGER NOT NULL,
  hazard TEXT NOT NULL,
  text   TEXT NOT NULL
) STRICT;

-- Traits

CREATE TABLE trait_group (
  idx      INTEGER PRIMARY KEY CHECK (idx >= 0),
  id       TEXT NOT NULL UNIQUE,
  name     TEXT NOT NULL,
  switched REAL NOT NULL CHECK (switched >= 0 AND switched < 1),
  overlap  REAL NOT NULL CHECK (overlap >= 0 AND overlap < 1)
) STRICT;

CREATE TABLE trait (
  idx            INTEGER PRIMARY KEY CHECK (idx >= 0),
  id             TEXT NOT NULL UNIQUE,
  name           TEXT NOT NULL,
  ask            TEXT NOT NULL,
  how            TEXT NOT NULL,
  kind           INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 2),   -- choice, number, set
  layer          INTEGER NOT NULL CHECK (layer IN (0, 1)),        -- look, meter
  effort         INTEGER NOT NULL REFERENCES effort (idx),
  trait_group    INTEGER REFERENCES trait_group (idx),
  hazard         TEXT NOT NULL,
  runs           INTEGER NOT NULL CHECK (runs IN (0, 1)),
  unit           TEXT NOT NULL,
  log_scale      INTEGER NOT NULL CHECK (log_scale IN (0, 1)),
  low            REAL NOT NULL,
  high           REAL NOT NULL,
  soft           REAL NOT NULL CHECK (soft >= 0),
  relative_error REAL NOT NULL CHECK (relative_error >= 0),
  absolute_error REAL NOT NULL CHECK (absolute_error >= 0),
  allows_ol      INTEGER NOT NULL CHECK (allows_ol IN (0, 1)),
  allows_zero    INTEGER NOT NULL CHECK (allows_zero IN (0, 1)),
  allows_jumps   INTEGER NOT NULL CHECK (allows_jumps IN (0, 1)),
  allows_na      INTEGER NOT NULL CHECK (allows_na IN (0, 1)),
  low_ohm        INTEGER NOT NULL CHECK (low_ohm IN (0, 1)),
  items          INTEGER NOT NULL CHECK (items IN (0, 1)),        -- letters, colours
  none_name      TEXT NOT NULL,
  CHECK (low <= high),
  CHECK (kind <> 1 OR low < high),
  CHECK (kind <> 1 OR log_scale = 0 OR low > 0)
) STRICT;

CREATE TABLE trait_state (
  trait INTEGER NOT NULL REFERENCES trait (idx),
  seq   INTEGER NOT NULL CHECK (seq >= 0),
  id    TEXT NOT NULL,
  name  TEXT NOT NULL,
  PRIMARY KEY (trait, seq),
  UNIQUE (trait, id)
) STRICT, WITHOUT ROWID;

-- Chance that state `truth` is reported as `reported`; pairs that never happen have no row.
CREATE TABLE trait_seen (
  trait    INTEGER NOT NULL,
  truth    INTEGER NOT NULL,
  reported INTEGER NOT NULL,
  chance   REAL NOT NULL CHECK (chance > 0 AND chance <= 1),
  PRIMARY KEY (trait, truth, reported),
  FOREIGN KEY (trait, truth) REFERENCES trait_state (trait, seq),
  FOREIGN KEY (trait, reported) REFERENCES trait_state (trait, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE trait_asked_with (
  trait   INTEGER NOT NULL REFERENCES trait (idx),
  seq     INTEGER NOT NULL CHECK (seq >= 0),
  letters TEXT NOT NULL,
  PRIMARY KEY (trait, seq)
) STRICT, WITHOUT ROWID;

-- Advice

CREATE TABLE advice (
  idx      INTEGER PRIMARY KEY CHECK (idx >= 0),
  id       TEXT NOT NULL UNIQUE,
  title    TEXT NOT NULL,
  function TEXT NOT NULL,
  needed   TEXT NOT NULL,
  price    INTEGER NOT NULL CHECK (price BETWEEN 0 AND 4),  -- harmless, money, burnt part, burnt loom, injury
  basis    INTEGER REFERENCES basis (idx)
) STRICT;

CREATE TABLE advice_harmless_if (
  advice INTEGER NOT NULL REFERENCES advice (idx),
  seq    INTEGER NOT NULL CHECK (seq >= 0),
  other  INTEGER NOT NULL REFERENCES advice (idx) CHECK (other <> advice),
  PRIMARY KEY (advice, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE advice_caution (
  advice  INTEGER NOT NULL REFERENCES advice (idx),
  seq     INTEGER NOT NULL CHECK (seq >= 0),
  caution INTEGER NOT NULL REFERENCES caution (idx),
  PRIMARY KEY (advice, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE substitute (
  idx              INTEGER PRIMARY KEY CHECK (idx >= 0),
  advice           INTEGER NOT NULL REFERENCES advice (idx),
  what             TEXT NOT NULL,
  connect          TEXT NOT NULL,
  connect_positive TEXT NOT NULL,
  connect_negative TEXT NOT NULL,
  basis            INTEGER REFERENCES basis (idx)
) STRICT;

CREATE TABLE substitute_condition (
  substitute INTEGER NOT NULL REFERENCES substitute (idx),
  holds      INTEGER NOT NULL CHECK (holds IN (0, 1)),  -- 1: fits when; 0: does not fit when
  seq        INTEGER NOT NULL CHECK (seq >= 0),
  text       TEXT NOT NULL,
  PRIMARY KEY (substitute, holds, seq)
) STRICT, WITHOUT ROWID;

-- Parts

CREATE TABLE family (
  idx  INTEGER PRIMARY KEY CHECK (idx >= 0),
  id   TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  does TEXT NOT NULL
) STRICT;

CREATE TABLE part (
  idx            INTEGER PRIMARY KEY CHECK (idx >= 0),
  id             TEXT NOT NULL UNIQUE,
  name           TEXT NOT NULL,
  family         INTEGER NOT NULL REFERENCES family (idx),
  advice         INTEGER NOT NULL REFERENCES advice (idx),
  first_year     INTEGER NOT NULL,
  last_year      INTEGER NOT NULL,
  retrofit       INTEGER NOT NULL CHECK (retrofit IN (0, 1)),
  brought_in     REAL NOT NULL CHECK (brought_in > 0),
  usual_place    TEXT NOT NULL,
  strays         TEXT NOT NULL,
  redundant_when TEXT NOT NULL,
  note           TEXT NOT NULL,
  basis          INTEGER REFERENCES basis (idx),
  CHECK (first_year <= last_year)
) STRICT;

CREATE TABLE part_word (
  part INTEGER NOT NULL REFERENCES part (idx),
  list INTEGER NOT NULL CHECK (list BETWEEN 0 AND 5),  -- alias, called, origin, market, successor, verify
  seq  INTEGER NOT NULL CHECK (seq >= 0),
  word TEXT NOT NULL,
  PRIMARY KEY (part, list, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE part_foreign (
  part     INTEGER NOT NULL REFERENCES part (idx),
  seq      INTEGER NOT NULL CHECK (seq >= 0),
  language TEXT NOT NULL CHECK (length(language) = 2),
  term     TEXT NOT NULL,
  PRIMARY KEY (part, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE part_number (
  part  INTEGER NOT NULL REFERENCES part (idx),
  list  INTEGER NOT NULL CHECK (list IN (0, 1)),  -- volts, cylinders
  seq   INTEGER NOT NULL CHECK (seq >= 0),
  value INTEGER NOT NULL CHECK (value > 0),
  PRIMARY KEY (part, list, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE part_partner (
  part           INTEGER NOT NULL REFERENCES part (idx),
  seq            INTEGER NOT NULL CHECK (seq >= 0),
  partner        INTEGER REFERENCES part (idx),
  partner_family INTEGER REFERENCES family (idx),
  PRIMARY KEY (part, seq),
  CHECK ((partner IS NULL) <> (partner_family IS NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE look_alike (
  part  INTEGER NOT NULL REFERENCES part (idx),
  seq   INTEGER NOT NULL CHECK (seq >= 0),
  other INTEGER NOT NULL REFERENCES part (idx) CHECK (other <> part),
  tell  TEXT NOT NULL,
  trait INTEGER REFERENCES trait (idx),
  PRIMARY KEY (part, seq),
  UNIQUE (part, other)
) STRICT, WITHOUT ROWID;

-- Parts that people mix up, several at a time.
CREATE TABLE confusion_set (
  idx  INTEGER PRIMARY KEY CHECK (idx >= 0),
  id   TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  tell TEXT NOT NULL
) STRICT;

CREATE TABLE confusion_part (
  confusion INTEGER NOT NULL REFERENCES confusion_set (idx),
  seq       INTEGER NOT NULL CHECK (seq >= 0),
  part      INTEGER NOT NULL REFERENCES part (idx),
  PRIMARY KEY (confusion, seq),
  UNIQUE (confusion, part)
) STRICT, WITHOUT ROWID;

CREATE TABLE confusion_trait (
  confusion INTEGER NOT NULL REFERENCES confusion_set (idx),
  seq       INTEGER NOT NULL CHECK (seq >= 0),
  trait     INTEGER NOT NULL REFERENCES trait (idx),
  PRIMARY KEY (confusion, seq),
  UNIQUE (confusion, trait)
) STRICT, WITHOUT ROWID;

CREATE TABLE confusion_twins (
  confusion INTEGER NOT NULL REFERENCES confusion_set (idx),
  seq       INTEGER NOT NULL CHECK (seq >= 0),
  part      INTEGER NOT NULL,
  other     INTEGER NOT NULL CHECK (other <> part),
  PRIMARY KEY (confusion, seq),
  FOREIGN KEY (confusion, part) REFERENCES confusion_part (confusion, part),
  FOREIGN KEY (confusion, other) REFERENCES confusion_part (confusion, part)
) STRICT, WITHOUT ROWID;

CREATE TABLE meter_check (
  part   INTEGER NOT NULL REFERENCES part (idx),
  seq    INTEGER NOT NULL CHECK (seq >= 0),
  how    TEXT NOT NULL,
  good   TEXT NOT NULL,
  bad    TEXT NOT NULL,
  caveat TEXT NOT NULL,
  basis  INTEGER REFERENCES basis (idx),
  PRIMARY KEY (part, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE part_condition (
  idx   INTEGER PRIMARY KEY CHECK (idx >= 0),
  part  INTEGER NOT NULL REFERENCES part (idx),
  kind  INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 2),  -- good, fault, damaged
  id    TEXT NOT NULL,
  name  TEXT NOT NULL,
  sees  TEXT NOT NULL,
  share REAL NOT NULL CHECK (share > 0 AND share <= 1),
  UNIQUE (part, id)
) STRICT;

CREATE TABLE condition_symptom (
  condition INTEGER NOT NULL REFERENCES part_condition (idx),
  seq       INTEGER NOT NULL CHECK (seq >= 0),
  symptom   INTEGER NOT NULL REFERENCES symptom (idx),
  PRIMARY KEY (condition, seq)
) STRICT, WITHOUT ROWID;

-- Claims: what a part, one of its conditions, its family, or a silent part claims about a trait

CREATE TABLE claim (
  idx       INTEGER PRIMARY KEY CHECK (idx >= 0),
  trait     INTEGER NOT NULL REFERENCES trait (idx),
  family    INTEGER REFERENCES family (idx),
  part      INTEGER REFERENCES part (idx),
  condition INTEGER REFERENCES part_condition (idx),  -- all three empty: the default of the trait itself
  verify    INTEGER NOT NULL CHECK (verify IN (0, 1)),
  basis     INTEGER REFERENCES basis (idx),
  ol        REAL NOT NULL CHECK (ol BETWEEN 0 AND 1),
  zero      REAL NOT NULL CHECK (zero BETWEEN 0 AND 1),
  jumps     REAL NOT NULL CHECK (jumps BETWEEN 0 AND 1),
  na        REAL NOT NULL CHECK (na BETWEEN 0 AND 1),
  CHECK ((family IS NOT NULL) + (part IS NOT NULL) + (condition IS NOT NULL) <= 1),
  UNIQUE (trait, family),
  UNIQUE (trait, part),
  UNIQUE (trait, condition)
) STRICT;

-- States left out have share 0.
CREATE TABLE claim_state (
  claim INTEGER NOT NULL REFERENCES claim (idx),
  state INTEGER NOT NULL CHECK (state >= 0),
  share REAL NOT NULL CHECK (share > 0 AND share <= 1),
  PRIMARY KEY (claim, state)
) STRICT, WITHOUT ROWID;

CREATE TABLE claim_range (
  claim INTEGER NOT NULL REFERENCES claim (idx),
  seq   INTEGER NOT NULL CHECK (seq >= 0),
  low   REAL NOT NULL,
  high  REAL NOT NULL CHECK (low <= high),
  share REAL NOT NULL CHECK (share > 0 AND share <= 1),
  PRIMARY KEY (claim, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE claim_set (
  claim INTEGER NOT NULL REFERENCES claim (idx),
  seq   INTEGER NOT NULL CHECK (seq >= 0),
  share REAL NOT NULL CHECK (share > 0 AND share <= 1),
  PRIMARY KEY (claim, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE claim_set_item (
  claim INTEGER NOT NULL,
  seq   INTEGER NOT NULL,
  item  INTEGER NOT NULL CHECK (item >= 0),
  word  TEXT NOT NULL,
  PRIMARY KEY (claim, seq, item),
  FOREIGN KEY (claim, seq) REFERENCES claim_set (claim, seq)
) STRICT, WITHOUT ROWID;

-- Full-text search; the rowid is part.idx. It keeps no copy of the texts, only the index.
CREATE VIRTUAL TABLE part_search USING fts5(
  names, aliases, foreign_terms, called, functions,
  content = '', tokenize = 'porter unicode61 remove_diacritics 2'
);
