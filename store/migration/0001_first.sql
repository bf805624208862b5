-- +goose Up
CREATE TABLE conversation (
  id         INTEGER PRIMARY KEY,
  address    TEXT    NOT NULL UNIQUE,  -- opaque; the adapter made it and alone can read it
  settings   TEXT    NOT NULL,         -- JSON of store.Settings
  next_batch INTEGER NOT NULL DEFAULT 1,
  parked     TEXT    NOT NULL DEFAULT '', -- why nothing can be delivered; '' when all is well
  created_at INTEGER NOT NULL          -- instants are unix milliseconds throughout
) STRICT;

CREATE TABLE member (
  id              INTEGER PRIMARY KEY,
  conversation_id INTEGER NOT NULL REFERENCES conversation(id) ON DELETE CASCADE,
  key             TEXT    NOT NULL,   -- the platform's own id for the person
  name            TEXT    NOT NULL,
  confirmed_at    INTEGER NOT NULL DEFAULT 0, -- when they said they weigh the mix on a 0.1 g scale
  UNIQUE (conversation_id, key)
) STRICT;

CREATE TABLE draft ( -- a cure worked out but not yet opened; one a person
  member_id INTEGER PRIMARY KEY REFERENCES member(id) ON DELETE CASCADE,
  body      TEXT    NOT NULL,
  at        INTEGER NOT NULL
) STRICT;

CREATE TABLE batch (
  id              INTEGER PRIMARY KEY,
  conversation_id INTEGER NOT NULL REFERENCES conversation(id) ON DELETE CASCADE,
  number          INTEGER NOT NULL,
  keeper_id       INTEGER NOT NULL REFERENCES member(id),
  opened_at       INTEGER NOT NULL,   -- when the meat went into the cure
  plan            TEXT    NOT NULL,   -- JSON of store.Plan: method, targets, rule set, days
  stage           TEXT    NOT NULL,   -- what the journal says, kept for lists
  version         INTEGER NOT NULL DEFAULT 0,
  UNIQUE (conversation_id, number)
) STRICT;

CREATE TABLE piece (
  batch_id INTEGER NOT NULL REFERENCES batch(id) ON DELETE CASCADE,
  letter   TEXT    NOT NULL,
  body     TEXT    NOT NULL,          -- JSON of store.Piece
  PRIMARY KEY (batch_id, letter)
) STRICT, WITHOUT ROWID;

CREATE TABLE entry ( -- the journal: append-only, an entry is struck out and never deleted
  id          INTEGER PRIMARY KEY,
  batch_id    INTEGER NOT NULL REFERENCES batch(id) ON DELETE CASCADE,
  piece       TEXT    NOT NULL DEFAULT '', -- '' is the whole batch
  kind        TEXT    NOT NULL,
  at          INTEGER NOT NULL,       -- when it happened
  recorded_at INTEGER NOT NULL,       -- when it was told
  member_id   INTEGER NOT NULL REFERENCES member(id),
  body        TEXT    NOT NULL DEFAULT '{}',
  struck_at   INTEGER NOT NULL DEFAULT 0,
  struck_by   INTEGER REFERENCES member(id)
) STRICT;
CREATE INDEX entry_batch ON entry (batch_id, id);

CREATE TABLE chore ( -- everything to be said unasked: pings and messages
  id              INTEGER PRIMARY KEY,
  conversation_id INTEGER NOT NULL REFERENCES conversation(id) ON DELETE CASCADE,
  batch_id        INTEGER NOT NULL DEFAULT 0, -- 0: a message of the conversation as a whole
  piece           TEXT    NOT NULL DEFAULT '',
  kind            TEXT    NOT NULL,
  slot            TEXT    NOT NULL,   -- the intended local date or occasion
  due_at          INTEGER NOT NULL,   -- when it ought to be said
  try_at          INTEGER NOT NULL,   -- when to take it up next: due, a later try, or the end of a lease
  urgency         INTEGER NOT NULL DEFAULT 0,
  state           TEXT    NOT NULL DEFAULT 'due', -- due, retry, claimed, parked, sent, dropped, given up
  lease           TEXT    NOT NULL DEFAULT '',
  attempts        INTEGER NOT NULL DEFAULT 0,
  last_error      TEXT    NOT NULL DEFAULT '',
  sent_at         INTEGER NOT NULL DEFAULT 0,
  body            TEXT    NOT NULL DEFAULT '',
  UNIQUE (conversation_id, batch_id, piece, kind, slot)
) STRICT;
CREATE INDEX chore_open ON chore (urgency DESC, try_at) WHERE state IN ('due', 'retry', 'claimed');
CREATE INDEX chore_conversation ON chore (conversation_id, try_at) WHERE state IN ('due', 'retry', 'claimed');
CREATE INDEX chore_batch ON chore (batch_id, kind);

CREATE TABLE seen ( -- events already handled, with what was answered
  event TEXT    PRIMARY KEY,
  reply TEXT    NOT NULL,
  at    INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX seen_at ON seen (at);

CREATE TABLE keep ( -- small facts an adapter has to find again after a restart
  name  TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
