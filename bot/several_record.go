package bot

import (
	"maps"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/store"
)

// entry is what is recorded of some pieces; one letter "" is the batch as a whole.
type entry struct {
	of   []string
	body course.Body
}

// wholeOr are the pieces named, or "" for the batch as a whole. Letters keep an entry
// each even where they are all there are, so that one can be taken back by itself.
func wholeOr(s course.State, of []string) []string {
	if len(of) == 0 || len(s.Batch.Pieces) == 1 {
		return []string{""}
	}
	return of
}

// recordOf appends one entry a piece and replans the batch once.
func (t *Turn) recordOf(s course.State, of []string, kind string, body course.Body) (course.State, error) {
	if err := t.writeEach(s.Batch, []entry{{of, body}}, kind, t.Now); err != nil {
		return s, err
	}
	return replan(t.Tx, t.Conv, t.Loc, s.Batch)
}

// whoOf names a batch, and the pieces of it that something was recorded of.
func (t *Turn) whoOf(s course.State, of []string) []any {
	if len(of) == 1 {
		return []any{reply.B(t.pieceOrBatch(s, of[0]))}
	}
	if n := pieceNames(s, join(of)); n != "" {
		return []any{reply.B(name(s)), ", ", n}
	}
	return []any{reply.B(name(s))}
}

// oneBreath is where an entry keeps the letters it was recorded with, so that undo
// takes back the whole of it.
const oneBreath = "with"

// writeEach appends one entry a piece.
func (t *Turn) writeEach(b store.Batch, list []entry, kind string, at time.Time) error {
	with := ""
	for _, e := range list {
		with += join(e.of)
	}
	for _, e := range list {
		for _, letter := range e.of {
			body := e.body
			if len(with) > 1 {
				body.Extra = maps.Clone(body.Extra)
				if body.Extra == nil {
					body.Extra = map[string]string{}
				}
				body.Extra[oneBreath] = with
			}
			if err := t.write(b, letter, kind, at, body); err != nil {
				return err
			}
		}
	}
	return nil
}

// inOneBreath are the entries of a log that were recorded together with the one at i,
// that one first.
func inOneBreath(log []course.Log, i int) []course.Log {
	last := log[i]
	list := []course.Log{last}
	with := last.Body.Extra[oneBreath]
	for n := 1; n < len(with) && i-n >= 0; n++ {
		l := log[i-n]
		if l.Kind != last.Kind || l.Body.Extra[oneBreath] != with || l.Member != last.Member || !l.Recorded.Equal(last.Recorded) {
			break
		}
		list = append(list, l)
	}
	return list
}
