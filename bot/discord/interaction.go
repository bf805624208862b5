package discord

import (
	"context"
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// interaction takes in the use of a command, a button or a form. It must not wait
// for anything: other events are behind it.
func (a *Adapter) interaction(ctx context.Context, s *discordgo.Session, i *discordgo.Interaction) {
	who, ok := presser(i)
	if !ok || i.Data == nil || !a.recent.first(i.ID) {
		return
	}
	in := bot.Message{Event: scheme + i.ID, Conversation: Address(i.ChannelID), Direct: i.GuildID == "", Places: i.GuildID != "", Sender: who, At: a.Now()}
	in.Title, in.Server = titleOf(s, i.ChannelID)
	x := &exchange{a: a, i: i}
	switch data := i.Data.(type) {
	case discordgo.ApplicationCommandInteractionData:
		if i.Type == discordgo.InteractionApplicationCommandAutocomplete {
			a.suggest(ctx, x, in, data)
			return
		}
		a.slash(ctx, x, in, data)
	case discordgo.MessageComponentInteractionData:
		a.press(ctx, x, in, data.CustomID)
	case discordgo.ModalSubmitInteractionData:
		a.submit(ctx, x, in, data)
	}
}

// slash answers a command.
func (a *Adapter) slash(ctx context.Context, x *exchange, in bot.Message, data discordgo.ApplicationCommandInteractionData) {
	c, ok := a.command(data.Name)
	if !ok {
		x.aside(ctx, in, "I no longer know /"+data.Name+". Discord shows my commands anew in a while; typing help to me lists them.")
		return
	}
	in.Text = lineOf(c, data.Options)
	if asks(c, data.Options) && a.ask(ctx, x, in, reply.Button{Line: in.Text}) {
		return
	}
	x.line, x.attached = in.Text, attachedTo(data)
	a.answer(ctx, x, in)
}

// press answers a button: one that turns a page, one that asks for more with a
// form, or one that does what its line would do.
func (a *Adapter) press(ctx context.Context, x *exchange, in bot.Message, id string) {
	x.pressed = true
	if ref, n, ok := readPageRef(id); ok {
		a.turn(ctx, x, in, ref, n)
		return
	}
	b, err := reply.ParseToken(id)
	if err != nil {
		x.aside(ctx, in, "I can't read that button any more; nothing was changed. Ask anew: /help lists what I can do.")
		return
	}
	if b.Ask && a.ask(ctx, x, in, b) {
		return
	}
	in.Press, x.line = &b, b.Line
	a.answer(ctx, x, in)
}

// ask opens the form of a line; false if it has none.
func (a *Adapter) ask(ctx context.Context, x *exchange, in bot.Message, b reply.Button) bool {
	f, ok := a.Bot.Form(b.Line)
	if !ok {
		return false
	}
	b.Ask = false
	m, ok := form(b, f)
	if !ok {
		return false
	}
	a.aside(ctx, in, func(ctx context.Context) { x.open(ctx, m) })
	return true
}

// submit answers a form that was sent in, as a press of a button with the whole
// line, so that one about a batch that has changed meanwhile is told so.
func (a *Adapter) submit(ctx context.Context, x *exchange, in bot.Message, data discordgo.ModalSubmitInteractionData) {
	b, err := reply.ParseToken(strings.TrimPrefix(data.CustomID, formMark))
	f, ok := a.Bot.Form(b.Line)
	if err != nil || !ok {
		x.aside(ctx, in, "I can't read that form any more; nothing was changed. Ask anew: /help lists what I can do.")
		return
	}
	b.Line = f.Fill(filledIn(data, f))
	in.Press, x.line, x.pressed = &b, b.Line, x.i.Message != nil
	a.answer(ctx, x, in)
}

// answer has the bot answer in its turn in the conversation, and puts the answer
// off if that takes long.
func (a *Adapter) answer(ctx context.Context, x *exchange, in bot.Message) {
	x.soon(ctx, a.ack)
	a.put(ctx, x.i.ID, in.Conversation, func(ctx context.Context) {
		r, thread := a.settle(ctx, in, a.handle(ctx, in, x.attached))
		x.thread = thread
		x.finish(ctx, r)
	}, func() {
		a.background(ctx, func(ctx context.Context) {
			x.finish(ctx, private("That is too much at once in this channel; nothing was changed. Try again in a minute."))
		})
	})
}

// turn shows another page of an answer in place.
func (a *Adapter) turn(ctx context.Context, x *exchange, in bot.Message, ref pageRef, n int) {
	then := in
	then.Event, then.Text = scheme+ref.event, ref.line
	x.soon(ctx, a.ack)
	a.aside(ctx, in, func(ctx context.Context) {
		if again, ok := a.Bot.(Repeater); ok {
			if r, ok := again.Again(ctx, then); ok {
				r.Private = false // the message stays as visible as it is
				x.replace(ctx, card(r, n, ref))
				return
			}
		}
		x.finish(ctx, private("I have not kept those pages; ask again to see them."))
	})
}

// suggest offers what may be meant while an option is typed. It cannot be put off,
// so it waits for no turn, and gives nothing rather than come too late.
func (a *Adapter) suggest(ctx context.Context, x *exchange, in bot.Message, data discordgo.ApplicationCommandInteractionData) {
	a.aside(ctx, in, func(ctx context.Context) {
		soon, stop := context.WithTimeout(ctx, a.ack)
		list := a.suggestions(soon, in, data)
		stop()
		x.choices(ctx, list)
	})
}

func (a *Adapter) suggestions(ctx context.Context, in bot.Message, data discordgo.ApplicationCommandInteractionData) []choice {
	c, ok := a.command(data.Name)
	s, can := a.Bot.(Suggester)
	if !ok || !can {
		return nil
	}
	for _, o := range data.Options {
		for _, f := range fields(c) {
			if !o.Focused || optionName(f.Name) != o.Name || f.Suggest == "" {
				continue
			}
			typed, _ := o.Value.(string)
			return choicesOf(s.Suggest(ctx, in.Conversation, f.Suggest, typed))
		}
	}
	return nil
}

// aside does what needs no turn in the conversation.
func (a *Adapter) aside(ctx context.Context, in bot.Message, do func(context.Context)) {
	a.background(ctx, func(ctx context.Context) {
		defer a.finished(strings.TrimPrefix(in.Event, scheme))
		do(ctx)
	})
}

// background does something beside the reading of events; Run waits for it.
func (a *Adapter) background(ctx context.Context, do func(context.Context)) {
	a.work.Add(1)
	go func() {
		defer a.work.Done()
		ctx, stop := a.outlast(ctx)
		defer stop()
		a.guard("what is done aside", func() { do(ctx) })
	}()
}

func private(text string) reply.Reply {
	var r reply.Reply
	r.Say(text)
	r.Private = true
	return r
}
