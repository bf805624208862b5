package discord

import (
	"strings"
	"unicode/utf8"

	"larderhand/bot/reply"
)

// buttons lays buttons out in at most so many rows. Where they do not fit as they
// are, rows are filled up; no two have the same id. What cannot be a button is
// given back, to be said instead.
func buttons(rows [][]reply.Button, most int) (out []row, left []reply.Button) {
	var fits [][]reply.Button
	seen := map[string]bool{}
	for _, r := range rows {
		var kept []reply.Button
		for _, b := range r {
			id := b.Token()
			switch {
			case len(id) > reply.MaxToken:
				left = append(left, b)
			case !seen[id]:
				seen[id] = true
				kept = append(kept, b)
			}
		}
		for len(kept) > maxRowButtons {
			fits, kept = append(fits, kept[:maxRowButtons]), kept[maxRowButtons:]
		}
		if len(kept) > 0 {
			fits = append(fits, kept)
		}
	}
	if len(fits) > most {
		fits = filled(fits)
	}
	for i, r := range fits {
		if i >= most {
			left = append(left, r...)
			continue
		}
		var list []component
		for j, b := range r {
			list = append(list, pressable(b, j == 0))
		}
		out = append(out, row{typeRow, list})
	}
	return out, left
}

// filled sets buttons anew, five to a row.
func filled(rows [][]reply.Button) [][]reply.Button {
	var all []reply.Button
	for _, r := range rows {
		all = append(all, r...)
	}
	var out [][]reply.Button
	for len(all) > 0 {
		n := min(len(all), maxRowButtons)
		out, all = append(out, all[:n]), all[n:]
	}
	return out
}

func pressable(b reply.Button, first bool) component {
	style := stylePlain
	if first {
		style = stylePrime
	}
	label := clip(strings.Join(strings.Fields(printable(b.Label)), " "), maxLabel)
	if label == "" {
		label = clip(b.Line, maxLabel)
	}
	return component{Type: typeButton, Style: style, Label: label, CustomID: b.Token()}
}

// typed says what to type instead of pressing a button there was no room for.
func typed(left []reply.Button) []part {
	var out []part
	for _, b := range left {
		out = append(out, part{text: lineStart(escape(b.Label)) + ": " + code(b.Line)})
	}
	return opening(out)
}

func fitsID(s string) bool { return utf8.RuneCountInString(s) <= maxCustomID }
