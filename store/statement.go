package store

import (
	"context"
	"database/sql"
	"sync"
)

// mostStatements bounds what is kept ready; the program has fewer queries.
const mostStatements = 300

// statements keeps queries ready, since reading them costs as much as running
// them. A query met for the first time is run as it is and made ready once its
// transaction is over: within one, the connection this needs may be its own.
type statements struct {
	mu   sync.Mutex
	have map[string]*sql.Stmt
	want []string
}

// get gives a query made ready, or nil.
func (s *statements) get(query string) *sql.Stmt {
	s.mu.Lock()
	defer s.mu.Unlock()
	st, known := s.have[query]
	if !known && len(s.have) < mostStatements {
		if s.have == nil {
			s.have = map[string]*sql.Stmt{}
		}
		s.have[query] = nil // on its way
		s.want = append(s.want, query)
	}
	return st
}

// ready makes ready what was met since. One that can't be is run as it is.
func (s *statements) ready(ctx context.Context, db *sql.DB) {
	s.mu.Lock()
	want := s.want
	s.want = nil
	s.mu.Unlock()
	for _, q := range want {
		st, err := db.PrepareContext(ctx, q)
		if err != nil {
			continue
		}
		s.mu.Lock()
		s.have[q] = st
		s.mu.Unlock()
	}
}
