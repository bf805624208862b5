package telegram

import (
	"context"
	"fmt"
	"strconv"

	"larderhand/store"
)

// Inside asks whether a person is in a group now; see bot.Roll. Telegram promises an
// answer only where the bot administers the group (Bot API, getChatMember).
func (a *Adapter) Inside(ctx context.Context, group store.Address, person string) (bool, error) {
	p, err := parseAddress(group)
	if err != nil {
		return false, fmt.Errorf("%q: %w", group, err)
	}
	id, err := strconv.ParseInt(person, 10, 64)
	if err != nil || id <= 0 { // a group or a channel that speaks is no member
		return false, fmt.Errorf("%q is no person on Telegram", person)
	}
	params := a.resolve(p).whole().params()
	params["user_id"] = key(id)
	var m struct {
		Status string `json:"status"`
		Is     bool   `json:"is_member"` // of someone restricted
	}
	if err := a.api.call(ctx, "getChatMember", params, &m); err != nil {
		return false, err
	}
	switch m.Status {
	case "creator", "administrator", "member":
		return true, nil
	case "restricted":
		return m.Is, nil
	case "left", "kicked":
		return false, nil
	}
	return false, fmt.Errorf("telegram getChatMember: %q is no status I know", m.Status)
}
