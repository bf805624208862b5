package bot

import (
	"strings"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

func shareCommands() []Command {
	return []Command{
		{Name: "share", Group: groupTogether, Form: `share 3 / share "winter juniper"`, Help: "let others see a batch, or take a recipe", Example: "share 1", Run: (*Turn).share},
		{Name: "unshare", Group: groupTogether, Form: `unshare 3 / unshare "winter juniper"`, Help: "take it back", Example: "unshare 1", Run: (*Turn).unshare},
	}
}

// namesRecipe says whether what is to be shared is called by a name and not by a
// batch's number.
func namesRecipe(args string) bool {
	_, _, ok, err := parse.Batch(args)
	return strings.TrimSpace(args) != "" && (err != nil || !ok)
}

func (t *Turn) share(args string) (reply.Reply, error) {
	kept, _, err := t.findRecipe("share", args)
	if err != nil {
		return reply.Reply{}, err
	}
	return t.shareRecipe(kept, t.Conv, true)
}

func (t *Turn) unshare(args string) (reply.Reply, error) {
	kept, _, err := t.findRecipe("unshare", args)
	if err != nil {
		return reply.Reply{}, err
	}
	return t.shareRecipe(kept, t.Conv, false)
}
