//go:build ignore

// Writes zones.tsv and countries.tsv from the zone data that comes with Go and
// the tables zone.tab, iso3166.tab and tzdata.zi of the same database (in the
// public domain, installed by most systems). Run it with go generate after a new
// release of either.
package main

import (
	"archive/zip"
	"bufio"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"
)

// Zones that agree over these years share a clock: a person may be given either.
var firstYear, lastYear = 2025, 2037

func main() {
	archive := flag.String("zip", filepath.Join(runtime.GOROOT(), "lib/time/zoneinfo.zip"), "compiled zone data")
	tables := flag.String("tab", "/usr/share/zoneinfo", "directory of the three tables")
	flag.Parse()
	names := zoneNames(*archive)
	os.Setenv("ZONEINFO", *archive)
	zones := countryZones(*tables, names)
	writeZones(names, currentNames(*tables, zones))
	writeCountries(*tables, zones)
}

func zoneNames(archive string) []string {
	r, err := zip.OpenReader(archive)
	check(err)
	defer r.Close()
	var names []string
	for _, f := range r.File {
		// "Factory" marks a machine nobody has told its zone.
		if !f.FileInfo().IsDir() && f.Name != "Factory" {
			names = append(names, f.Name)
		}
	}
	slices.Sort(names)
	return names
}

// writeZones writes a row a zone: name, the name used for it now, the first name
// with the same clock, and the minutes ahead of UTC in mid January and mid July
// of the first year.
func writeZones(names []string, current map[string]string) {
	out, err := os.Create("zones.tsv")
	check(err)
	clocks := map[string]string{}
	for _, name := range names {
		loc, err := time.LoadLocation(name)
		check(err)
		var offsets strings.Builder
		end := time.Date(lastYear+1, 1, 1, 0, 0, 0, 0, time.UTC)
		was := -1
		for t := time.Date(firstYear, 1, 1, 0, 0, 0, 0, time.UTC); t.Before(end); t = t.Add(30 * time.Minute) {
			if _, o := t.In(loc).Zone(); o != was {
				fmt.Fprint(&offsets, t.Unix(), o, " ")
				was = o
			}
		}
		if clocks[offsets.String()] == "" {
			clocks[offsets.String()] = name
		}
		minutes := func(m time.Month) int {
			_, o := time.Date(firstYear, m, 15, 12, 0, 0, 0, time.UTC).In(loc).Zone()
			return o / 60
		}
		now := current[name]
		if now == "" {
			now = name
		}
		fmt.Fprintf(out, "%s\t%s\t%s\t%d\t%d\n", name, now, clocks[offsets.String()], minutes(time.January), minutes(time.July))
	}
	check(out.Close())
}

// countryZones reads the zones of each country code, in the order of zone.tab.
func countryZones(dir string, names []string) map[string][]string {
	zones := map[string][]string{}
	for _, row := range rows(filepath.Join(dir, "zone.tab"), "\t") {
		if !slices.Contains(names, row[2]) {
			log.Fatalf("zone.tab has %s, the zone data has not", row[2])
		}
		zones[row[0]] = append(zones[row[0]], row[2])
	}
	return zones
}

// currentNames reads, for names no country uses any more, the one that took over.
func currentNames(dir string, zones map[string][]string) map[string]string {
	used := map[string]bool{}
	for _, list := range zones {
		for _, name := range list {
			used[name] = true
		}
	}
	current := map[string]string{}
	for _, row := range rows(filepath.Join(dir, "tzdata.zi"), " ") {
		if row[0] == "L" && used[row[1]] && !used[row[2]] {
			current[row[2]] = row[1]
		}
	}
	return current
}

// writeCountries writes a row a country: name, zones.
func writeCountries(dir string, zones map[string][]string) {
	out, err := os.Create("countries.tsv")
	check(err)
	for _, row := range rows(filepath.Join(dir, "iso3166.tab"), "\t") {
		if z := zones[row[0]]; len(z) > 0 {
			fmt.Fprintf(out, "%s\t%s\n", row[1], strings.Join(z, " "))
		}
	}
	check(out.Close())
}

func rows(path, separator string) [][]string {
	f, err := os.Open(path)
	check(err)
	defer f.Close()
	var all [][]string
	for s := bufio.NewScanner(f); s.Scan(); {
		if line := s.Text(); line != "" && line[0] != '#' {
			all = append(all, strings.Split(line, separator))
		}
	}
	return all
}

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
