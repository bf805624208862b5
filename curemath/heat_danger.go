package curemath

import "time"

// Danger zone of home preservation: NCHFP 6.1.3.
const (
	DangerFrom Fahrenheit = 40
	DangerTo   Fahrenheit = 140
)

// DangerTime is how long a core has spent between 40 and 140 °F.
type DangerTime struct {
	// Shown is the time between the readings.
	Shown time.Duration
	// Unread is the time since the last reading, if that one lay in the zone:
	// the core may still be there.
	Unread time.Duration
	// Inside is true when the last reading lay in the zone.
	Inside bool
	Source Source
}

// DangerZone adds up the time core readings, joined by straight lines, spend
// between 40 and 140 °F. Readings after now are not looked at. A core that stands
// exactly at either end is not inside. Errors are ReadingError values. Source:
// NCHFP 6.1.3.
func DangerZone(readings []CoreReading, now time.Time) (DangerTime, error) {
	if err := checkCore(readings); err != nil {
		return DangerTime{}, err
	}
	readings = coreUntil(readings, now)
	if len(readings) == 0 {
		return DangerTime{}, ReadingError{Kind: ReadingsNone}
	}
	d := DangerTime{Source: DangerSource()}
	for _, line := range coreSpans(readings) {
		part, ok := line.within(DangerFrom, DangerTo)
		onEdge := line.from.Temp == line.to.Temp && (line.from.Temp == DangerFrom || line.from.Temp == DangerTo)
		if ok && !onEdge {
			d.Shown += part.length()
		}
	}
	if last := readings[len(readings)-1]; last.Temp > DangerFrom && last.Temp < DangerTo {
		d.Inside = true
		d.Unread = now.Sub(last.At)
	}
	return d, nil
}

// coreUntil drops the readings after a time.
func coreUntil(rs []CoreReading, now time.Time) []CoreReading {
	n := len(rs)
	for n > 0 && rs[n-1].At.After(now) {
		n--
	}
	return rs[:n]
}

// DangerSource is where the bounds of the danger zone are from.
func DangerSource() Source {
	return Source{Document: "NCHFP, curing and smoking review", Section: "6.1.3", Status: Found}
}
