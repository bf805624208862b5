package discord

import (
	"fmt"
	"strconv"
	"strings"
)

// pageRef says which answer the buttons to turn its pages belong to: the event it
// answered and the line that asked. It goes into their ids, so that pages can be
// turned after a restart.
type pageRef struct {
	event string // the interaction's id
	line  string
}

// pageMark begins the ids of such buttons: a later format gets another.
const pageMark = "P1:"

// id is the button's id that leads to page n.
func (p pageRef) id(n int) string {
	id := fmt.Sprintf("%s%d:%s:", pageMark, n, p.event)
	if fitsID(id + p.line) {
		return id + p.line
	}
	return id // what was kept of the answer has to do
}

// row is the row of buttons under page n of so many.
func (p pageRef) row(n, of int) row {
	r := row{Type: typeRow}
	if n > 0 {
		r.Components = append(r.Components, component{Type: typeButton, Style: stylePlain, Label: fmt.Sprintf("◀ Page %d of %d", n, of), CustomID: p.id(n - 1)})
	}
	if n < of-1 {
		r.Components = append(r.Components, component{Type: typeButton, Style: stylePlain, Label: fmt.Sprintf("Page %d of %d ▶", n+2, of), CustomID: p.id(n + 1)})
	}
	return r
}

// readPageRef reads a button's id back; ok is false for any other button.
func readPageRef(id string) (p pageRef, n int, ok bool) {
	rest, ok := strings.CutPrefix(id, pageMark)
	if !ok {
		return p, 0, false
	}
	f := strings.SplitN(rest, ":", 3)
	if len(f) != 3 || !snowflake.MatchString(f[1]) {
		return p, 0, false
	}
	n, err := strconv.Atoi(f[0])
	if err != nil || n < 0 || n > 999 {
		return p, 0, false
	}
	return pageRef{event: f[1], line: f[2]}, n, true
}
