package parse

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// sketch writes readings on one line: "14:00 pit 148 core 121 | …".
func sketch(rows []Reading) string {
	var out []string
	for _, r := range rows {
		s := r.At.Format("02 15:04")
		if r.Piece != "" {
			s += " " + r.Piece
		}
		if r.Pit != nil {
			s += fmt.Sprintf(" pit %.4g", float64(*r.Pit))
		}
		if r.Core != nil {
			s += fmt.Sprintf(" core %.4g", float64(*r.Core))
		}
		out = append(out, s)
	}
	return strings.Join(out, " | ")
}

const twoRows = "03 14:00 pit 148 core 121 | 03 14:30 pit 151 core 124"

func TestReadingsCSV(t *testing.T) {
	now := time.Date(2027, 3, 3, 15, 0, 0, 0, zone(t, "Europe/Vienna"))
	rows := []struct{ name, in, want, remark string }{
		{"headings", "time,pit,core\n2027-03-03 14:00,148,121\n2027-03-03 14:30,151,124\n", twoRows, "No unit"},
		{"example of our own", tableExample, twoRows, "No date"},
		{"units in headings", "Timestamp,Pit (°C),Core (°C)\n2027-03-03T14:00:00,65,49\n", "03 14:00 pit 149 core 120.2", ""},
		{"a row of units", "Time;Pit;Core\nhh:mm;°C;°C\n14:00;65,5;49,5\n", "03 14:00 pit 149.9 core 121.1", "No date"},
		{"units in cells", "time,pit,core\n14:00,65 °C,49°C\n", "03 14:00 pit 149 core 120.2", "No date"},
		{"semicolons and decimal commas", "Datum;Uhrzeit;Pit °F;Core °F\n03.03.2027;14:00:00;148,0;121,0\n03.03.2027;14:30:00;151,0;124,0\n", twoRows, ""},
		{"tabs", "time\tpit\tcore\n14:00\t148\t121\n14:30\t151\t124", twoRows, "No date"},
		{"strokes", "time|pit|core\n14:00|148|121\n14:30|151|124", twoRows, "No date"},
		{"spaces", "time pit core\n14:00 148 121\n14:30 151 124", twoRows, "No date"},
		{"a preamble", "Smoke of 3 March\n\nserial,12345\ntime,pit,core\n14:00,148,121\n14:30,151,124", twoRows, "No date"},
		{"no headings", "14:00,121,148\n14:30,124,151\n", twoRows, "hottest column"},
		{"quotes and Windows line ends", "\"time\",\"pit\",\"core\"\r\n\"14:00\",\"148\",\"121\"\r\n\"14:30\",\"151\",\"124\"\r\n", twoRows, "No date"},
		{"newest first", "time,pit,core\n14:30,151,124\n14:00,148,121\n13:30,147,119", "03 13:30 pit 147 core 119 | " + twoRows, "No date"},
		{"past midnight", "time,pit\n23:30,150\n00:30,151\n14:00,152", "02 23:30 pit 150 | 03 00:30 pit 151 | 03 14:00 pit 152", "No date"},
		{"yesterday only", "time,pit\n22:00,150\n23:30,151", "02 22:00 pit 150 | 02 23:30 pit 151", "No date"},
		{"day first", "time,pit\n3/3/2027 14:00,148\n13/2/2027 14:00,148", "13 14:00 pit 148 | 03 14:00 pit 148", ""},
		{"month first", "time,pit\n2/13/2027 2:00 PM,148\n3/3/2027 2:00 PM,148", "13 14:00 pit 148 | 03 14:00 pit 148", ""},
		{"either order", "time,pit\n3/1/2027 14:00,148", "01 14:00 pit 148", "month/day"},
		{"year first", "time,pit\n2027/03/01 14:00:05.250,148", "01 14:00 pit 148", ""},
		{"month as a word", "time,pit\n01-Mar-2027 14:00:05,148", "01 14:00 pit 148", ""},
		{"zone said", "time,pit\n2027-03-03T13:00:00Z,148", "03 14:00 pit 148", ""},
		{"epoch", "time,pit\n1804078800,148\n1804078800000,149", "03 14:00 pit 148 | 03 14:00 pit 149", ""},
		{"probes", "time,ambient,probe 1,probe 2\n14:00,148,121,118", "03 14:00 pit 148 | 03 14:00 a core 121 | 03 14:00 b core 118", "taken as piece a"},
		{"named pieces", "time,pit,core a,core c\n14:00,148,121,118", "03 14:00 pit 148 | 03 14:00 a core 121 | 03 14:00 c core 118", ""},
		{"set point, fan and battery", "time,set point,pit,core,fan,battery\n14:00,150,148,121,40,90", "03 14:00 pit 148 core 121", ""},
		{"gaps", "time,pit,core\n14:00,148,\n14:10,--,122\n14:20,,\n14:30,-999,124\nx,1,2", "03 14:00 pit 148 | 03 14:10 core 122 | 03 14:30 core 124", "1 cell that can be no temperature"},
		{"minutes from the start", "elapsed min,pit,core\n0,148,121\n30,151,124", "03 14:30 pit 148 core 121 | 03 15:00 pit 151 core 124", "from its own start"},
		{"seconds from the start", "seconds,pit,core\n0,148,121\n1800,151,124", "03 14:30 pit 148 core 121 | 03 15:00 pit 151 core 124", "from its own start"},
		{"clock from the start", "elapsed,pit\n0:00,148\n26:00,151", "02 13:00 pit 148 | 03 15:00 pit 151", "from its own start"},
		{"later than now", "time,pit\n2027-03-03 16:00,148", "03 16:00 pit 148", "1 row later than now"},
		{"hot for Celsius", "time,pit °C,core °C\n14:00,148,121", "03 14:00 pit 298.4 core 249.8", "very hot for °C"},
		{"cold for Fahrenheit", "time,pit °F\n14:00,65", "03 14:00 pit 65", "cold for a pit"},
		{"one column", "14:00,121\n14:30,124", "03 14:00 core 121 | 03 14:30 core 124", "taken as the core"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, err := ReadingsCSV([]byte(r.in), FahrenheitUnit, now)
			if err != nil {
				t.Fatal(err)
			}
			if s := sketch(got.Rows); s != r.want {
				t.Errorf("got  %s\nwant %s\ncolumns %+v\nremarks %q", s, r.want, got.Columns, got.Remarks)
			}
			if all := strings.Join(got.Remarks, " "); !strings.Contains(all, r.remark) {
				t.Errorf("remarks %q lack %q", got.Remarks, r.remark)
			}
		})
	}
}

func TestReadingsCSVEncodings(t *testing.T) {
	now := time.Date(2027, 3, 3, 15, 0, 0, 0, time.UTC)
	text := "time,pit (°C)\n14:00,65\n"
	utf16, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(text)
	if err != nil {
		t.Fatal(err)
	}
	win, err := charmap.Windows1252.NewEncoder().String(text)
	if err != nil {
		t.Fatal(err)
	}
	for name, in := range map[string]string{"UTF-8 with a mark": "\ufeff" + text, "UTF-16": utf16, "Windows-1252": win} {
		got, err := ReadingsCSV([]byte(in), FahrenheitUnit, now)
		if err != nil || sketch(got.Rows) != "03 14:00 pit 149" {
			t.Errorf("%s: %s, %v", name, sketch(got.Rows), err)
		}
	}
}

// The clocks of Vienna go back from 03:00 to 02:00 on 31 October 2027 (IANA time
// zone database).
func TestReadingsCSVClocksBack(t *testing.T) {
	now := time.Date(2027, 10, 31, 9, 0, 0, 0, zone(t, "Europe/Vienna"))
	for _, in := range []string{
		"time,pit\n2027-10-31 01:30,150\n2027-10-31 02:30,151\n2027-10-31 02:00,152\n2027-10-31 02:30,153\n2027-10-31 03:00,154",
		"time,pit\n01:30,150\n02:30,151\n02:00,152\n02:30,153\n03:00,154",
	} {
		got, err := ReadingsCSV([]byte(in), FahrenheitUnit, now)
		if err != nil {
			t.Fatal(err)
		}
		var pits []string
		for _, r := range got.Rows {
			pits = append(pits, fmt.Sprintf("%.0f %s", *r.Pit, r.At.Format("15:04Z07")))
		}
		want := "[150 01:30+02 151 02:30+02 152 02:00+01 153 02:30+01 154 03:00+01]"
		if s := fmt.Sprint(pits); s != want {
			t.Errorf("got %s, want %s", s, want)
		}
	}
}

func TestReadingsCSVProblems(t *testing.T) {
	now := time.Date(2027, 3, 3, 15, 0, 0, 0, time.UTC)
	for in, want := range map[string]Kind{
		"":                                    Empty,
		"hello":                               NotATable,
		"time,pit\n":                          NotATable,
		"name,age\nines,40\n":                 NotATable,
		"pit,core\n148,121\n":                 NotATable,
		"time,pit\n14:00,hot\n":               NotATable,
		"elapsed,pit\n0,148\n30,151\n":        NoUnit,
		strings.Repeat("x", mostTableBytes+1): TooLong,
	} {
		_, err := ReadingsCSV([]byte(in), FahrenheitUnit, now)
		if kindOf(err) != want {
			t.Errorf("%.40q: %v (%v), want %v", in, err, kindOf(err), want)
		}
	}
	if _, err := ReadingsCSV([]byte("time,pit\n14:00,148\n"), UnitUnknown, now); kindOf(err) != NoUnit {
		t.Errorf("without any unit: %v", err)
	}
}
