// Package plan turns what a person means ("every day at eight", "not at night")
// into instants.
//
// A daily chore is planned by walking local dates, never by adding 24 hours, so
// that a day of 23, 25 or 23½ hours still holds exactly one. The package is
// pure: it knows no store and starts no goroutine, and every function is told
// the time. A nil *time.Location means UTC everywhere.
package plan
