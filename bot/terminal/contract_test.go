package terminal_test

import (
	"context"
	"io"
	"regexp"
	"strings"
	"testing"
	"time"

	"larderhand/bot"
	"larderhand/bot/adaptertest"
	"larderhand/bot/terminal"
	"larderhand/store"
)

// typed gives one line and ends.
type typed struct {
	line string
	done bool
}

func (l *typed) ReadLine() (string, error) {
	if l.done {
		return "", io.EOF
	}
	l.done = true
	return l.line, nil
}

// sheet is what was printed, each printing apart.
type sheet []string

func (s *sheet) Write(p []byte) (int, error) {
	*s = append(*s, string(p))
	return len(p), nil
}

func TestContract(t *testing.T) {
	adaptertest.Exercise(t, func(t testing.TB, b *adaptertest.Bot) adaptertest.Fixture {
		out := &sheet{}
		at := time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)
		c := &terminal.Chat{Bot: b, Out: out, Person: bot.Person{Key: "ines", Name: "Ines"},
			Now: func() time.Time { return at }, Zone: func(context.Context) *time.Location { return time.UTC }}
		say := func(text string) {
			if err := c.Run(context.Background(), &typed{line: text}); err != nil {
				t.Fatal(err)
			}
		}
		return adaptertest.Fixture{Sender: c, Here: terminal.Address, Person: "ines", Say: say,
			Press: func(label string) {
				all := regexp.MustCompile(`\[`+regexp.QuoteMeta(label)+`: ([^\]]+)\]`).FindAllStringSubmatch(strings.Join(*out, ""), -1)
				if len(all) == 0 {
					t.Fatalf("no button is labelled %q", label)
				}
				say(all[len(all)-1][1])
			},
			Shown: func(store.Address) []adaptertest.Shown {
				var all []adaptertest.Shown
				for _, p := range *out {
					all = append(all, adaptertest.Shown{Text: p})
				}
				return all
			}}
	})
}
