package main

import (
	"os"
	"path/filepath"
	"strings"
	"time"

	_ "time/tzdata" // zones are known on a machine that has none
)

// machineZone is the machine's zone by name, or UTC where it has none: a zone
// without a name cannot be kept with a conversation.
func machineZone() *time.Location {
	if name := time.Local.String(); name != "Local" && name != "" {
		return time.Local
	}
	link, err := filepath.EvalSymlinks("/etc/localtime")
	if err == nil {
		if _, name, ok := strings.Cut(link, "zoneinfo/"); ok {
			if loc, err := time.LoadLocation(name); err == nil {
				return loc
			}
		}
	}
	if name, err := os.ReadFile("/etc/timezone"); err == nil {
		if loc, err := time.LoadLocation(strings.TrimSpace(string(name))); err == nil {
			return loc
		}
	}
	return time.UTC
}
