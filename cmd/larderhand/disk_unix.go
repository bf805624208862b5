//go:build unix

package main

import "golang.org/x/sys/unix"

// freeSpace is how many bytes may still be written in a folder; ok is false where
// that can't be told.
func freeSpace(dir string) (free uint64, ok bool) {
	var s unix.Statfs_t
	if err := unix.Statfs(dir, &s); err != nil {
		return 0, false
	}
	return uint64(s.Bavail) * uint64(s.Bsize), true //nolint:gosec,unconvert // the types differ from system to system
}
