package discordtest

// checkModal holds a form to interactions/receiving-and-responding.mdx, "Modal",
// and components/reference.mdx, "Text Input" and "Label".
func (c *call) checkModal(data obj) {
	ids := map[string]bool{}
	c.checkCustomID(data, map[string]bool{})
	if text(data["custom_id"]) == "" {
		c.breach("a modal without a custom_id")
	}
	if n := length(text(data["title"])); n < 1 || n > maxModalTitle {
		c.breach("modal title of %d characters, want 1-%d", n, maxModalTitle)
	}
	parts := list(data["components"])
	if len(parts) < 1 || len(parts) > maxModalParts {
		c.breach("%d components in a modal, want 1-%d", len(parts), maxModalParts)
	}
	for _, v := range parts {
		switch o := object(v); number(o["type"]) {
		case actionRow:
			children := list(o["components"])
			if len(children) != 1 {
				c.breach("%d inputs in a modal's row, want 1", len(children))
			}
			for _, child := range children {
				child := object(child)
				c.checkLabel(text(child["label"]))
				c.checkInput(child)
			}
		case label:
			c.checkLabel(text(o["label"]))
			if n := length(text(o["description"])); n > 100 {
				c.breach("label description of %d characters, more than 100", n)
			}
			c.checkInput(object(o["component"]))
		case textDisplay:
		default:
			c.breach("component type %d in a modal", number(o["type"]))
		}
	}
	eachComponent(parts, func(o obj) { c.checkCustomID(o, ids) })
}

func (c *call) checkLabel(s string) {
	if n := length(s); n < 1 || n > maxModalLabel {
		c.breach("modal label of %d characters, want 1-%d", n, maxModalLabel)
	}
}

// checkInput checks one field of a form.
func (c *call) checkInput(o obj) {
	if text(o["custom_id"]) == "" {
		c.breach("a form field without a custom_id")
	}
	if truth(o["disabled"]) {
		c.breach("a disabled component in a modal")
	}
	if number(o["type"]) != textInput {
		if number(o["type"]) == stringSelect {
			c.checkSelect(o)
		}
		return
	}
	if style := number(o["style"]); style != 1 && style != 2 {
		c.breach("text input style %d, want 1 or 2", style)
	}
	if n := length(text(o["placeholder"])); n > maxInputHint {
		c.breach("text input placeholder of %d characters, more than %d", n, maxInputHint)
	}
	least, hasLeast := whole(o["min_length"])
	most, hasMost := whole(o["max_length"])
	if hasLeast && (least < 0 || least > maxInput) {
		c.breach("text input min_length %d, want 0-%d", least, maxInput)
	}
	if !hasMost {
		most = maxInput
	}
	if hasMost && (most < 1 || most > maxInput) {
		c.breach("text input max_length %d, want 1-%d", most, maxInput)
	}
	if n := length(text(o["value"])); n > most || hasLeast && least > most {
		c.breach("text input filled with %d characters, takes %d to %d", n, least, most)
	}
}

// checkChoices holds suggestions to at most 25, each with a name of 1-100
// characters.
func (c *call) checkChoices(data obj) {
	choices := list(data["choices"])
	if len(choices) > maxOptions {
		c.breach("%d autocomplete choices, more than %d", len(choices), maxOptions)
	}
	for _, v := range choices {
		c.checkChoice(object(v))
	}
}

func (c *call) checkChoice(o obj) {
	if n := length(text(o["name"])); n < 1 || n > maxOptionText {
		c.breach("choice name of %d characters, want 1-%d", n, maxOptionText)
	}
	if v, ok := o["value"].(string); ok && length(v) > maxOptionText {
		c.breach("choice value of %d characters, more than %d", length(v), maxOptionText)
	}
	if o["value"] == nil {
		c.breach("choice %q without a value", text(o["name"]))
	}
	c.checkLocales(o, "name_localizations", maxOptionText)
}
