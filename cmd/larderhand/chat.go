package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/user"
	"path/filepath"
	"time"

	"golang.org/x/term"

	"larderhand/bot"
	"larderhand/bot/reply"
	"larderhand/bot/terminal"
	"larderhand/scheduler"
	"larderhand/store"
)

// chatCmd is a chat in the terminal.
type chatCmd struct {
	storeFlags
	zoneFlags
	logFlags
	Clock *instant `placeholder:"INSTANT" help:"Start on a simulated clock, such as 2027-03-01T09:00:00-06:00; then \"wait 1d\" or \"wait until 08:00\" moves it."`
	Name  string   `env:"LARDERHAND_NAME" help:"What to call you."`
	Echo  bool     `help:"Repeat each line read, for a transcript."`
}

// Run chats until the input ends.
func (c *chatCmd) Run(ctx context.Context, s streams) (err error) {
	zone, err := c.location()
	if err != nil {
		return err
	}
	file, err := c.file()
	if err != nil {
		return err
	}
	var clock bot.Clock = wallClock{}
	hand := &scheduler.HandClock{}
	if c.Clock != nil {
		hand.At = c.Clock.In(zone)
		clock = hand
	}
	chat := &terminal.Chat{Out: s.out, Person: bot.Person{Key: "terminal", Name: c.name(), Admin: true}, Now: clock.Now, Echo: c.Echo}
	if file != store.Memory {
		chat.Save = saveBeside(file)
	}
	log := c.logger(s.err)
	alarm := newAlarm(log, "", chat)
	a, err := newApp(ctx, file, clock, zone, chat, log, store.OnBroken(alarm.turn))
	if err != nil {
		return err
	}
	if a.lost != nil {
		alarm.turn(a.lost)
	}
	defer func() {
		if cerr := a.Close(); err == nil {
			err = cerr
		}
	}()
	chat.Bot = a.bot
	a.sched.Limits = map[string]scheduler.Limits{terminal.Address.Lane(): {}}
	chat.Zone = func(ctx context.Context) *time.Location { return a.bot.ZoneOf(ctx, terminal.Address) }
	if c.Clock != nil {
		move := func(ctx context.Context, to time.Time) error { return a.sched.Advance(ctx, hand, to) }
		chat.Wait = terminal.Simulated{Now: hand.Now, Zone: chat.Zone, Move: move}
		if err := move(ctx, hand.At); err != nil { // what came due while nothing ran
			return err
		}
		return chat.Run(ctx, terminal.NewScript(s.in))
	}
	return c.live(ctx, s, a, chat)
}

// live chats on real time: the heartbeat runs beside the conversation.
func (c *chatCmd) live(ctx context.Context, s streams, a *app, chat *terminal.Chat) error {
	var lines terminal.Lines = terminal.NewScript(s.in)
	out, isFile := s.out.(*os.File)
	if isFile && term.IsTerminal(int(s.in.Fd())) && term.IsTerminal(int(out.Fd())) {
		screen, err := terminal.NewScreen(s.in, out, "> ")
		if err != nil {
			return fmt.Errorf("take over the terminal: %w", err)
		}
		defer func() { _ = screen.Restore() }() // nothing more can be said if it fails
		lines, chat.Out = screen, screen
		if _, err := io.WriteString(screen, greeting); err != nil {
			return err
		}
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	a.sched.Workers = 1
	if a.lost == nil {
		a.sched.Upkeep = upkeep{db: a.db, bot: a.bot, log: c.logger(s.err)}
	}
	beat := make(chan error, 1)
	go func() { beat <- a.sched.Run(ctx, time.Now) }()
	err := chat.Run(ctx, lines)
	stop()
	if berr := <-beat; err == nil {
		err = berr
	}
	return err
}

const greeting = "Larderhand. Tell me a weight, such as 5 lb juniper 1.5 in; \"help\" lists the rest; \"quit\" ends.\n\n"

func (c *chatCmd) name() string {
	if c.Name != "" {
		return c.Name
	}
	if u, err := user.Current(); err == nil && u.Username != "" {
		return u.Username
	}
	return "you"
}

// saveBeside keeps pictures and files in a folder beside the database.
func saveBeside(db string) func(reply.File) (string, error) {
	return func(f reply.File) (string, error) {
		dir := filepath.Join(filepath.Dir(db), "files")
		if err := os.MkdirAll(dir, 0o700); err != nil {
			return "", err
		}
		path := filepath.Join(dir, filepath.Base(f.Name))
		return path, os.WriteFile(path, f.Data, 0o600)
	}
}
