package zone

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:generate go run generate.go

var (
	//go:embed zones.tsv
	zonesFile string // name, name used now, first name with the same clock, minutes ahead of UTC in January and July
	//go:embed countries.tsv
	countriesFile string // country, its zones
	//go:embed aliases.tsv
	aliasesFile string // what people call a country, the name in countries.tsv
	//go:embed loose.tsv
	looseFile string // what people call a time, the zones they may mean
	//go:embed wellknown.txt
	wellKnownFile string // zones to suggest first, in this order
)

// entry is one zone of the table.
type entry struct {
	name      string
	current   string // name used for it now
	clock     string // the same for zones whose clocks agree
	january   int    // minutes ahead of UTC
	july      int
	rank      int // place among suggestions, lower first
	wellKnown bool
	place     bool // a country keeps this clock
}

// table is the files above, indexed by folded text.
type table struct {
	zones     []entry
	byName    map[string]*entry   // exact spelling
	byFolded  map[string]*entry   // whole name, folded
	bySegment map[string][]*entry // "berlin", "north dakota", "indiana/knox"
	byArea    map[string][]*entry // "europe": its well-known zones
	byCountry map[string][]*entry
	loose     map[string][]*entry
}

// load reads the table once; nothing changes it afterwards.
var load = sync.OnceValue(func() *table {
	t := &table{
		byName:    map[string]*entry{},
		byFolded:  map[string]*entry{},
		bySegment: map[string][]*entry{},
		byArea:    map[string][]*entry{},
		byCountry: map[string][]*entry{},
		loose:     map[string][]*entry{},
	}
	wellKnown := strings.Fields(wellKnownFile)
	for i, row := range rows(zonesFile) {
		e := entry{name: row[0], current: row[1], clock: row[2], rank: len(wellKnown) + i}
		e.january, _ = strconv.Atoi(row[3])
		e.july, _ = strconv.Atoi(row[4])
		if place := slices.Index(wellKnown, e.name); place >= 0 {
			e.rank, e.wellKnown = place, true
		}
		t.zones = append(t.zones, e)
	}
	for i := range t.zones {
		t.index(&t.zones[i])
	}
	for _, row := range rows(countriesFile) {
		zones := t.named(strings.Fields(row[1]))
		for _, e := range zones {
			e.place = true
		}
		t.country(row[0], zones)
	}
	for _, row := range rows(aliasesFile) {
		t.byCountry[row[0]] = t.byCountry[fold(row[1])]
	}
	for _, row := range rows(looseFile) {
		for _, said := range strings.Split(row[0], ",") {
			t.loose[said] = t.named(strings.Fields(row[1]))
		}
	}
	for _, e := range t.named(wellKnown) {
		area, _, _ := strings.Cut(fold(e.name), "/")
		t.byArea[area] = append(t.byArea[area], e)
	}
	return t
})

func (t *table) index(e *entry) {
	t.byName[e.name] = e
	folded := fold(e.name)
	t.byFolded[folded] = e
	// Every run of segments after the first: of america/indiana/knox these are
	// indiana, indiana/knox and knox.
	segments := strings.Split(folded, "/")
	for from := 1; from < len(segments); from++ {
		for to := from + 1; to <= len(segments); to++ {
			key := strings.Join(segments[from:to], "/")
			t.bySegment[key] = append(t.bySegment[key], e)
		}
	}
}

// country files a country under its name and, for "Korea (South)", under what
// stands before the bracket, which it may share.
func (t *table) country(name string, zones []*entry) {
	t.byCountry[fold(name)] = zones
	if short, _, bracket := strings.Cut(name, " ("); bracket {
		t.byCountry[fold(short)] = append(t.byCountry[fold(short)], zones...)
	}
}

func (t *table) named(names []string) []*entry {
	var found []*entry
	for _, name := range names {
		if e := t.byName[name]; e != nil {
			found = append(found, e)
		}
	}
	return found
}

func rows(file string) [][]string {
	var all [][]string
	for line := range strings.Lines(file) {
		all = append(all, strings.Split(strings.TrimSuffix(line, "\n"), "\t"))
	}
	return all
}
