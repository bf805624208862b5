package discordtest

import "strings"

// Component types of components/reference.mdx.
const (
	actionRow         = 1
	button            = 2
	stringSelect      = 3
	textInput         = 4
	userSelect        = 5
	roleSelect        = 6
	mentionableSelect = 7
	channelSelect     = 8
	section           = 9
	textDisplay       = 10
	container         = 17
	label             = 18
)

const (
	linkButton    = 5
	premiumButton = 6
)

// eachComponent visits components at every depth, parents first.
func eachComponent(parts []any, visit func(obj)) {
	for _, v := range parts {
		o := object(v)
		if o == nil {
			continue
		}
		visit(o)
		eachComponent(list(o["components"]), visit)
		for _, key := range []string{"accessory", "component"} {
			if child := object(o[key]); child != nil {
				eachComponent([]any{child}, visit)
			}
		}
	}
}

// displayedText collects the text displays of a v2 message.
func displayedText(parts []any) []string {
	var out []string
	eachComponent(parts, func(o obj) {
		if number(o["type"]) == textDisplay {
			out = append(out, text(o["content"]))
		}
	})
	return out
}

// clickable finds the component with a custom id, or a button by its label.
func clickable(parts []any, what string) obj {
	var byID, byLabel obj
	eachComponent(parts, func(o obj) {
		switch {
		case text(o["custom_id"]) == what && what != "":
			byID = o
		case number(o["type"]) == button && strings.TrimSpace(text(o["label"])) == what && byLabel == nil:
			byLabel = o
		}
	})
	if byID != nil {
		return byID
	}
	return byLabel
}
