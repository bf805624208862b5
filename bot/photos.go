package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/reply"
	"larderhand/store"
)

// Bounds of the pictures kept: one an entry, and the newest few shown.
const (
	largestPicture = MostFile
	mostShown      = 5
)

func isPicture(f reply.File) bool {
	return strings.HasPrefix(f.Type, "image/") && len(f.Data) > 0
}

func hasPicture(files []reply.File) bool {
	for _, f := range files {
		if isPicture(f) {
			return true
		}
	}
	return false
}

// keepPictures keeps the first picture that came with a message with the entry it
// made.
func (t *Turn) keepPictures(e store.Entry) error {
	for _, f := range t.Msg.Files {
		if !isPicture(f) {
			continue
		}
		if len(f.Data) > largestPicture {
			return &Error{Kind: BadInput, Why: fmt.Sprintf("That picture is larger than the %d MB I keep; nothing was noted.", largestPicture>>20), Example: "photos 1"}
		}
		return t.Tx.SavePicture(store.Picture{Entry: e.ID, Name: clip(orElse(f.Name, "picture"), 80), Type: f.Type, Data: f.Data})
	}
	return nil
}

// photos shows the newest pictures of a batch.
func (t *Turn) photos(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("photos", args, nil)
	if err != nil {
		return r, err
	}
	list, all, err := t.Tx.Pictures(p.State.ID, mostShown)
	if err != nil {
		return r, err
	}
	if all == 0 {
		return r, &Error{Kind: NoSuch, Why: name(p.State) + " has no pictures. Send one with a note or a tasting.", Example: fmt.Sprintf("taste %d nice crust", p.State.Number)}
	}
	r.Say(reply.B(name(p.State)), ": ", count(all, "picture"), ".")
	for _, l := range p.State.Log {
		for _, pic := range list {
			if pic.Entry == l.ID {
				said := fmt.Sprintf("%s, %s: %s", l.At.In(t.Loc).Format("2 Jan"), t.memberName(l.Member), l.Body.Text)
				r.Files = append(r.Files, reply.File{Name: pic.Name, Type: pic.Type, Data: pic.Data, Caption: clip(strings.TrimSuffix(said, ": "), 200)})
			}
		}
	}
	return r, nil
}
