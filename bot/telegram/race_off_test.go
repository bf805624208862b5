//go:build !race

package telegram_test

const raceOn = false
