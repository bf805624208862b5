package bot

import (
	"regexp"

	"larderhand/bot/chart"
)

var (
	aboutWood = regexp.MustCompile(`(?i)\b(wood|chunk|chunks|log|logs|chips|split|splits)\b`)
	aboutWrap = regexp.MustCompile(`(?i)\bwrap(ped|s)?\b`)
	aboutFire = regexp.MustCompile(`(?i)\bfire (went|is|was|gone)? ?out\b|\brelit\b`)
)

// noteKind is the mark a remark made during the smoke gets on the chart.
func noteKind(text string) chart.EventKind {
	switch {
	case aboutFire.MatchString(text):
		return chart.FireOut
	case aboutWrap.MatchString(text):
		return chart.Wrapped
	case aboutWood.MatchString(text):
		return chart.WoodAdded
	}
	return chart.Noted
}
