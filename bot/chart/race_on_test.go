//go:build race

package chart

// raceOn: the race detector makes drawing some thirty times slower.
const raceOn = true
