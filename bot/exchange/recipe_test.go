package exchange

import (
	"bytes"
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"

	"larderhand/curemath"
)

func reader(t testing.TB) *Reader {
	t.Helper()
	rd, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	return rd
}

func sample() Recipe {
	core := curemath.Celsius(66)
	return Recipe{Format: Format, FormatVersion: FormatVersion, Name: "winter juniper", Version: 2, Credit: []string{"Ines"},
		Method: curemath.DryRub.String(), Nitrite: 120, Salt: 2.5, Sugar: 1, Mix: 6.25, Flavouring: "juniper", Thickness: 38, Days: 8,
		SmokeHours: 18, Core: &core, Example: &Example{Mix: 1.9, Salt: 23, Sugar: 10}}
}

func TestRoundTrip(t *testing.T) {
	file, err := Write(sample())
	if err != nil {
		t.Fatal(err)
	}
	got, err := reader(t).Read(file)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got, sample()) {
		t.Errorf("read %+v", got)
	}
}

// Every name in the struct is in the schema, and the other way round, with its unit
// where it is a number of something.
func TestSchemaNamesEveryField(t *testing.T) {
	var schema struct {
		Properties map[string]struct {
			Type       string
			Properties map[string]any
		}
	}
	if err := json.Unmarshal(schemaFile, &schema); err != nil {
		t.Fatal(err)
	}
	fields := map[string]bool{}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[Recipe]()) {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		fields[name] = true
		if _, ok := schema.Properties[name]; !ok {
			t.Errorf("the schema does not know %s", name)
		}
	}
	for name, p := range schema.Properties {
		if !fields[name] {
			t.Errorf("nothing reads %s", name)
		}
		if p.Type != "number" {
			continue
		}
		unit := false
		for _, u := range []string{"_percent", "_mg_per_kg_meat", "_mm", "_hours", "_celsius"} {
			unit = unit || strings.Contains(name, u)
		}
		if !unit {
			t.Errorf("%s does not say its unit", name)
		}
	}
}

func TestRefused(t *testing.T) {
	good, err := Write(sample())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, file, want string }{
		{"empty", "", "not JSON"},
		{"text", "salt 2 cups", "not JSON"},
		{"other json", `{"a":1}`, "form I know"},
		{"later format", strings.Replace(string(good), `"format_version": 1`, `"format_version": 2`, 1), "form I know"},
		{"unknown name", strings.Replace(string(good), `"name"`, `"tsp_of_mix": 4, "name"`, 1), "tsp_of_mix"},
		{"text for a number", strings.Replace(string(good), `"salt_percent_of_meat": 2.5`, `"salt_percent_of_meat": "2.5"`, 1), "salt_percent_of_meat"},
		{"negative", strings.Replace(string(good), `"salt_percent_of_meat": 2.5`, `"salt_percent_of_meat": -2.5`, 1), "salt_percent_of_meat"},
		{"no method", strings.Replace(string(good), `"dry rub"`, `"by hope"`, 1), "method"},
		{"name of quotes", strings.Replace(string(good), `"winter juniper"`, `" \n "`, 1), "no name"},
		{"two values", string(good) + string(good), "not JSON"},
		{"long", `{"name":"` + strings.Repeat("x", MostBytes) + `"}`, "64 KB"},
	} {
		_, err := reader(t).Read([]byte(c.file))
		var p *Problem
		if !errors.As(err, &p) || !strings.Contains(p.Why, c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// Whatever is read can be written and read again to the same, and no text in it
// breaks a line.
func FuzzRead(f *testing.F) {
	good, err := Write(sample())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add([]byte(`{"format":"larderhand recipe","format_version":1,"name":"x","method":"immersion","sodium_nitrite_mg_per_kg_meat":1e3,"salt_percent_of_meat":0,"sugar_percent_of_meat":0,"curing_mix_sodium_nitrite_percent":6.25,"water_percent_of_meat":100}`))
	f.Add([]byte(`{"format":"larderhand recipe","format_version":1,"name":"x","method":"dry rub","sodium_nitrite_mg_per_kg_meat":120,"sodium_nitrite_mg_per_kg_meat":1200,"salt_percent_of_meat":0,"sugar_percent_of_meat":0,"curing_mix_sodium_nitrite_percent":6.25}`))
	rd := reader(f)
	f.Fuzz(func(t *testing.T, file []byte) {
		r, err := rd.Read(file)
		if err != nil {
			var p *Problem
			if !errors.As(err, &p) || p.Why == "" {
				t.Fatalf("an error of another kind: %v", err)
			}
			return
		}
		for _, s := range append(r.Credit, r.Name, r.Flavouring, r.Seasoning) {
			if strings.ContainsAny(s, "\n\r\t\"") {
				t.Fatalf("text %q", s)
			}
		}
		once, err := Write(r)
		if err != nil {
			t.Fatal(err)
		}
		again, err := rd.Read(once)
		if err != nil {
			t.Fatalf("written and not read: %v\n%s", err, once)
		}
		twice, err := Write(again)
		if err != nil || !bytes.Equal(once, twice) {
			t.Fatalf("%v: wrote\n%s\nthen\n%s", err, once, twice)
		}
	})
}
