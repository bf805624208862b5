-- +goose Up
-- What was dropped is over like what was sent: with an instant in sent_at it is out
-- of the index of what a conversation still has to be said, and is given 0 again when
-- it is wanted anew.
UPDATE chore SET sent_at = 1 WHERE state = 'dropped' AND sent_at = 0;
-- A card's chores are used over again from here on; those that are over are of no use.
DELETE FROM chore WHERE batch_id = 0 AND kind IN ('card', 'card end') AND state IN ('sent', 'dropped', 'given up');
-- The cards of a conversation, the conversations a person has spoken in, and those a
-- recipe is shared in.
CREATE INDEX card_conversation ON card (conversation_id);
CREATE INDEX member_key ON member (key);
CREATE INDEX recipe_share_owner ON recipe_share (owner, fold);
