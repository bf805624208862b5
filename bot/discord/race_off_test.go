//go:build !race

package discord_test

const raceOn = false
