package bot

import (
	"fmt"
	"slices"
	"strings"

	"larderhand/bot/chart"
	"larderhand/bot/course"
	"larderhand/bot/reply"
)

func cardCommands() []Command {
	return []Command{{Name: "card", Also: []string{"summary"}, Own: true, Group: groupLook, Form: "card 3", Help: "the whole batch at a glance: words, a picture, a file", Example: "card 1", Batch: true, Reads: true, Run: (*Turn).card}}
}

// card sums a batch up, finished or running: a few lines, a picture, and a file
// with everything in the journal. All three are made of the same facts.
func (t *Turn) card(args string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("card", args, nil)
	if err != nil {
		return r, err
	}
	s := p.State
	data, err := t.summary(s, false)
	if err != nil {
		return r, err
	}
	png, err := chart.Summary(data, t.style())
	if err != nil {
		return r, err
	}
	full, err := t.summary(s, true)
	if err != nil {
		return r, err
	}
	text, err := t.cardFile(s, full)
	if err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": ", t.standing(s), ". ", data.Under, ".")
	lost := slices.ContainsFunc(s.Pieces, func(p course.PieceState) bool { _, ok := t.lossOf(s, p); return ok })
	if lost { // before anything that reads as praise
		r.Say(data.Caution)
	}
	var tiles []string
	for _, f := range data.Tiles {
		tiles = append(tiles, f.Value+" "+f.Label)
	}
	r.Say(strings.Join(tiles, "; "), ".")
	for _, sec := range data.Sections {
		for _, f := range sec.Facts {
			if f.Verdict == chart.Doubtful { // what failed is in the caution
				r.Say(f.Label, ": ", stop(f.Value))
			}
		}
	}
	for _, n := range data.Notes[:min(len(data.Notes), 2)] {
		r.Say(stop(clip(n, 120)))
	}
	if !lost {
		r.Say(data.Caution)
	}
	r.Files = []reply.File{
		{Name: fmt.Sprintf("batch-%d-card.png", s.Number), Type: "image/png", Alt: name(s) + " at a glance: " + strings.Join(tiles, "; ") + ".", Data: png},
		{Name: fmt.Sprintf("batch-%d.txt", s.Number), Type: "text/plain; charset=utf-8", Data: []byte(text)},
	}
	return r, nil
}

// smokeEnded adds the picture of the smoke once the last piece is out of it.
func (t *Turn) smokeEnded(r *reply.Reply, s course.State) error {
	if _, all := s.Marked(course.Smoked, ""); !all {
		return nil
	}
	file, err := t.smokePicture(s, true)
	if err != nil || file == nil {
		return err
	}
	r.Replace = false // a picture comes as a message of its own
	r.Files = append(r.Files, *file)
	return nil
}
