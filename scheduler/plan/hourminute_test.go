package plan

import (
	"errors"
	"testing"
	"time"
)

func TestParseHourMinute(t *testing.T) {
	for _, c := range []struct {
		in   string
		want HourMinute
		ok   bool
	}{
		{"00:00", 0, true}, {"00:30", 30, true}, {"01:45", 105, true}, {"8:00", 480, true}, {"08:00", 480, true},
		{"12:00", 720, true}, {"23:59", 1439, true},
		{"24:00", 0, false}, {"08:60", 0, false}, {"-1:00", 0, false}, {"+8:00", 0, false}, {"8", 0, false}, {"0800", 0, false},
		{"08:0", 0, false}, {"08:000", 0, false}, {"8:00 pm", 0, false}, {"", 0, false}, {":", 0, false}, {"08.00", 0, false},
		{" 8:00", 0, false}, {"٠٨:٠٠", 0, false}, {"a8:00", 0, false},
	} {
		got, err := ParseHourMinute(c.in)
		if (err == nil) != c.ok || got != c.want || !c.ok && !errors.Is(err, ErrHourMinute) {
			t.Errorf("ParseHourMinute(%q) = %v, %v", c.in, got, err)
		}
	}
}

func TestHourMinuteRoundTrip(t *testing.T) {
	for hm := HourMinute(0); hm <= lastMinute; hm++ {
		if got, err := ParseHourMinute(hm.String()); err != nil || got != hm {
			t.Errorf("%d as %q reads back as %d, %v", hm, hm, got, err)
		}
	}
}

func TestHourMinuteOutOfRange(t *testing.T) {
	if got := HourMinute(-5).String(); got != "00:00" {
		t.Error(got)
	}
	if got := HourMinute(5000).String(); got != "23:59" {
		t.Error(got)
	}
	if at, ok := Instant(Date{2027, time.March, 1}, 5000, nil); !ok || HourMinuteOf(at, nil) != lastMinute {
		t.Error(at, ok)
	}
}

func FuzzParseHourMinute(f *testing.F) {
	for _, s := range []string{"00:00", "8:00", "23:59", "24:00", "", "08:00 ", "８:00", "\xff:00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		hm, err := ParseHourMinute(s)
		if err != nil {
			if !errors.Is(err, ErrHourMinute) || hm != 0 {
				t.Fatalf("ParseHourMinute(%q) = %v, %v", s, hm, err)
			}
			return
		}
		if hm < 0 || hm > lastMinute || hm.String() != s && hm.String() != "0"+s {
			t.Fatalf("ParseHourMinute(%q) = %v", s, hm)
		}
	})
}
