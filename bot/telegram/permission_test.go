package telegram_test

import (
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram/telegramtest"
)

// Who may do what to Ines's batch in a group, cell by cell, typed as a command. Who
// manages the group is looked up with the platform.
func TestWhoMay(t *testing.T) {
	type may struct {
		look, note, flip, step, change, end, set bool
	}
	type scene struct {
		tg                  *telegramtest.Server
		r                   *rig
		club                *telegramtest.Room
		ines, tobias, marit *telegramtest.User
		warden              *telegramtest.User // made an administrator by the owner
	}
	type speaker func(line string) (answers *telegramtest.Room)
	in := func(s *scene, room *telegramtest.Room, u *telegramtest.User) speaker {
		return func(line string) *telegramtest.Room {
			word, rest, _ := strings.Cut(line, " ")
			room.Say(u, "/"+word+"@"+s.tg.Username()+" "+rest)
			return room
		}
	}
	all := may{true, true, true, true, true, true, true}
	for _, row := range []struct {
		name string
		who  func(*scene) speaker
		may
	}{
		{"keeper", func(s *scene) speaker { return in(s, s.club, s.ines) }, may{true, true, true, true, true, true, false}},
		{"member", func(s *scene) speaker { return in(s, s.club, s.tobias) }, may{true, true, true, false, false, false, false}},
		{"whom the keeper handed it to", func(s *scene) speaker {
			in(s, s.club, s.tobias)("batches")
			s.r.settle()
			in(s, s.club, s.ines)("hand 1 to @Tobias until " + time.Now().Add(48*time.Hour).Format("2006-01-02 15:04"))
			s.r.settle()
			s.club.Press(s.tobias, last(t, s.club), "Yes, I will").Await()
			return in(s, s.club, s.tobias)
		}, may{true, true, true, true, true, false, false}},
		{"member, with flips for the keeper alone", func(s *scene) speaker {
			in(s, s.club, s.ines)("allow 1 flips keeper")
			return in(s, s.club, s.tobias)
		}, may{true, true, false, false, false, false, false}},
		{"owner of the group", func(s *scene) speaker { return in(s, s.club, s.marit) }, all},
		{"administrator", func(s *scene) speaker { return in(s, s.club, s.warden) }, all},
		{"administrator who stays anonymous", func(s *scene) speaker {
			return func(line string) *telegramtest.Room {
				word, rest, _ := strings.Cut(line, " ")
				s.club.SayAnonymously("/" + word + "@" + s.tg.Username() + " " + rest)
				return s.club
			}
		}, all},
		{"keeper, in another group", func(s *scene) speaker {
			return in(s, s.tg.Supergroup("Next Door", s.marit, s.ines), s.ines)
		}, may{}},
		{"keeper, in private", func(s *scene) speaker { return in(s, s.tg.Private(s.ines), s.ines) }, may{set: true}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := &scene{tg: fake(t)}
			s.ines, s.tobias, s.marit = s.tg.User("Ines"), s.tg.User("Tobias"), s.tg.User("Marit")
			s.warden = s.tg.User("Warden")
			s.club = s.tg.Supergroup(clubName, s.marit, s.ines, s.tobias, s.warden)
			s.club.Promote(s.warden)
			s.r = run(t, s.tg)
			s.r.settle()
			keeper := in(s, s.club, s.ines)
			keeper("open 5 lb juniper 1.5 in from " + time.Now().UTC().AddDate(0, 0, -8).Format("2006-01-02 15:04"))
			s.r.settle()
			keeper("yes")
			s.r.settle()
			say := row.who(s)
			s.r.settle()
			for _, cell := range []struct {
				line string
				want bool
			}{
				{"batch 1", row.may.look}, {"note 1 smelled fine", row.may.note}, {"flip 1", row.may.flip}, {"firm 1", row.may.step},
				{"undo 1", row.may.change}, {"close 1 all eaten", row.may.end}, {"set units metric", row.may.set},
			} {
				room := say(cell.line)
				s.r.settle()
				text, refused := last(t, room).Text, false
				for _, no := range []string{"only the keeper", "lets only those who look after", "a group admin can change", "There is no batch"} {
					refused = refused || strings.Contains(text, no)
				}
				if refused == cell.want {
					t.Errorf("%s: want it allowed: %v; it reads %q", cell.line, cell.want, text)
				}
			}
			if t.Failed() {
				t.Log(s.club.Transcript())
			}
		})
	}
}
