package discordtest

import "slices"

// Limits of components/reference.mdx.
const (
	maxRows         = 5
	maxRowButtons   = 5
	maxComponents   = 40
	maxCustomID     = 100
	maxButtonLabel  = 80
	maxOptions      = 25
	maxOptionText   = 100
	maxPlaceholder  = 150
	maxDisplayText  = 4000
	maxModalTitle   = 45
	maxModalLabel   = 45
	maxModalParts   = 5
	maxInput        = 4000
	maxInputHint    = 100
	maxSectionTexts = 3
)

var selects = []int{stringSelect, userSelect, roleSelect, mentionableSelect, channelSelect}

// checkComponents holds a message's components to the rules.
func (c *call) checkComponents(parts []any, v2 bool) {
	if !v2 {
		if len(parts) > maxRows {
			c.breach("%d component rows, more than %d", len(parts), maxRows)
		}
		for _, p := range parts {
			if t := number(object(p)["type"]); t != actionRow {
				c.breach("component type %d outside an action row needs the components v2 flag", t)
			}
		}
	}
	total, displayed := 0, 0
	ids := map[string]bool{}
	eachComponent(parts, func(o obj) {
		total++
		switch t := number(o["type"]); {
		case t == actionRow:
			c.checkRow(list(o["components"]))
		case t == button:
			c.checkButton(o)
		case slices.Contains(selects, t):
			c.checkSelect(o)
		case t == textDisplay:
			displayed += length(text(o["content"]))
		case t == section && len(list(o["components"])) > maxSectionTexts:
			c.breach("a section of %d texts, more than %d", len(list(o["components"])), maxSectionTexts)
		case t == textInput || t == label:
			c.breach("component type %d belongs in a modal", t)
		}
		c.checkCustomID(o, ids)
	})
	if total > maxComponents {
		c.breach("%d components, more than %d", total, maxComponents)
	}
	if displayed > maxDisplayText {
		c.breach("text displays of %d characters, more than %d", displayed, maxDisplayText)
	}
}

// checkCustomID: 1-100 characters, no two alike in a message.
func (c *call) checkCustomID(o obj, seen map[string]bool) {
	v, ok := o["custom_id"]
	if !ok || v == nil {
		return
	}
	id := text(v)
	if n := length(id); n < 1 || n > maxCustomID {
		c.breach("custom_id of %d characters, want 1-%d", n, maxCustomID)
	}
	if seen[id] {
		c.breach("custom_id %q twice in one message", id)
	}
	seen[id] = true
}

func (c *call) checkRow(children []any) {
	buttons, menus := 0, 0
	for _, v := range children {
		switch t := number(object(v)["type"]); {
		case t == button:
			buttons++
		case slices.Contains(selects, t):
			menus++
		case t == textInput:
		default:
			c.breach("component type %d in an action row", t)
		}
	}
	switch {
	case len(children) == 0:
		c.breach("an empty action row")
	case buttons > maxRowButtons:
		c.breach("%d buttons in a row, more than %d", buttons, maxRowButtons)
	case menus > 1 || menus == 1 && buttons > 0:
		c.breach("a select menu shares its row")
	}
}

func (c *call) checkButton(o obj) {
	if n := length(text(o["label"])); n > maxButtonLabel {
		c.breach("button label of %d characters, more than %d", n, maxButtonLabel)
	}
	id, url := text(o["custom_id"]), text(o["url"])
	switch style := number(o["style"]); {
	case style < 1 || style > premiumButton:
		c.breach("button style %d, want 1-6", style)
	case style == premiumButton:
		c.breach("a premium button; this bot sells nothing")
	case style == linkButton && (url == "" || id != ""):
		c.breach("a link button needs a url and no custom_id")
	case style != linkButton && (id == "" || url != ""):
		c.breach("button %q needs a custom_id and no url", text(o["label"]))
	}
	if text(o["label"]) == "" && o["emoji"] == nil {
		c.breach("a button with neither label nor emoji")
	}
}

func (c *call) checkSelect(o obj) {
	if text(o["custom_id"]) == "" {
		c.breach("a select menu without a custom_id")
	}
	if n := length(text(o["placeholder"])); n > maxPlaceholder {
		c.breach("placeholder of %d characters, more than %d", n, maxPlaceholder)
	}
	options := list(o["options"])
	if number(o["type"]) == stringSelect && (len(options) < 1 || len(options) > maxOptions) {
		c.breach("%d options in a select menu, want 1-%d", len(options), maxOptions)
	}
	values := map[string]bool{}
	for _, v := range options {
		opt := object(v)
		for _, key := range []string{"label", "value", "description"} {
			n := length(text(opt[key]))
			if n > maxOptionText || n == 0 && key != "description" {
				c.breach("select option %s of %d characters, want 1-%d", key, n, maxOptionText)
			}
		}
		if values[text(opt["value"])] {
			c.breach("select value %q twice", text(opt["value"]))
		}
		values[text(opt["value"])] = true
	}
	most := 1
	if v, ok := whole(o["max_values"]); ok {
		most = v
	}
	if least, ok := whole(o["min_values"]); most > maxOptions || ok && least > most {
		c.breach("select menu takes %d to %d values", least, most)
	}
}
