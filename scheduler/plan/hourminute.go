package plan

import (
	"errors"
	"fmt"
	"time"
)

// ErrHourMinute is what ParseHourMinute wraps when the text is no time of day.
var ErrHourMinute = errors.New("not a time of day like 08:00")

// HourMinute is a time of day on a wall clock, in minutes after midnight: 480 is
// 08:00. Values outside 0 to 1439 are taken as the nearer end, so that a spoiled
// setting still pings.
type HourMinute int

const lastMinute HourMinute = 24*60 - 1

// ParseHourMinute reads a 24-hour "08:00" or "8:00", the stored form. What people
// type ("8 in the evening") is read elsewhere.
func ParseHourMinute(s string) (HourMinute, error) {
	refuse := fmt.Errorf("%q: %w", s, ErrHourMinute)
	if len(s) == len("8:00") {
		s = "0" + s
	}
	if len(s) != len("08:00") || s[2] != ':' {
		return 0, refuse
	}
	hour, okHour := twoDigits(s[:2])
	minute, okMinute := twoDigits(s[3:])
	if !okHour || !okMinute || hour > 23 || minute > 59 {
		return 0, refuse
	}
	return HourMinute(hour*60 + minute), nil
}

// HourMinuteOf gives what a wall clock in loc shows at t, seconds dropped.
func HourMinuteOf(t time.Time, loc *time.Location) HourMinute {
	hour, minute, _ := t.In(orUTC(loc)).Clock()
	return HourMinute(hour*60 + minute)
}

// String writes "08:00".
func (hm HourMinute) String() string {
	hm = hm.clamped()
	return fmt.Sprintf("%02d:%02d", int(hm)/60, int(hm)%60)
}

func (hm HourMinute) clamped() HourMinute { return min(max(hm, 0), lastMinute) }

func (hm HourMinute) seconds() int64 { return int64(hm.clamped()) * 60 }

func twoDigits(s string) (int, bool) {
	tens, ones := s[0]-'0', s[1]-'0'
	return int(tens)*10 + int(ones), tens <= 9 && ones <= 9
}
