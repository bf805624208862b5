package discordtest

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Limits of resources/message.mdx, "Create Message" and "Embed Limits".
const (
	maxContent     = 2000
	maxNonce       = 25
	maxAttachments = 10
	maxEmbeds      = 10
	maxEmbedSum    = 6000
	maxTitle       = 256
	maxDescription = 4096
	maxFields      = 25
	maxFieldName   = 256
	maxFieldValue  = 1024
	maxFooter      = 2048
	maxAuthor      = 256
	maxNamed       = 100 // users or roles in allowed_mentions
)

func messageLimits(c *call) {
	body := c.object()
	c.checkFlags(body, flagSuppressEmbeds|flagSilent|flagVoice|flagComponentsV2)
	c.checkMessage(body, true)
	if n := body["nonce"]; n != nil {
		if length(fmt.Sprint(n)) > maxNonce {
			c.breach("nonce of %d characters, more than %d", length(fmt.Sprint(n)), maxNonce)
		}
	} else if truth(body["enforce_nonce"]) {
		c.breach("enforce_nonce without a nonce")
	}
}

func messageEditLimits(c *call) { c.checkMessage(c.object(), false) }

// checkMessage holds a message body to the limits; fresh means that the message
// is new to people.
func (c *call) checkMessage(body obj, fresh bool) {
	content := text(body["content"])
	if length(content) > maxContent {
		c.breach("content of %d characters, more than %d", length(content), maxContent)
	}
	parts, embeds := list(body["components"]), list(body["embeds"])
	v2 := number(body["flags"])&flagComponentsV2 != 0
	if v2 && (content != "" || len(embeds) > 0) {
		c.breach("content or embeds in a message with the components v2 flag")
	}
	if fresh && content == "" && len(embeds) == 0 && len(parts) == 0 && len(c.files) == 0 {
		c.breach("an empty message: no content, embed, component or file")
	}
	c.checkEmbeds(embeds)
	c.checkComponents(parts, v2)
	c.checkMentions(body, fresh)
	c.checkFiles(body, fresh)
}

func (c *call) checkFlags(body obj, may int) {
	if extra := number(body["flags"]) &^ may; extra != 0 {
		c.breach("flags %d may not be set here", extra)
	}
}

// checkMentions: this project never leaves it to the platform whom a text
// pings, so allowed_mentions is wanted on every new message.
func (c *call) checkMentions(body obj, fresh bool) {
	allow := object(body["allowed_mentions"])
	if allow == nil {
		if fresh {
			c.breach("a new message without allowed_mentions")
		}
		return
	}
	parse := strs(allow["parse"])
	for _, kind := range []string{"users", "roles"} {
		named := list(allow[kind])
		if len(named) > maxNamed {
			c.breach("allowed_mentions names %d %s, more than %d", len(named), kind, maxNamed)
		}
		if len(named) > 0 && slices.Contains(parse, kind) {
			c.breach("allowed_mentions parses %s and names some, which excludes each other", kind)
		}
	}
}

func (c *call) checkFiles(body obj, fresh bool) {
	if len(c.files) > maxAttachments {
		c.breach("%d files, more than %d", len(c.files), maxAttachments)
	}
	for _, a := range list(body["attachments"]) {
		a := object(a)
		if length(text(a["description"])) > 1024 {
			c.breach("attachment description of %d characters, more than 1024", length(text(a["description"])))
		}
		known := slices.ContainsFunc(c.files, func(f upload) bool { return f.index == idOf(a["id"]) })
		if fresh && !known {
			c.breach("attachments names id %s, but there is no files[%s]", idOf(a["id"]), idOf(a["id"]))
		}
	}
}

// checkEmbeds; leading and trailing space does not count.
func (c *call) checkEmbeds(embeds []any) {
	if len(embeds) > maxEmbeds {
		c.breach("%d embeds, more than %d", len(embeds), maxEmbeds)
	}
	sum := 0
	count := func(what string, v any, most int) {
		n := length(strings.TrimSpace(text(v)))
		sum += n
		if n > most {
			c.breach("embed %s of %d characters, more than %d", what, n, most)
		}
	}
	for _, v := range embeds {
		e := object(v)
		count("title", e["title"], maxTitle)
		count("description", e["description"], maxDescription)
		count("footer", object(e["footer"])["text"], maxFooter)
		count("author name", object(e["author"])["name"], maxAuthor)
		fields := list(e["fields"])
		if len(fields) > maxFields {
			c.breach("%d embed fields, more than %d", len(fields), maxFields)
		}
		for _, f := range fields {
			f := object(f)
			count("field name", f["name"], maxFieldName)
			count("field value", f["value"], maxFieldValue)
			if strings.TrimSpace(text(f["name"])) == "" || strings.TrimSpace(text(f["value"])) == "" {
				c.breach("an embed field without a name or a value")
			}
		}
	}
	if sum > maxEmbedSum {
		c.breach("%d characters over all embeds, more than %d", sum, maxEmbedSum)
	}
}

// length counts characters as code points; the documents say "characters".
func length(s string) int { return utf8.RuneCountInString(s) }
