package course

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"larderhand/curemath"
)

// The windows are those of FSIS Appendix B for cured meat, second-hand, not checked
// against the text; that a failure stands is our own choice, common practice, no
// source.
func TestAFailedCoolingStands(t *testing.T) {
	out := told{string(Smoked), "a", "10 20:00", coreBody(151)}
	for _, c := range []struct {
		name string
		told []told
		want curemath.CoolingVerdict
	}{
		{"too warm after ten hours", []told{out, {Reading, "a", "11 06:00", coreBody(90)}}, curemath.CoolingFailed},
		{"a second reading of the same minute", []told{out, {Reading, "a", "11 06:00", coreBody(90)}, {Reading, "a", "11 06:00", coreBody(44)}}, curemath.CoolingFailed},
		{"one told for the batch", []told{out, {Reading, "a", "11 06:00", coreBody(90)}, {Reading, "", "11 06:00", coreBody(44)}}, curemath.CoolingFailed},
		{"a later one", []told{out, {Reading, "a", "11 06:00", coreBody(90)}, {Reading, "a", "11 08:00", coreBody(44)}}, curemath.CoolingFailed},
		{"one told of an earlier hour, cold", []told{out, {Reading, "a", "11 06:00", coreBody(90)}, {Reading, "a", "10 23:00", coreBody(70)}}, curemath.CoolingFailed},
		{"one told of an earlier hour, hot", []told{out, {Reading, "a", "11 06:00", coreBody(90)}, {Reading, "a", "11 03:00", coreBody(131)}}, curemath.CoolingFailed},
		{"told in order, the same has not failed", []told{out, {Reading, "a", "11 03:00", coreBody(131)}, {Reading, "a", "11 06:00", coreBody(90)}}, curemath.CoolingOverdue},
		{"told cold, then warm in the same minute", []told{out, {Reading, "a", "11 00:30", coreBody(60)}, {Reading, "a", "11 05:00", coreBody(44)}, {Reading, "a", "11 05:00", coreBody(90)}}, curemath.CoolingFailed},
		{"out at 151 °F and at 70 °F in the same minute, then cold", []told{out, {Reading, "a", "10 20:00", coreBody(70)}, {Reading, "a", "11 02:00", coreBody(38)}}, curemath.CoolingUnproven},
		{"another piece's readings", []told{out, {string(Smoked), "b", "10 20:00", coreBody(151)}, {Reading, "b", "11 06:00", coreBody(90)}, {Reading, "a", "11 00:00", coreBody(79)}, {Reading, "a", "11 06:00", coreBody(44)}}, curemath.CoolingPassed},
	} {
		s := smokeState(120, append([]told{{string(Smoking), "", "10 08:00", ""}}, c.told...)...)
		got, ok := s.CoolingOf("a", hourOf("11 09:00"))
		if !ok || got.Verdict != c.want {
			t.Errorf("%s: verdict %d, want %d\n%v", c.name, got.Verdict, c.want, got.Trail)
		}
	}
}

// The rows of a logger's file are told at once, and are judged as one whatever was read
// by hand before them; told one by one as they were read they come to the same.
func TestAFileIsJudgedAsAWhole(t *testing.T) {
	start := []told{{string(Smoking), "", "10 08:00", ""}, {string(Smoked), "a", "10 20:00", coreBody(151)}}
	live := told{Reading, "a", "11 11:00", coreBody(38)}
	var rows []told
	for i, core := range []float64{140, 129, 118, 107, 96, 85, 79, 70, 62, 55, 49, 44, 42} {
		rows = append(rows, told{Reading, "a", hourOf("10 21:00").Add(time.Duration(i) * 40 * time.Minute).Format("2 15:04"), coreBody(core)})
	}
	slow := slices.Clone(rows)
	slow[9].body = coreBody(84) // back over 80 °F
	for _, c := range []struct {
		name string
		told []told
		file [2]int
		want curemath.CoolingVerdict
	}{
		{"told one by one", append(slices.Clone(rows), live), [2]int{}, curemath.CoolingPassed},
		{"the file first", append(slices.Clone(rows), live), [2]int{0, len(rows)}, curemath.CoolingPassed},
		{"the file after", append([]told{live}, rows...), [2]int{1, len(rows) + 1}, curemath.CoolingPassed},
		{"a slow file first", append(slices.Clone(slow), live), [2]int{0, len(rows)}, curemath.CoolingFailed},
		{"a slow file after", append([]told{live}, slow...), [2]int{1, len(rows) + 1}, curemath.CoolingFailed},
		{"a failure, then a good file", append([]told{{Reading, "a", "11 10:00", coreBody(90)}}, rows...), [2]int{1, len(rows) + 1}, curemath.CoolingFailed},
	} {
		s := smokeState(120, append(slices.Clone(start), c.told...)...)
		for i := c.file[0]; i < c.file[1]; i++ {
			s.Log[len(s.Log)-len(c.told)+i].Recorded = hourOf("11 12:00")
		}
		if got, ok := s.CoolingOf("a", hourOf("11 12:00")); !ok || got.Verdict != c.want {
			t.Errorf("%s: verdict %d, want %d\n%v", c.name, got.Verdict, c.want, got.Trail)
		}
	}
}

// Whatever is told after it, and of whatever time, a failure stands.
func TestNothingToldUndoesAFailedCooling(t *testing.T) {
	hours := []string{"10 19:30", "10 20:00", "10 21:00", "10 23:00", "11 01:00", "11 01:30", "11 05:00", "11 11:00", "11 15:00"}
	rapid.Check(t, func(t *rapid.T) {
		list := []told{{string(Smoking), "", "10 08:00", ""}, {string(Smoked), "a", "10 20:00", ""}}
		failed := false
		for range rapid.IntRange(1, 8).Draw(t, "readings") {
			at := rapid.SampledFrom(hours).Draw(t, "at")
			list = append(list, told{Reading, "a", at, coreBody(rapid.Float64Range(35, 160).Draw(t, "core"))})
			s := smokeState(120, list...)
			c, _ := s.CoolingOf("a", hourOf("11 16:00"))
			if failed && c.Verdict != curemath.CoolingFailed {
				t.Fatalf("%v undid it: %+v", list[len(list)-1], c)
			}
			failed = failed || c.Verdict == curemath.CoolingFailed
			if _, _, _, open := s.OpenWindow("a"); open && failed {
				t.Fatalf("a window is counted after a failure: %v", list)
			}
		}
	})
}

// The answer and the ping count by the same deadline.
func TestPingsCountAsTheVerdictDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := []told{{string(Smoking), "", "10 08:00", ""}, {string(Smoked), "a", "10 20:00", coreBody(151)}}
		for _, at := range []string{"10 21:00", "10 23:00", "11 02:00", "11 06:00"} {
			if rapid.Bool().Draw(t, "read") {
				list = append(list, told{Reading, "a", at, coreBody(rapid.Float64Range(35, 150).Draw(t, "core"))})
			}
		}
		s := smokeState(120, list...)
		i, _, deadline, open := s.OpenWindow("a")
		if !open {
			return
		}
		after, _ := s.CoolingOf("a", deadline.Add(1))
		if v := after.Verdict; v == curemath.CoolingRunning || v == curemath.CoolingPassed {
			t.Fatalf("time is up for window %d at %v, and the verdict is %d: %v", i, deadline, v, list)
		}
		before, _ := s.CoolingOf("a", deadline)
		if before.Windows[i].State == curemath.WindowOverdue {
			t.Fatalf("window %d is overdue at its deadline %v: %v", i, deadline, list)
		}
	})
}
