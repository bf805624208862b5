package discordtest_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/discord/discordtest"
)

type j = map[string]any

func many(n int, v any) []any {
	out := make([]any, n)
	for i := range out {
		out[i] = v
	}
	return out
}

func chars(n int) string { return strings.Repeat("ä", n) }

// msg is a message that is right, with some fields changed.
func msg(change j) j {
	m := j{"content": "x", "allowed_mentions": j{"parse": []string{}}}
	for k, v := range change {
		m[k] = v
	}
	return m
}

func embed(e j) j { return msg(j{"embeds": []any{e}}) }

func buttons(rows, each int) []any {
	var out []any
	for r := range rows {
		var bs []any
		for b := range each {
			bs = append(bs, j{"type": 2, "style": 1, "label": "x", "custom_id": fmt.Sprint(r, b)})
		}
		out = append(out, j{"type": 1, "components": bs})
	}
	return out
}

func part(p j) j { return msg(j{"components": []any{j{"type": 1, "components": []any{p}}}}) }

func cmd(change j) []any {
	c := j{"name": "cure", "description": "x"}
	for k, v := range change {
		c[k] = v
	}
	return []any{c}
}

func opts(o ...any) []any { return cmd(j{"options": o}) }

func opt(change j) j {
	o := j{"type": 3, "name": "weight", "description": "x"}
	for k, v := range change {
		o[k] = v
	}
	return o
}

const (
	toChannel  = "POST channel"
	toCommands = "PUT commands"
)

// The limits as platforms publish them: resources/message.mdx ("Create
// Message", "Embed Limits"), components/reference.mdx,
// interactions/application-commands.mdx. Each row is one past the limit, or at
// it with nothing to say.
var limitRows = []struct {
	to   string
	body any
	want string
}{
	{toChannel, msg(j{"content": chars(2000)}), ""},
	{toChannel, msg(j{"content": chars(2001)}), "content of 2001 characters"},
	{toChannel, j{"content": "x"}, "without allowed_mentions"},
	{toChannel, msg(j{"content": ""}), "an empty message"},
	{toChannel, msg(j{"flags": 64}), "flags 64 may not be set here"},
	{toChannel, msg(j{"nonce": strings.Repeat("n", 25), "enforce_nonce": true}), ""},
	{toChannel, msg(j{"nonce": strings.Repeat("n", 26)}), "nonce of 26"},
	{toChannel, msg(j{"enforce_nonce": true}), "enforce_nonce without a nonce"},
	{toChannel, msg(j{"allowed_mentions": j{"parse": []string{"users"}, "users": []string{"1"}}}), "excludes each other"},
	{toChannel, msg(j{"embeds": many(10, j{"title": "x"})}), ""},
	{toChannel, msg(j{"embeds": many(11, j{"title": "x"})}), "11 embeds"},
	{toChannel, embed(j{"title": chars(257)}), "embed title of 257"},
	{toChannel, embed(j{"title": " " + chars(256) + " "}), ""},
	{toChannel, embed(j{"description": chars(4097)}), "embed description of 4097"},
	{toChannel, embed(j{"footer": j{"text": chars(2049)}}), "embed footer of 2049"},
	{toChannel, embed(j{"author": j{"name": chars(257)}}), "embed author name of 257"},
	{toChannel, embed(j{"fields": many(26, j{"name": "a", "value": "b"})}), "26 embed fields"},
	{toChannel, embed(j{"fields": many(1, j{"name": chars(257), "value": "b"})}), "embed field name of 257"},
	{toChannel, embed(j{"fields": many(1, j{"name": "a", "value": chars(1025)})}), "embed field value of 1025"},
	{toChannel, embed(j{"fields": many(1, j{"name": "a", "value": " "})}), "without a name or a value"},
	{toChannel, msg(j{"embeds": many(2, j{"description": chars(3000)})}), ""},
	{toChannel, msg(j{"embeds": many(2, j{"description": chars(3001)})}), "6002 characters over all embeds"},
	{toChannel, msg(j{"components": buttons(5, 5)}), ""},
	{toChannel, msg(j{"components": buttons(6, 1)}), "6 component rows"},
	{toChannel, msg(j{"components": buttons(1, 6)}), "6 buttons in a row"},
	{toChannel, msg(j{"components": append(buttons(1, 1), buttons(1, 1)...)}), "twice in one message"},
	{toChannel, part(j{"type": 2, "style": 1, "label": "x", "custom_id": strings.Repeat("i", 101)}), "custom_id of 101"},
	{toChannel, part(j{"type": 2, "style": 1, "label": chars(81), "custom_id": "a"}), "button label of 81"},
	{toChannel, part(j{"type": 2, "style": 1, "label": "x"}), "needs a custom_id"},
	{toChannel, part(j{"type": 2, "style": 5, "label": "x", "custom_id": "a"}), "a link button needs a url"},
	{toChannel, part(j{"type": 2, "style": 1, "custom_id": "a"}), "neither label nor emoji"},
	{toChannel, part(j{"type": 3, "custom_id": "a", "options": many(1, j{"label": "x", "value": "y"})}), ""},
	{toChannel, part(j{"type": 3, "custom_id": "a", "options": many(26, j{"label": "x", "value": "y"})}), "26 options in a select menu"},
	{toChannel, part(j{"type": 3, "custom_id": "a", "options": many(2, j{"label": "x", "value": "y"})}), `select value "y" twice`},
	{toChannel, part(j{"type": 3, "custom_id": "a", "options": many(1, j{"label": chars(101), "value": "y"})}), "select option label of 101"},
	{toChannel, part(j{"type": 4, "custom_id": "a", "style": 1, "label": "x"}), "belongs in a modal"},
	{toChannel, msg(j{"components": many(1, j{"type": 10, "content": "x"})}), "needs the components v2 flag"},
	{toChannel, msg(j{"flags": 1 << 15, "components": many(1, j{"type": 10, "content": "x"})}), "content or embeds in a message with the components v2 flag"},
	{toChannel, msg(j{"flags": 1 << 15, "content": "", "components": many(40, j{"type": 10, "content": "x"})}), ""},
	{toChannel, msg(j{"flags": 1 << 15, "content": "", "components": many(41, j{"type": 10, "content": "x"})}), "41 components"},

	{toCommands, opts(many(25, nil)[0:0]...), ""},
	{toCommands, cmd(j{"name": "Cure"}), `command name "Cure"`},
	{toCommands, cmd(j{"name": "cure belly"}), `command name "cure belly"`},
	{toCommands, cmd(j{"name": strings.Repeat("c", 33)}), "want 1-32"},
	{toCommands, cmd(j{"name": "pökeln"}), ""},
	{toCommands, cmd(j{"description": chars(101)}), "description of 101"},
	{toCommands, cmd(j{"description": ""}), "description of 0"},
	{toCommands, cmd(j{"name_localizations": j{"de": "Pökeln"}}), "in lower case"},
	{toCommands, cmd(j{"name_localizations": j{"xx": "cure"}}), `no such locale as "xx"`},
	{toCommands, append(cmd(nil), cmd(nil)...), "two commands are named"},
	{toCommands, cmd(j{"contexts": []int{2}}), "needs the user install"},
	{toCommands, cmd(j{"default_member_permissions": "manage"}), "no bit set"},
	{toCommands, cmd(j{"default_member_permissions": "16"}), ""},
	{toCommands, opts(numbered(26, "o")...), "has 26 options"},
	{toCommands, opts(opt(nil), opt(nil)), "two options"},
	{toCommands, opts(opt(nil), opt(j{"name": "b", "required": true})), "after an optional one"},
	{toCommands, opts(opt(j{"choices": choices(25)})), ""},
	{toCommands, opts(opt(j{"choices": choices(26)})), "has 26 choices"},
	{toCommands, opts(opt(j{"choices": choices(1), "autocomplete": true})), "both choices and autocomplete"},
	{toCommands, opts(opt(j{"type": 5, "autocomplete": true})), "which its type does not take"},
	{toCommands, opts(opt(j{"choices": many(1, j{"name": chars(101), "value": "a"})})), "choice name of 101"},
	{toCommands, opts(opt(j{"type": 1}), opt(j{"name": "b"})), "mixes subcommands"},
	{toCommands, opts(opt(j{"type": 3, "max_length": 6001})), "max_length 6001"},
	{toCommands, big(8000), ""},
	{toCommands, big(8001), "is 8001 characters in all"},
	{toCommands, numberedCommands(100), ""},
	{toCommands, numberedCommands(101), "101 commands of type 1"},
}

func numbered(n int, prefix string) []any {
	var out []any
	for i := range n {
		out = append(out, opt(j{"name": fmt.Sprint(prefix, i)}))
	}
	return out
}

func numberedCommands(n int) []any {
	var out []any
	for i := range n {
		out = append(out, cmd(j{"name": fmt.Sprint("c", i)})...)
	}
	return out
}

func choices(n int) []any {
	var out []any
	for i := range n {
		out = append(out, j{"name": fmt.Sprint("c", i), "value": fmt.Sprint("v", i)})
	}
	return out
}

// big is a command of exactly n characters: "cure" and "x" take 5, each option
// name and description 3; choices of 200 and further options fill up.
func big(n int) []any {
	n -= 5
	var os []any
	for len(os) < 2 {
		o := opt(j{"name": fmt.Sprint("o", len(os))})
		n -= 3
		var cs []any
		for len(cs) < 25 && n >= 200 {
			cs = append(cs, j{"name": chars(100), "value": fmt.Sprintf("%0100d", n)})
			n -= 200
		}
		o["choices"] = cs
		os = append(os, o)
	}
	for name := 'r'; n > 0; name++ {
		take := min(n, 100)
		if n-take == 1 { // a description is never empty
			take--
		}
		os = append(os, opt(j{"name": string(name), "description": strings.Repeat("d", take-1)}))
		n -= take
	}
	return cmd(j{"options": os})
}

func TestPublishedLimits(t *testing.T) {
	t.Parallel()
	for i, row := range limitRows {
		out := judged(t, []discordtest.Option{discordtest.WithSpecs("")}, func(s *discordtest.Server) {
			c := newClub(t, s)
			bot := newBot(t, s)
			url := discordgo.EndpointChannelMessages(c.curing.ID)
			if row.to == toCommands {
				url = discordgo.EndpointApplicationGlobalCommands(s.AppID())
			}
			method, _, _ := strings.Cut(row.to, " ")
			_, err := bot.RequestWithBucketID(method, url, row.body, url)
			if wantErr := row.want != ""; (restCode(err) == 50035) != wantErr || (err != nil) != wantErr {
				t.Errorf("row %d: error %v, want 50035: %v", i, err, wantErr)
			}
		})
		if said := out.said(); row.want == "" && said != "" || !strings.Contains(said, row.want) {
			t.Errorf("row %d: said %q, want %q", i, said, row.want)
		}
	}
}

// Callbacks: interactions/receiving-and-responding.mdx.
func TestCallbackLimits(t *testing.T) {
	t.Parallel()
	modal := func(title string, parts []any) j {
		return j{"type": 9, "data": j{"custom_id": "m", "title": title, "components": parts}}
	}
	input := func(change j) any {
		in := j{"type": 4, "custom_id": "a", "style": 1, "label": "x"}
		for k, v := range change {
			in[k] = v
		}
		return j{"type": 1, "components": []any{in}}
	}
	for want, body := range map[string]j{
		"flags 32768 may not be set here":    {"type": 5, "data": j{"flags": 1 << 15}},
		"may carry only the ephemeral flag":  {"type": 5, "data": j{"content": "x", "flags": 64}},
		"without allowed_mentions":           {"type": 4, "data": j{"content": "x"}},
		"callback type 7 does not answer":    {"type": 7, "data": msg(nil)},
		"callback type 8 does not answer":    {"type": 8, "data": j{"choices": []any{}}},
		"a callback without a type":          {"data": msg(nil)},
		"modal title of 46":                  modal(chars(46), []any{input(nil)}),
		"6 components in a modal":            modal("x", many(6, input(nil))),
		"modal label of 46":                  modal("x", []any{input(j{"label": chars(46)})}),
		"text input style 3":                 modal("x", []any{input(j{"style": 3})}),
		"text input max_length 4001":         modal("x", []any{input(j{"max_length": 4001})}),
		"text input filled with 5":           modal("x", []any{input(j{"max_length": 4, "value": "12345"})}),
		"component type 2 in a modal":        modal("x", []any{j{"type": 2, "style": 1, "label": "x", "custom_id": "b"}}),
		`custom_id "a" twice in one message`: modal("x", []any{input(nil), input(nil)}),
	} {
		out := judged(t, []discordtest.Option{discordtest.WithSpecs("")}, func(s *discordtest.Server) {
			c := newClub(t, s)
			bot := newBot(t, s)
			open(t, bot)
			register(t, s, bot, cureCommand)
			use := c.ines.At(c.curing).Slash("cure", discordtest.Opt("weight", "1 kg"))
			url := discordgo.EndpointInteractionResponse(use.ID(), "token-"+use.ID())
			if _, err := bot.RequestWithBucketID("POST", url, body, url); restCode(err) != 50035 {
				t.Errorf("%s: error %v, want 50035", want, err)
			}
			if use.Ack() != 0 {
				t.Errorf("%s: the answer was taken", want)
			}
		})
		if !strings.Contains(out.said(), want) {
			t.Errorf("said %q, want %q", out.said(), want)
		}
	}
}
