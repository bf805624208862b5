//go:build race

package telegram_test

// raceOn: under the race detector a part of the long walks is enough; the plain run
// walks them whole.
const raceOn = true
