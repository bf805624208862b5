package store

import (
	"encoding/json"
	"time"

	"larderhand/curemath"
)

// Stocked is what a person counted or bought of one thing.
type Stocked struct {
	ID     int64
	Member int64
	Item   string
	Kind   string // StockCount or StockBuy
	Weight curemath.Grams
	Paid   curemath.Money // for a buy; 0 where it was not said
	At     time.Time
}

// The kinds of stock entry.
const (
	StockCount = "count" // so much is there
	StockBuy   = "buy"   // so much came on top
)

// AddStock writes down what was counted or bought.
func (t *Tx) AddStock(s Stocked) error {
	_, err := t.exec("INSERT INTO stock (member_id, item, kind, grams, paid, at) VALUES (?, ?, ?, ?, ?, ?)",
		s.Member, s.Item, s.Kind, float64(s.Weight), float64(s.Paid), toMillis(t.now))
	return err
}

// Stock lists what a person counted and bought, in the order they did.
func (t *Tx) Stock(member int64) ([]Stocked, error) {
	return gather(t, func(s *Stocked) []any {
		return []any{&s.ID, &s.Member, &s.Item, &s.Kind, &s.Weight, &s.Paid, instant(&s.At)}
	}, "SELECT id, member_id, item, kind, grams, paid, at FROM stock WHERE member_id = ? ORDER BY id", member)
}

// Planned is a batch meant for a date.
type Planned struct {
	ID        int64                `json:"-"`
	Member    int64                `json:"-"`
	Ready     string               `json:"-"` // local date it is wanted on
	State     string               `json:"-"`
	Line      string               `json:"line,omitempty"` // the cure, as it can be typed
	Recipe    string               `json:"recipe,omitempty"`
	Weight    curemath.Grams       `json:"weight,omitempty"`
	Thickness curemath.Millimetres `json:"thickness,omitempty"`
	Mix       curemath.Grams       `json:"mix,omitempty"`
	Salt      curemath.Grams       `json:"salt,omitempty"`
	Sugar     curemath.Grams       `json:"sugar,omitempty"`
	Buy       string               `json:"buy"` // local dates
	Start     string               `json:"start"`
	Check     string               `json:"check"`
	Smoke     string               `json:"smoke"`
	Pack      string               `json:"pack"`
}

// The states of a planned batch.
const (
	PlanOpen    = "open"
	PlanDropped = "dropped"
)

// AddPlan keeps a planned batch and gives it back with its id.
func (t *Tx) AddPlan(p Planned) (Planned, error) {
	body, err := toJSON(p)
	if err != nil {
		return p, err
	}
	p.State = PlanOpen
	res, err := t.exec("INSERT INTO planned (member_id, ready, body, at) VALUES (?, ?, ?, ?)", p.Member, p.Ready, body, toMillis(t.now))
	if err != nil {
		return p, err
	}
	p.ID, err = res.LastInsertId()
	return p, err
}

// DropPlan ends a plan.
func (t *Tx) DropPlan(id int64) error {
	_, err := t.exec("UPDATE planned SET state = 'dropped' WHERE id = ?", id)
	return err
}

// Plans lists a person's open plans wanted on or after a local date, by that date.
func (t *Tx) Plans(member int64, from string) ([]Planned, error) {
	return t.plans("WHERE member_id = ? AND state = 'open' AND ready >= ? ORDER BY ready, id", member, from)
}

// Plan finds a plan by its id, or ErrNotFound.
func (t *Tx) Plan(id int64) (Planned, error) {
	return first(t.plans("WHERE id = ?", id))
}

func (t *Tx) plans(where string, args ...any) ([]Planned, error) {
	var out []Planned
	err := t.each(func(scan func(...any) error) error {
		var (
			p    Planned
			body string
		)
		if err := scan(&p.ID, &p.Member, &p.Ready, &p.State, &body); err != nil {
			return err
		}
		if err := json.Unmarshal([]byte(body), &p); err != nil {
			return err
		}
		out = append(out, p)
		return nil
	}, "SELECT id, member_id, ready, state, body FROM planned "+where, args...)
	return out, err
}
