-- +goose Up
-- What points at a member is looked up when a member goes: without these a chat that
-- moves would read every entry there is.
CREATE INDEX entry_member ON entry (member_id);
CREATE INDEX entry_struck ON entry (struck_by) WHERE struck_by IS NOT NULL;
CREATE INDEX batch_keeper ON batch (keeper_id);
