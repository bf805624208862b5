package main

import (
	"fmt"
	"time"

	"github.com/adrg/xdg"
)

// cli is what can be asked for on the command line; environment variables stand
// behind the flags.
type cli struct {
	Chat   chatCmd   `cmd:"" default:"withargs" help:"Chat in this terminal (the default)."`
	Serve  serveCmd  `cmd:"" help:"Serve the chat platforms whose tokens are set."`
	Doctor doctorCmd `cmd:"" help:"Check the database, what is pending, the clock and the zones."`
}

// storeFlags say where things are kept.
type storeFlags struct {
	DB string `name:"db" env:"LARDERHAND_DB" placeholder:"FILE" help:"Where batches are kept; :memory: keeps nothing. Default: larderhand/larderhand.db in the user's data folder."`
}

func (f storeFlags) file() (string, error) {
	if f.DB != "" {
		return f.DB, nil
	}
	file, err := xdg.DataFile("larderhand/larderhand.db")
	if err != nil {
		return "", fmt.Errorf("find the user's data folder (LARDERHAND_DB names another): %w", err)
	}
	return file, nil
}

// zoneFlags say which zone a new conversation is in.
type zoneFlags struct {
	Zone string `env:"LARDERHAND_ZONE" placeholder:"NAME" help:"Time zone of new conversations, such as Europe/Berlin. Default: this machine's."`
}

func (f zoneFlags) location() (*time.Location, error) {
	if f.Zone == "" {
		return machineZone(), nil
	}
	loc, err := time.LoadLocation(f.Zone)
	if err != nil || f.Zone == "Local" {
		return nil, fmt.Errorf("LARDERHAND_ZONE: no time zone is called %q; a name looks like Europe/Berlin", f.Zone)
	}
	return loc, nil
}

// logFlags say how much is logged.
type logFlags struct {
	Log string `env:"LARDERHAND_LOG" enum:"debug,info,warn,error" default:"warn" help:"How much to log to standard error: debug, info, warn or error."`
}

// instant is a point in time on the command line, in RFC 3339.
type instant struct{ time.Time }

// UnmarshalText reads an instant such as 2027-03-01T09:00:00-06:00.
func (i *instant) UnmarshalText(b []byte) error {
	t, err := time.Parse(time.RFC3339, string(b))
	if err != nil {
		return fmt.Errorf("%q is no instant; one looks like 2027-03-01T09:00:00-06:00", b)
	}
	i.Time = t
	return nil
}
