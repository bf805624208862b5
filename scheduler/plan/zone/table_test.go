package zone

import (
	"archive/zip"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestEveryNameLoads(t *testing.T) {
	if n := len(Names()); n < 590 {
		t.Fatalf("only %d names", n)
	}
	for _, name := range Names() {
		loc, err := time.LoadLocation(name)
		if err != nil || loc.String() != name {
			t.Errorf("%s: %v, %v", name, loc, err)
		}
	}
}

// Every name of the database leads to its zone, but for the abbreviations a
// person may mean otherwise.
func TestEveryNameIsFoundOrMeantOtherwise(t *testing.T) {
	refused := []string{
		"CET", "EET", "EST", "Etc/Greenwich", "GMT", "GMT+0", "GMT-0", "GMT0", "Greenwich",
		"HST", "MET", "MST", "WET",
	}
	for _, name := range Names() {
		_, found, err := Find(name)
		if meant := !slices.Contains(refused, name); meant != (err == nil) || meant && found != name {
			t.Errorf("Find(%q) = %q, %v", name, found, err)
		}
	}
}

// The table holds what the zone data that comes with Go holds.
func TestTableIsUpToDate(t *testing.T) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Skip("the zone data to compare with comes with the go command, and a test built elsewhere has none: ", err)
	}
	r, err := zip.OpenReader(filepath.Join(strings.TrimSpace(string(root)), "lib", "time", "zoneinfo.zip"))
	if err != nil {
		t.Skip("some distributions leave the zone data file out of Go and use the system's, which lists its names otherwise: ", err)
	}
	defer r.Close()
	var names []string
	for _, f := range r.File {
		if !f.FileInfo().IsDir() && f.Name != "Factory" {
			names = append(names, f.Name)
		}
	}
	slices.Sort(names)
	if !slices.Equal(names, Names()) {
		t.Error("zones.tsv differs from Go's zone data: run go generate ./scheduler/plan/zone")
	}
}

// The hand-written files name only zones and countries that exist.
func TestHandWrittenFiles(t *testing.T) {
	table := load()
	known := func(file, name string) {
		if table.byName[name] == nil {
			t.Errorf("%s: no zone %q", file, name)
		}
	}
	for _, row := range rows(looseFile) {
		for _, said := range strings.Split(row[0], ",") {
			if fold(said) != said {
				t.Errorf("loose.tsv: %q can never be looked up, it folds to %q", said, fold(said))
			}
		}
		for _, name := range strings.Fields(row[1]) {
			known("loose.tsv", name)
		}
	}
	for _, name := range strings.Fields(wellKnownFile) {
		known("wellknown.txt", name)
	}
	for _, row := range rows(countriesFile) {
		for _, name := range strings.Fields(row[1]) {
			known("countries.tsv", name)
		}
	}
	for _, row := range rows(aliasesFile) {
		if fold(row[0]) != row[0] || table.byCountry[fold(row[1])] == nil {
			t.Errorf("aliases.tsv: %q", row)
		}
	}
}

// Whole names stay apart when folded.
func TestFoldKeepsNamesApart(t *testing.T) {
	seen := map[string]string{}
	for _, name := range Names() {
		f := fold(name)
		if other := seen[f]; other != "" {
			t.Errorf("%s and %s both fold to %q", name, other, f)
		}
		seen[f] = name
		if fold(f) != f {
			t.Errorf("fold(%q) = %q", f, fold(f))
		}
	}
}

// Zones said to share a clock do, four times a day for five years.
func TestClocksAgree(t *testing.T) {
	first := map[string]*time.Location{}
	for _, e := range load().zones {
		loc, err := time.LoadLocation(e.name)
		if err != nil {
			t.Fatal(err)
		}
		other := first[e.clock]
		if other == nil {
			first[e.clock] = loc
			continue
		}
		for at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC); at.Year() < 2031; at = at.Add(6 * time.Hour) {
			_, a := at.In(loc).Zone()
			_, b := at.In(other).Zone()
			if a != b {
				t.Fatalf("%s and %s differ at %v", e.name, e.clock, at)
			}
		}
	}
}
