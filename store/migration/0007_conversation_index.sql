-- +goose Up
-- What a conversation still has to be said. Claiming and releasing change nothing
-- this index looks at, so they do not rewrite it.
DROP INDEX chore_conversation;
CREATE INDEX chore_conversation ON chore (conversation_id) WHERE sent_at = 0;
