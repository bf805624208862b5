package adaptertest

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"slices"
	"strings"
	"testing"
	"time"

	"larderhand/bot/reply"
)

// noon is an instant to name.
var noon = time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC)

func sample() reply.Reply {
	var r reply.Reply
	r.Say(reply.B("Batch 3"), ", day 4 of 9, last flipped ", reply.When(noon, "Mon 1 Mar 12:00"), ".")
	r.Say("Type ", reply.Type("flip 3"), ".")
	r.Table([][]string{{"piece", "meat", "salt"}, {"a juniper", "2.72 kg", "61 g"}, {"b honey", "980 g", "22 g"}})
	r.Par("Kept by ", reply.Who("77", "Marit"), ".")
	r.Press(reply.Button{Label: "Flipped 3", Line: "flip 3"}, reply.Button{Label: "How is it", Line: "look 3"})
	return r
}

func partsArrive(_ *testing.T, s *stage) {
	s.send(s.Here, sample())
	all := joined(s.Shown(s.Here))
	s.want(all, "Batch 3", ", day 4 of 9", "Mon 1 Mar 12:00", "Type", "flip 3", "piece", "meat", "salt", "a juniper", "2.72 kg", "61 g", "b honey", "980 g", "Kept by Marit.")
	for _, row := range []string{"61 g", "22 g"} {
		n := 0
		for _, l := range strings.Split(all, "\n") {
			if strings.Contains(l, row) {
				n++
			}
		}
		if n != 1 {
			s.t.Errorf("the table's row with %q is on %d lines:\n%s", row, n, all)
		}
	}
	if strings.Contains(all, "12:00.Type") || strings.Contains(all, "12:00. Type") {
		s.t.Errorf("two lines have become one:\n%s", all)
	}
}

func marks(t *testing.T, s *stage) {
	if !s.Has.Marks {
		t.Skip("the platform has no marks")
	}
	s.send(s.Here, sample())
	var bold, code []string
	for _, m := range s.Shown(s.Here) {
		bold, code = append(bold, m.Bold...), append(code, m.Code...)
	}
	if !slices.Contains(bold, "Batch 3") {
		t.Errorf("bold is %q", bold)
	}
	if !slices.Contains(code, "flip 3") && !slices.Contains(code, "/flip 3") {
		t.Errorf("to be typed is %q", code)
	}
}

func instants(t *testing.T, s *stage) {
	if !s.Has.Instants {
		t.Skip("the platform shows no times in the reader's zone")
	}
	s.send(s.Here, sample())
	for _, m := range s.Shown(s.Here) {
		if slices.Contains(m.At, noon.Unix()) {
			return
		}
	}
	t.Errorf("no message names the instant %d", noon.Unix())
}

func silent(t *testing.T, s *stage) {
	if !s.Has.Silent {
		t.Skip("the platform makes no sound to leave out")
	}
	quiet := one("hush")
	quiet.Silent = true
	s.send(s.Here, quiet)
	s.send(s.Here, one("aloud"))
	for _, m := range s.Shown(s.Here) {
		if want := tidy(m.Text) == "hush"; m.Silent != want && (tidy(m.Text) == "hush" || tidy(m.Text) == "aloud") {
			t.Errorf("%q: silent is %v", m.Text, m.Silent)
		}
	}
}

func picture(t testing.TB) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 320, 200))
	for x := range 320 {
		img.Set(x, x*200/320, color.RGBA{R: 180, A: 255})
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func files(t *testing.T, s *stage) {
	r := one("The smoke day of batch 3.")
	r.Files = []reply.File{{Name: "smoke.png", Type: "image/png", Caption: "pit and core <b>x</b>", Data: picture(t)},
		{Name: "batch-3.csv", Type: "text/csv", Data: []byte("at,core\n09:00,41\n")}}
	s.send(s.Here, r)
	list := s.Shown(s.Here)
	s.want(joined(list), "The smoke day of batch 3.")
	var got []reply.File
	for _, m := range list {
		got = append(got, m.Files...)
	}
	for i, f := range r.Files {
		s.want(joined(list), f.Caption)
		has := s.Has.Files
		if f.Picture() {
			has = s.Has.Pictures
		}
		if !has {
			s.want(joined(list), f.Name)
			continue
		}
		if i >= len(got) || !bytes.Equal(got[i].Data, f.Data) {
			t.Errorf("%s did not arrive as it was", f.Name)
		} else if !f.Picture() && got[i].Name != f.Name {
			t.Errorf("%s is called %s", f.Name, got[i].Name)
		}
	}
}
