// Package chart draws the pictures of a batch: the smoke day, the cure moving
// through a slab, the calendar of running batches, the card of a finished one.
//
// Each function takes plain data and a Style and gives the bytes of one PNG.
// Nothing here reads a clock, a store or a chat: the same data gives the same
// bytes. Data may be empty, single, unsorted, huge or not a number; names may be
// in any script. What cannot be drawn is left out, and a picture always comes.
//
// Pictures are 1080 pixels wide and meant for a phone that shows them at about
// 390, so no lettering is under 28 pixels. Every curve and bar can be told from
// its neighbours without colour: by letter, dash or pattern.
package chart
