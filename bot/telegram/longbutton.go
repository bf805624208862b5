package telegram

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"time"

	"larderhand/bot/reply"
	"larderhand/store"
)

// buttonKept is how long a button that does not fit into callback data is kept after it
// was last shown: longer than any batch takes. A press after that says that the button
// is from another version.
const buttonKept = 90 * 24 * time.Hour

// longButton is such a button as it is kept.
type longButton struct {
	reply.Button
	Shown int64 `json:"shown,omitempty"` // Unix seconds; 0: from before this was noted
}

// keepButton keeps a button under a name, from now on.
func (a *Adapter) keepButton(ctx context.Context, name string, b reply.Button) error {
	a.longs.Lock()
	defer a.longs.Unlock()
	return a.putButton(ctx, a.fact("button", name), b)
}

func (a *Adapter) putButton(ctx context.Context, fact string, b reply.Button) error {
	body, err := json.Marshal(longButton{b, a.Now().Unix()})
	if err != nil {
		return err
	}
	return a.Keep.Put(ctx, store.Fact{Name: fact, Value: string(body)})
}

// button reads the callback data of a button of ours.
func (a *Adapter) button(ctx context.Context, data string) (reply.Button, bool) {
	if name, ok := strings.CutPrefix(data, longMark); ok {
		var b longButton
		body, err := a.Keep.Get(ctx, a.fact("button", name))
		if err == nil {
			err = json.Unmarshal([]byte(body), &b)
		}
		return b.Button, err == nil && b.Line != ""
	}
	b, err := reply.ParseToken(data)
	return b, err == nil
}

// Tidy forgets buttons that were last shown long ago. It is meant to be called once a
// day.
func (a *Adapter) Tidy(ctx context.Context) error {
	list, err := a.Keep.List(ctx, a.fact("button", ""))
	if err != nil {
		return err
	}
	var bad error
	for _, f := range list {
		bad = errors.Join(bad, a.tidyButton(ctx, f.Name))
	}
	return bad
}

// tidyButton looks at one button, while none is being shown anew.
func (a *Adapter) tidyButton(ctx context.Context, fact string) error {
	a.longs.Lock()
	defer a.longs.Unlock()
	body, err := a.Keep.Get(ctx, fact)
	if errors.Is(err, store.ErrNotFound) {
		return nil
	}
	if err != nil {
		return err
	}
	var b longButton
	switch err := json.Unmarshal([]byte(body), &b); {
	case err != nil || b.Line == "":
		return a.Keep.Drop(ctx, fact) // nothing comes of a press of it
	case b.Shown == 0:
		return a.putButton(ctx, fact, b.Button)
	case a.Now().Sub(time.Unix(b.Shown, 0)) > buttonKept:
		return a.Keep.Drop(ctx, fact)
	}
	return nil
}
