package bot

import (
	"encoding/json"
	"errors"

	"larderhand/store"
)

// slate is what the bot bears in mind of a person between two lines: the cure worked
// out last, the recipe checked since, and the readings it asked them about. One is wiped
// without the other.
type slate struct {
	draft
	Checked string    `json:"checked,omitempty"`
	Waiting []pending `json:"waiting,omitempty"`
}

func (t *Turn) slate() (slate, error) { return slateOf(t.Tx, t.Me.ID) }

// slateOf reads a member's slate. One that cannot be read is empty.
func slateOf(tx Tx, member int64) (s slate, err error) {
	if tx == nil {
		return s, nil
	}
	body, _, err := tx.Draft(member)
	if errors.Is(err, store.ErrNotFound) {
		return s, nil
	}
	if err != nil || json.Unmarshal([]byte(body), &s) != nil {
		return slate{}, err
	}
	return s, nil
}

func (t *Turn) saveSlate(s slate) error {
	if t.Tx == nil {
		return nil
	}
	if s.draft.empty() && s.Checked == "" && len(s.Waiting) == 0 {
		return t.Tx.SaveDraft(t.Me.ID, "")
	}
	body, err := json.Marshal(s)
	if err != nil {
		return err
	}
	return t.Tx.SaveDraft(t.Me.ID, string(body))
}

// draft gives the sender's draft; ok is false if there is none.
func (t *Turn) draft() (d draft, ok bool, err error) {
	s, err := t.slate()
	return s.draft, err == nil && !s.draft.empty(), err
}

// saveDraft keeps the sender's draft; an empty one drops it.
func (t *Turn) saveDraft(d draft) error {
	s, err := t.slate()
	if err != nil {
		return err
	}
	s.draft, s.Checked = d, ""
	return t.saveSlate(s)
}
