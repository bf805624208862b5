package main

import (
	"os"
	"reflect"
	"strings"
	"testing"
)

// Every variable the program reads is in .env.example; those of the platforms, whose
// set-up README.md leads through, are named there too.
func TestVariablesAreWrittenDown(t *testing.T) {
	var names []string
	var collect func(reflect.Type)
	collect = func(s reflect.Type) {
		for i := range s.NumField() {
			f := s.Field(i)
			if name := f.Tag.Get("env"); name != "" {
				names = append(names, name)
			}
			if f.Type.Kind() == reflect.Struct {
				collect(f.Type)
			}
		}
	}
	collect(reflect.TypeFor[serveCmd]())
	if len(names) < 10 {
		t.Fatalf("only %v", names)
	}
	for file, of := range map[string]string{"../../.env.example": "", "../../README.md": "_"} {
		body, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			platform := strings.HasPrefix(name, "DISCORD_") || strings.HasPrefix(name, "TELEGRAM_")
			if (of == "" || platform) && !strings.Contains(string(body), name) {
				t.Errorf("%s says nothing of %s", file, name)
			}
		}
	}
}
