-- +goose Up
-- What a shared batch or recipe is found by from elsewhere: whoever was given the
-- code may look. Empty for what was shared before there were codes.
ALTER TABLE card ADD COLUMN code TEXT NOT NULL DEFAULT '';
CREATE UNIQUE INDEX card_code ON card (code) WHERE code <> '';
ALTER TABLE recipe_share ADD COLUMN code TEXT NOT NULL DEFAULT '';
CREATE UNIQUE INDEX recipe_share_code ON recipe_share (code) WHERE code <> '';
