package terminal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/store"
)

// Address is where a terminal chat takes place.
const Address store.Address = "terminal:"

// Answerer answers a message.
type Answerer interface {
	Handle(ctx context.Context, m bot.Message) reply.Reply
}

// Lines gives what a person types, a line at a time; io.EOF ends the chat.
type Lines interface {
	ReadLine() (string, error)
}

// Waiter moves a simulated clock. It is nil in a chat on real time.
type Waiter interface {
	// Wait moves the clock as a line such as "wait 1d" or "wait until 08:00"
	// says; what is due on the way is sent meanwhile.
	Wait(ctx context.Context, how string) (now time.Time, err error)
}

// Chat is a terminal chat. It is also the sender of its pings.
type Chat struct {
	Bot    Answerer
	Out    io.Writer
	Person bot.Person
	Wait   Waiter
	Save   func(reply.File) (string, error)
	Echo   bool // repeat what was typed, for a transcript
	Zone   func(context.Context) *time.Location
	Now    func() time.Time

	mu sync.Mutex
}

type typedLine struct {
	text string
	err  error
}

// Run reads lines and prints replies until the lines end.
func (c *Chat) Run(ctx context.Context, lines Lines) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	typed := make(chan typedLine)
	go func() { // a read cannot be interrupted; the chat can
		for {
			line, err := lines.ReadLine()
			select {
			case typed <- typedLine{line, err}:
			case <-ctx.Done():
				return
			}
			if err != nil {
				return
			}
		}
	}()
	for {
		var line string
		var err error
		select {
		case t := <-typed:
			line, err = t.text, t.err
		case <-ctx.Done():
			return nil
		}
		if line != "" || err == nil {
			if w := strings.ToLower(strings.TrimSpace(line)); w == "quit" || w == "exit" {
				return nil
			}
			if perr := c.line(ctx, line); perr != nil {
				return perr
			}
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (c *Chat) line(ctx context.Context, line string) error {
	line = strings.TrimRight(line, "\r\n")
	if strings.TrimSpace(line) == "" {
		return nil
	}
	if c.Echo {
		if err := c.print("> " + printable(line)); err != nil {
			return err
		}
	}
	word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
	if c.Wait == nil && strings.EqualFold(word, "wait") {
		return c.print("Real time passes by itself; only a chat started with --clock can wait.")
	}
	if c.Wait != nil && strings.EqualFold(word, "wait") {
		return c.wait(ctx, strings.TrimSpace(rest))
	}
	r := c.Bot.Handle(ctx, bot.Message{Conversation: Address, Direct: true, Sender: c.Person, Text: line, At: c.Now()})
	return c.print(Render(r, c.Save))
}

func (c *Chat) wait(ctx context.Context, how string) error {
	now, err := c.Wait.Wait(ctx, how)
	if err != nil {
		return c.print(err.Error())
	}
	return c.print("It is " + now.In(c.Zone(ctx)).Format("Mon 2 Jan 2006 15:04 MST") + ".")
}

// Send prints a ping with its local time. A ping printed is a ping delivered; one
// sent again after a crash is printed again.
func (c *Chat) Send(ctx context.Context, _ store.Address, _ string, r reply.Reply) (string, error) {
	if r.Empty() {
		return "", nil
	}
	at := c.Now().In(c.Zone(ctx)).Format("Mon 2 Jan 15:04 MST")
	if err := c.print("[" + at + "]\n" + Render(r, c.Save)); err != nil {
		return "", &store.Failure{Kind: store.Unknown, Cause: err}
	}
	return "", nil
}

func (c *Chat) print(s string) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	_, err := fmt.Fprint(c.Out, s+"\n\n")
	return err
}
