package adaptertest

import (
	"context"
	"errors"
	"strings"
	"testing"

	"larderhand/store"
)

// sameKey: sending again under a key is no error and shows the reply once or twice,
// never not at all.
func sameKey(t *testing.T, s *stage) {
	for range 2 {
		if _, err := s.Sender.Send(t.Context(), s.Here, "one-key", one("flip it")); err != nil {
			t.Fatal(err)
		}
	}
	if n := strings.Count(joined(s.Shown(s.Here)), "flip it"); n < 1 || n > 2 {
		t.Errorf("shown %d times", n)
	}
}

var kinds = []store.FailureKind{store.Unknown, store.Wait, store.Moved, store.Gone, store.Refused}

func failures(t *testing.T, s *stage) {
	for _, kind := range kinds {
		prepare, ok := s.Fail[kind]
		if !ok {
			continue
		}
		prepare()
		_, err := s.Sender.Send(t.Context(), s.Here, "fails", one("flip it"))
		var f *store.Failure
		if !errors.As(err, &f) || f.Kind != kind {
			t.Errorf("kind %d came out as %v", kind, err)
			continue
		}
		if kind == store.Wait && f.After != s.After {
			t.Errorf("wait %s, the platform said %s", f.After, s.After)
		}
		if kind == store.Moved && f.To != s.Moved {
			t.Errorf("moved to %s, the platform said %s", f.To, s.Moved)
		}
		if s.Secret != "" && strings.Contains(err.Error(), s.Secret) {
			t.Errorf("the token is in the error %q", err)
		}
	}
}

func noRetry(t *testing.T, s *stage) {
	prepare, ok := s.Fail[store.Wait]
	if !ok {
		t.Skip("the platform never asks to wait")
	}
	before := len(s.Shown(s.Here))
	prepare()
	if _, err := s.Sender.Send(t.Context(), s.Here, "again", one("flip it")); err == nil {
		t.Error("a sending that failed reports success")
	}
	if got := s.since(s.Here, before); len(got) > 0 {
		t.Errorf("it was sent all the same: %q", joined(got))
	}
	if _, err := s.Sender.Send(t.Context(), s.Here, "again", one("flip it")); err != nil {
		t.Errorf("the next try: %v", err)
	}
	if n := strings.Count(joined(s.since(s.Here, before)), "flip it"); n != 1 {
		t.Errorf("after the next try it is shown %d times", n)
	}
}

func ended(t *testing.T, s *stage) {
	if s.Secret == "" {
		t.Skip("nothing to wait for")
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := s.Sender.Send(ctx, s.Here, "too late", one("flip it"))
	var f *store.Failure
	if !errors.As(err, &f) || f.Kind != store.Unknown {
		t.Errorf("a sending cut short gives %v", err)
	}
	if err != nil && strings.Contains(err.Error(), s.Secret) {
		t.Errorf("the token is in the error %q", err)
	}
}
