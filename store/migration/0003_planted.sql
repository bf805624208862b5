-- +goose Up
-- Since when a chore is planned for the time it has: what was planned only after
-- it would have been due is not late.
ALTER TABLE chore ADD COLUMN planted_at INTEGER NOT NULL DEFAULT 0;
