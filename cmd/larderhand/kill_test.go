package main

import (
	"context"
	"database/sql"
	"flag"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

var (
	kills    = flag.Int("kills", 8, "how often the kill test kills the program")
	killSeed = flag.Uint64("kill-seed", 0, "seed of the kill test; 0 takes one from the clock")
)

var (
	dailyPing = regexp.MustCompile(`Batch (\d+) \(juniper\), day \d+[^:]*: (?:flip it|cure check)`)
	opened    = regexp.MustCompile(`Batch (\d+) \(juniper\) is open`)
	flipped   = regexp.MustCompile(`Batch (\d+) \(juniper\) flipped, day (\d+)`)
)

// mostBatches keeps the pings of one conversation within one message.
const mostBatches = 4

// TestKilledAtAnyMoment kills the program, as it is released, again and again while
// people open and flip batches and pings go out. At the end every batch anyone was
// told of is there, none was opened twice, every flip that was confirmed is in its
// batch's journal, and every ping recorded as said arrived,
// none of them more than once in the life of one process, so no more than once more
// for each kill.
func TestKilledAtAnyMoment(t *testing.T) {
	path := binary(t)
	seed := *killSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("%d kills, -kill-seed %d", *kills, seed)
	k := &killing{t: t, rng: rand.New(rand.NewPCG(seed, 1)), tg: telegramtest.New(t, telegramtest.WithPatience(time.Minute)),
		file: filepath.Join(t.TempDir(), "club.db"), pings: map[string]int{}}
	k.env = []string{"TELEGRAM_TOKEN=" + k.tg.Token(), "TELEGRAM_API_URL=" + k.tg.URL(), "LARDERHAND_DB=" + k.file, "LARDERHAND_ZONE=Europe/Berlin"}
	k.settle(path)
	for life := range *kills {
		k.makeDue()
		c := serve(t, path, k.env...)
		k.live()
		if err := c.cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = c.cmd.Wait() // it was killed
		k.count(fmt.Sprint("life ", life+1))
	}
	k.last(path)
	k.check()
}

// killing is a kill test under way.
type killing struct {
	t     *testing.T
	rng   *rand.Rand
	tg    *telegramtest.Server
	file  string
	env   []string
	ines  []*telegramtest.User
	rooms []*telegramtest.Room
	opens []int          // openings asked for, by room
	read  []int          // messages counted, by room
	pings map[string]int // room and batch: pings that arrived
}

// settle has everyone open a first batch, undisturbed.
func (k *killing) settle(path string) {
	c := serve(k.t, path, k.env...)
	for i := range 5 {
		u := k.tg.User(fmt.Sprintf("Ines%d", i))
		room := k.tg.Private(u)
		room.AwaitAfter(room.Start(u, ""))
		room.AwaitAfter(room.Say(u, "open 5 lb juniper 1.5 in"))
		room.AwaitAfter(room.Say(u, "yes"))
		k.ines, k.rooms, k.opens, k.read = append(k.ines, u), append(k.rooms, room), append(k.opens, 1), append(k.read, 0)
	}
	k.tg.AwaitConfirmed()
	if code, log := c.term(); code != 0 {
		k.t.Fatalf("it ended with %d:\n%s", code, log)
	}
	k.count("the beginning")
}

func (k *killing) open() *sql.DB {
	db, err := sql.Open("sqlite", "file:"+k.file+"?_pragma=busy_timeout(5000)")
	if err != nil {
		k.t.Fatal(err)
	}
	k.t.Cleanup(func() { _ = db.Close() })
	return db
}

// makeDue moves the flips and cure checks to come into the past, as if a night had gone by.
func (k *killing) makeDue() {
	db := k.open()
	_, err := db.Exec("UPDATE chore SET try_at = ?1, due_at = ?1 WHERE state IN ('due', 'retry') AND kind IN ('flip', 'firm')", time.Now().Add(-time.Minute).UnixMilli())
	if err != nil {
		k.t.Fatal(err)
	}
	_ = db.Close()
}

// live has people talk for a random while.
func (k *killing) live() {
	end := time.After(time.Duration(30+k.rng.IntN(500)) * time.Millisecond)
	for {
		select {
		case <-end:
			return
		case <-time.After(time.Duration(k.rng.IntN(40)) * time.Millisecond):
		}
		i := k.rng.IntN(len(k.rooms))
		if k.opens[i] < mostBatches && k.rng.IntN(4) == 0 {
			k.opens[i]++
			k.rooms[i].Say(k.ines[i], "open 5 lb juniper 1.5 in")
			continue
		}
		k.rooms[i].Say(k.ines[i], fmt.Sprintf("flip %d", 1+k.rng.IntN(k.opens[i])))
	}
}

// count takes up the pings of a life that is over.
func (k *killing) count(life string) {
	for i, room := range k.rooms {
		said := room.FromBot()
		here := map[string]int{}
		for _, m := range said[k.read[i]:] {
			for _, hit := range dailyPing.FindAllStringSubmatch(m.Text, -1) {
				here[hit[1]]++
			}
		}
		k.read[i] = len(said)
		for batch, n := range here {
			if n > 1 {
				k.t.Errorf("%s: batch %s of room %d was pinged %d times by one process", life, batch, i, n)
			}
			k.pings[fmt.Sprintf("%d/%s", i, batch)] += n
		}
	}
}

// last lets the program work everything off and ends it as a service manager does.
func (k *killing) last(path string) {
	k.makeDue()
	c := serve(k.t, path, k.env...)
	k.tg.AwaitConfirmed()
	ctx, cancel := context.WithTimeout(k.t.Context(), time.Minute)
	defer cancel()
	db := k.open()
	for n := -1; n != 0; {
		err := db.QueryRowContext(ctx, "SELECT COUNT(*) FROM chore WHERE state IN ('due', 'retry', 'claimed') AND due_at < ?", time.Now().UnixMilli()).Scan(&n)
		if err != nil {
			k.t.Fatalf("%d are still due: %v", n, err)
		}
		select {
		case <-ctx.Done():
		case <-time.After(50 * time.Millisecond): // a process of its own tells of nothing
		}
	}
	if code, log := c.term(); code != 0 {
		k.t.Errorf("it ended with %d:\n%s", code, log)
	}
	k.count("the last life")
}

func (k *killing) check() {
	db := k.open()
	sum := func(query string, args ...any) (n int) {
		k.t.Helper()
		if err := db.QueryRow(query, args...).Scan(&n); err != nil {
			k.t.Fatal(err)
		}
		return n
	}
	total, arrived, recorded, confirmed := 0, 0, 0, 0
	for i, room := range k.rooms {
		conv := sum("SELECT id FROM conversation WHERE address = ?", "telegram:"+strconv.FormatInt(room.ID(), 10))
		batches := sum("SELECT COUNT(*) FROM batch WHERE conversation_id = ?", conv)
		if batches != k.opens[i] {
			k.t.Errorf("room %d: %d openings made %d batches", i, k.opens[i], batches)
		}
		total += batches
		for _, hit := range opened.FindAllStringSubmatch(room.Transcript(), -1) {
			if sum("SELECT COUNT(*) FROM batch WHERE conversation_id = ? AND number = ?", conv, hit[1]) != 1 {
				k.t.Errorf("room %d was told of batch %s, which is not there", i, hit[1])
			}
		}
		flips := map[[2]string]bool{} // batch and day: confirmed, however often
		for _, hit := range flipped.FindAllStringSubmatch(room.Transcript(), -1) {
			flips[[2]string(hit[1:])] = true
		}
		confirmed += len(flips)
		for n := 1; n <= batches; n++ {
			want := 0
			for f := range flips {
				if f[0] == strconv.Itoa(n) {
					want++
				}
			}
			if got := sum("SELECT COUNT(*) FROM entry e JOIN batch b ON b.id = e.batch_id WHERE b.conversation_id = ? AND b.number = ? AND e.kind = 'flip' AND e.struck_at = 0", conv, n); got < want {
				k.t.Errorf("room %d, batch %d: flips of %d days were confirmed, %d are in the journal", i, n, want, got)
			}
			said := sum("SELECT COUNT(*) FROM chore c JOIN batch b ON b.id = c.batch_id WHERE b.conversation_id = ? AND b.number = ? AND c.kind IN ('flip', 'firm') AND c.state = 'sent'", conv, n)
			got := k.pings[fmt.Sprintf("%d/%d", i, n)]
			arrived, recorded = arrived+got, recorded+said
			if got < said {
				k.t.Errorf("room %d, batch %d: %d pings are recorded as said, %d arrived", i, n, said, got)
			}
			if got > said+*kills {
				k.t.Errorf("room %d, batch %d: %d pings arrived for %d after %d kills", i, n, got, said, *kills)
			}
		}
	}
	var sound string
	if err := db.QueryRow("PRAGMA integrity_check").Scan(&sound); err != nil || sound != "ok" {
		k.t.Errorf("the file is not sound: %s, %v", strings.TrimSpace(sound), err)
	}
	k.t.Logf("%d batches, %d flips confirmed, %d pings arrived for %d recorded", total, confirmed, arrived, recorded)
	if arrived == 0 || confirmed == 0 {
		k.t.Error("no ping arrived at all, or no flip was confirmed")
	}
}
