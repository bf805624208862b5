-- +goose Up
-- A lane is the platform a conversation is on: the address up to its first colon.
-- Each platform has its own limits, so each lane is claimed from by itself.
ALTER TABLE chore ADD COLUMN lane TEXT NOT NULL DEFAULT '';
-- The key of the message a chore was, or is being, said in, and since when: the
-- same set goes out again under the same key after a crash.
ALTER TABLE chore ADD COLUMN message TEXT NOT NULL DEFAULT '';
ALTER TABLE chore ADD COLUMN message_at INTEGER NOT NULL DEFAULT 0;
UPDATE chore SET lane = (SELECT substr(address, 1, instr(address || ':', ':') - 1) FROM conversation WHERE id = conversation_id);
DROP INDEX chore_open;
CREATE INDEX chore_open ON chore (lane, urgency DESC, try_at) WHERE state IN ('due', 'retry', 'claimed');
CREATE INDEX chore_claimed ON chore (id) WHERE state = 'claimed';
CREATE INDEX conversation_parked ON conversation (id) WHERE parked <> '';
