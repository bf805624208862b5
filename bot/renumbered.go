package bot

import (
	"encoding/json"
	"fmt"

	"larderhand/bot/reply"
	"larderhand/store"
)

// renumbered tells what numbers batches have that came from a conversation which
// became one with this.
func renumbered(c store.Chore) (r reply.Reply, wanted bool) {
	var list []store.Renumbered
	if err := json.Unmarshal([]byte(c.Body), &list); err != nil || len(list) == 0 {
		return r, false
	}
	r.Par("Two chats of ours are one now. Some numbers were taken here already, so:")
	rows := make([][]string, len(list))
	for i, n := range list {
		rows[i] = []string{fmt.Sprintf("batch %d of the other", n.Was), fmt.Sprintf("is batch %d here", n.Is)}
	}
	r.Table(rows)
	r.Say("Everything else about them stays as it was: ", reply.Type(fmt.Sprintf("batch %d", list[0].Is)))
	return r, true
}
