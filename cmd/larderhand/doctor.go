package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/dustin/go-humanize"

	"larderhand/curemath"
	"larderhand/store"
)

// doctorCmd looks whether everything is in order.
type doctorCmd struct {
	storeFlags
	zoneFlags
}

// errUnwell makes the exit code say what the lines say.
var errUnwell = errors.New("not everything is in order; see above")

// Run checks the database, what is pending, the clock and the zones. It changes
// nothing, and may run beside the program itself.
func (c *doctorCmd) Run(ctx context.Context, s streams) error {
	file, err := c.file()
	if err != nil {
		return err
	}
	d := &doctor{out: s.out, now: time.Now()}
	d.machine(&c.zoneFlags)
	d.place(file)
	f, err := store.Inspect(ctx, file)
	var broken *store.Broken
	if errors.As(err, &broken) {
		err = broken.Cause
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		d.fine("database", file+" is not there yet; it is made at the first start")
	case err != nil:
		d.bad("database", err.Error(), "keep a copy of the file and of those beside it; start with the last backup")
	default:
		d.file(file, f)
		d.chores(f)
		d.clock(f)
		d.zones(f)
	}
	if d.err == nil && d.unwell {
		return errUnwell
	}
	return d.err
}

type doctor struct {
	out    io.Writer
	now    time.Time
	unwell bool
	err    error
}

func (d *doctor) fine(what, is string) { d.line("ok ", what, is) }

// bad says what is wrong and what to do about it.
func (d *doctor) bad(what, is, do string) {
	d.unwell = true
	d.line("BAD", what, is+": "+do)
}

func (d *doctor) line(mark, what, is string) {
	if _, err := fmt.Fprintf(d.out, "%s  %-9s %s\n", mark, what, is); err != nil && d.err == nil {
		d.err = err
	}
}

func (d *doctor) machine(z *zoneFlags) {
	if _, err := curemath.LoadRules(); err != nil {
		d.bad("rules", err.Error(), "install the program again")
	} else {
		d.fine("rules", "the rule sets can be read")
	}
	loc, err := z.location()
	if err != nil {
		d.bad("zone", err.Error(), "set LARDERHAND_ZONE")
		return
	}
	d.fine("zone", fmt.Sprintf("new conversations are in %s, where it is %s", loc, d.now.In(loc).Format("Mon 2 Jan 2006 15:04")))
}

// leastRoom is how much room a disk ought to have: years of batches.
const leastRoom = 64 << 20

func (d *doctor) place(file string) {
	dir := filepath.Dir(file)
	if _, err := os.Stat(dir); err != nil {
		return // made at the first start
	}
	room, ok := freeSpace(dir)
	switch {
	case !ok:
	case room < leastRoom:
		d.bad("disk", humanize.IBytes(room)+" free", "make room before it is full; nothing can be recorded then")
	default:
		d.fine("disk", humanize.IBytes(room)+" free")
	}
	probe, err := os.CreateTemp(dir, ".larderhand-probe-*")
	if err != nil {
		d.bad("folder", dir+" can't be written", "check its owner and that it is not mounted read-only")
		return
	}
	if err := errors.Join(probe.Close(), os.Remove(probe.Name())); err != nil {
		d.bad("folder", err.Error(), "check the disk")
	}
}

func (d *doctor) file(file string, f store.Findings) {
	use := "no process uses it"
	if f.InUse {
		use = "in use by a running larderhand"
	}
	d.fine("database", fmt.Sprintf("%s, %s, %s", file, humanize.IBytes(uint64(f.Size)), use))
	if f.Mode&0o077 != 0 {
		d.bad("owner", fmt.Sprintf("others may read it (%s)", f.Mode), "chmod 600 "+file)
	}
	switch {
	case f.Schema > f.Newest:
		d.bad("schema", fmt.Sprintf("version %d is newer than this program's %d", f.Schema, f.Newest), "update the program")
	case f.Schema < f.Newest:
		d.fine("schema", fmt.Sprintf("version %d, brought to %d at the next start", f.Schema, f.Newest))
	default:
		d.fine("schema", fmt.Sprintf("version %d", f.Schema))
	}
	if len(f.Damage) > 0 {
		d.bad("integrity", strings.Join(f.Damage, "; "), "stop the program, keep a copy, go back to the last backup")
	} else {
		d.fine("integrity", "sound")
	}
	if f.Orphans > 0 {
		d.bad("links", fmt.Sprintf("%d rows name others that are not there", f.Orphans), "keep a copy and report it")
	}
}

// tooLate is when something due and unsaid means that nothing is running.
const tooLate = time.Hour

func (d *doctor) chores(f store.Findings) {
	if f.States == nil {
		return
	}
	var parts []string
	for _, state := range slices.Sorted(maps.Keys(f.States)) {
		parts = append(parts, fmt.Sprintf("%d %s", f.States[state], state))
	}
	if len(parts) == 0 {
		parts = []string{"none yet"}
	}
	d.fine("pings", strings.Join(parts, ", "))
	switch late := d.now.Sub(f.OldestDue); {
	case f.OldestDue.IsZero():
	case late > tooLate && f.InUse:
		d.bad("overdue", "the oldest ping was due "+humanize.RelTime(f.OldestDue, d.now, "ago", ""), "look in the log for what keeps it")
	case late > tooLate:
		d.bad("overdue", "the oldest ping was due "+humanize.RelTime(f.OldestDue, d.now, "ago", ""), "start larderhand; it says what is late, once")
	default:
		d.fine("overdue", "none")
	}
	if f.Parked > 0 {
		d.fine("parked", fmt.Sprintf("%d conversations can't be reached and wait until someone speaks there", f.Parked))
	}
}

// skew is by how much written instants may be ahead: clocks are set by small
// steps all the time.
const skew = 5 * time.Minute

func (d *doctor) clock(f store.Findings) {
	if f.Latest.Sub(d.now) > skew {
		d.bad("clock", fmt.Sprintf("it says %s, but something was recorded on %s", d.now.Format(time.RFC3339), f.Latest.In(d.now.Location()).Format(time.RFC3339)),
			"set the machine's clock, best by a time service")
		return
	}
	d.fine("clock", "says "+d.now.Format(time.RFC3339))
}

func (d *doctor) zones(f store.Findings) {
	known := 0
	for _, name := range slices.Sorted(maps.Keys(f.Zones)) {
		if _, err := time.LoadLocation(name); err != nil {
			d.bad("zones", fmt.Sprintf("%d conversations are in %q, which this program does not know", f.Zones[name], name), "update the program, or set another zone there")
			continue
		}
		known++
	}
	d.fine("zones", fmt.Sprintf("%d in use are known", known))
}
