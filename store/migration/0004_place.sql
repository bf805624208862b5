-- +goose Up
CREATE TABLE place ( -- where a batch lives that has a place of its own, such as a thread
  batch_id INTEGER PRIMARY KEY REFERENCES batch(id) ON DELETE CASCADE,
  address  TEXT    NOT NULL UNIQUE  -- opaque, as a conversation's
) STRICT;
