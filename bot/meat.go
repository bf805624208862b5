package bot

import (
	"regexp"

	"larderhand/bot/parse"
	"larderhand/curemath"
)

// The sums here are held to the limits for bacon, which is pork belly.
var (
	otherAnimal = regexp.MustCompile(`(?i)\b(chickens?|hens?|turkeys?|ducks?|goose|geese|poultry|fish|salmon|trout|beef|brisket|veal|lamb|mutton|goat|venison|deer|boar|elk|bear|rabbit|mince|minced|ground|sausages?)\b`)
	otherCut    = regexp.MustCompile(`(?i)\b(loins?|hams?|shoulders?|butts?|legs?|jowls?|necks?|collars?|hocks?|coppa|tenderloins?)\b`)
)

// meatOf refuses a cure for what is no pork and with what is no cure, and says what to
// mind for another cut of it.
func meatOf(line parse.CureLine) (remark string, err error) {
	for _, p := range line.Pieces {
		if bad := parse.RefusedFlavouring(p.Flavouring); bad != nil { // one that came in a file, or with a recipe
			return "", bad
		}
		if curemath.HintsAtCure(p.Flavouring) {
			return "", &Error{Kind: Dangerous, Why: "“" + p.Flavouring + "” sounds like a curing mix. If it is one, it goes in instead of my mix and never beside it, or the meat is dosed twice: read the percent of sodium nitrite off its packet and say that. If it is only a flavouring, call it something else.", Example: "5 lb 1.5 in mix 0.5%"}
		}
		if m := otherAnimal.FindString(p.Flavouring); m != "" {
			return "", &Error{Kind: Dangerous, Why: "“" + m + "”: my limits, days and temperatures are for pork belly. Other meat has other rules (poultry needs 165 °F at the core: USDA), and I don't do it. If that is only the flavouring, call it something else.", Example: "5 lb belly 1.5 in"}
		}
		if m := otherCut.FindString(p.Flavouring); m != "" {
			remark = "“" + m + "” is not belly. I hold it to the bacon limit, which is the stricter; the days are for belly, so go by the thickest part and check the middle."
		}
	}
	return remark, nil
}
