//go:build !race

package chart

const raceOn = false
