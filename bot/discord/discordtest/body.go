package discordtest

import (
	"strings"
)

// fill writes a request's body into a message: everything for a new one, the
// fields that are there for an edit.
func (m *message) fill(c *call, body obj, room mentionRoom) {
	if v, ok := body["content"]; ok {
		m.content = strings.TrimSpace(text(v))
	}
	m.fillFiles(c, body)
	if v, ok := body["embeds"]; ok {
		m.embeds = m.storeEmbeds(c, list(v))
	}
	if v, ok := body["components"]; ok {
		m.parts = storeComponents(list(v))
	}
	m.allowed = body["allowed_mentions"]
	m.mentions = readMentions(m.visibleText(), m.allowed, room)
}

// visibleText is the text mentions count in: the content, or with components v2
// the text displays.
func (m *message) visibleText() string {
	if m.flags&flagComponentsV2 == 0 {
		return m.content
	}
	return strings.Join(displayedText(m.parts), "\n")
}

// storeEmbeds turns embeds as sent into embeds as returned: type and inline are
// always there, attachment:// addresses become the file's.
func (m *message) storeEmbeds(c *call, sent []any) []any {
	out := []any{}
	for _, v := range sent {
		e := object(withoutNulls(v))
		e["type"] = "rich"
		for _, f := range list(e["fields"]) {
			if f := object(f); f["inline"] == nil {
				f["inline"] = false
			}
		}
		for _, key := range []string{"image", "thumbnail"} {
			if pic := object(e[key]); pic != nil {
				m.showFile(c, key, pic)
			}
		}
		out = append(out, e)
	}
	return out
}

// showFile gives a picture the address of the file its attachment:// names.
func (m *message) showFile(c *call, key string, pic obj) {
	name, ok := strings.CutPrefix(text(pic["url"]), "attachment://")
	if !ok {
		return
	}
	for _, f := range m.files {
		if f.Name == name {
			pic["url"], pic["proxy_url"] = f.url, f.url
			return
		}
	}
	c.breach("an embed's %s names the file %s, which is not attached", key, name)
}

// storeComponents numbers components that have no id of their own
// (components/reference.mdx, "Anatomy of a Component").
func storeComponents(sent []any) []any {
	taken := map[int]bool{}
	eachComponent(sent, func(o obj) {
		if id := number(o["id"]); id > 0 {
			taken[id] = true
		}
	})
	out := list(withoutNulls(sent))
	next := 1
	eachComponent(out, func(o obj) {
		if number(o["id"]) > 0 {
			return
		}
		for taken[next] {
			next++
		}
		o["id"] = next
		taken[next] = true
	})
	eachComponent(out, func(o obj) {
		switch number(o["type"]) {
		case stringSelect, userSelect, roleSelect, mentionableSelect, channelSelect:
			setDefault(o, "min_values", 1)
			setDefault(o, "max_values", 1)
		}
	})
	return out
}

func setDefault(o obj, key string, v any) {
	if o[key] == nil {
		o[key] = v
	}
}
