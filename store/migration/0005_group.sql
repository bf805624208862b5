-- +goose Up
-- A recipe is a person's, wherever on their platform they speak: owner is the
-- platform's own id for them. Versions of a name count up; none is ever changed.
CREATE TABLE recipe (
  id         INTEGER PRIMARY KEY,
  lane       TEXT    NOT NULL,
  owner      TEXT    NOT NULL,
  owner_name TEXT    NOT NULL,
  name       TEXT    NOT NULL,
  fold       TEXT    NOT NULL,   -- the name in lower case
  version    INTEGER NOT NULL,
  body       TEXT    NOT NULL,   -- JSON of exchange.Recipe
  at         INTEGER NOT NULL,
  UNIQUE (lane, owner, fold, version)
) STRICT;

CREATE TABLE recipe_share ( -- where a person's recipe can be taken by others
  conversation_id INTEGER NOT NULL REFERENCES conversation(id) ON DELETE CASCADE,
  owner           TEXT    NOT NULL,
  fold            TEXT    NOT NULL,
  at              INTEGER NOT NULL,
  PRIMARY KEY (conversation_id, owner, fold)
) STRICT, WITHOUT ROWID;

CREATE TABLE card ( -- a batch shown somewhere, kept up to date
  id              INTEGER PRIMARY KEY,
  batch_id        INTEGER NOT NULL REFERENCES batch(id) ON DELETE CASCADE,
  conversation_id INTEGER NOT NULL REFERENCES conversation(id) ON DELETE CASCADE, -- where it is shown
  owner           TEXT    NOT NULL,            -- key of who shared it
  owner_name      TEXT    NOT NULL,
  ref             TEXT    NOT NULL DEFAULT '', -- the platform's name for the message
  shows           TEXT    NOT NULL DEFAULT '', -- digest of what it shows now
  state           TEXT    NOT NULL DEFAULT 'up', -- up, down (to be taken down), gone
  at              INTEGER NOT NULL
) STRICT;
CREATE INDEX card_batch ON card (batch_id);
CREATE UNIQUE INDEX card_up ON card (batch_id, conversation_id) WHERE state = 'up';

CREATE TABLE card_voice ( -- who follows a card, and who cheered
  card_id INTEGER NOT NULL REFERENCES card(id) ON DELETE CASCADE,
  kind    TEXT    NOT NULL, -- follow, cheer
  key     TEXT    NOT NULL,
  name    TEXT    NOT NULL,
  at      INTEGER NOT NULL,
  PRIMARY KEY (card_id, kind, key)
) STRICT, WITHOUT ROWID;

CREATE TABLE stock ( -- what a person counted or bought; batches are taken off it by sums
  id        INTEGER PRIMARY KEY,
  member_id INTEGER NOT NULL REFERENCES member(id) ON DELETE CASCADE,
  item      TEXT    NOT NULL, -- mix, salt, sugar
  kind      TEXT    NOT NULL, -- count, buy
  grams     REAL    NOT NULL,
  paid      REAL    NOT NULL DEFAULT 0, -- for a buy; 0: not said
  at        INTEGER NOT NULL
) STRICT;
CREATE INDEX stock_member ON stock (member_id, id);

CREATE TABLE planned ( -- a batch meant for a date
  id        INTEGER PRIMARY KEY,
  member_id INTEGER NOT NULL REFERENCES member(id) ON DELETE CASCADE,
  ready     TEXT    NOT NULL, -- local date it is wanted on
  body      TEXT    NOT NULL, -- JSON of store.Planned
  state     TEXT    NOT NULL DEFAULT 'open', -- open, dropped
  at        INTEGER NOT NULL
) STRICT;
CREATE INDEX planned_member ON planned (member_id, id);

CREATE TABLE picture ( -- a picture that came with a journal entry
  entry_id INTEGER PRIMARY KEY REFERENCES entry(id) ON DELETE CASCADE,
  name     TEXT    NOT NULL,
  type     TEXT    NOT NULL,
  data     BLOB    NOT NULL
) STRICT;
