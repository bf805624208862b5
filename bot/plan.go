package bot

import (
	"larderhand/bot/reply"
	"larderhand/store"
)

// loosePart writes what a chore says that belongs to no batch.
func (t *Turn) loosePart(c store.Chore) (r reply.Reply, wanted bool, err error) {
	return r, false, nil
}
