package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

func stockCommands() []Command {
	return []Command{
		{Name: "stock", Also: []string{"cupboard", "larder"}, Own: true, Group: groupStock, Form: "stock / stock mix 500 g / stock mix +250 g for 4.20", Help: "what is left of mix, salt and sugar; count it, or add what you bought", Example: "stock mix 500 g",
			Fields: []Field{{Name: "Of what", Example: "mix", Optional: true, Choices: stockItems()}, {Name: "How much", Example: "500 g", Optional: true}}, Run: (*Turn).stock},
		{Name: "bought", Own: true, Group: groupStock, Form: "bought mix 250 g for 4.20", Help: "add what you bought, with its price", Example: "bought salt 1 kg for 0.90",
			Fields: []Field{{Name: "Of what", Example: "mix", Choices: stockItems()}, {Name: "How much", Example: "250 g for 4.20"}}, Run: func(t *Turn, args string) (reply.Reply, error) { return t.takeStock(args, store.StockBuy) }},
		{Name: "plan", Also: []string{"plans", "bacon"}, Own: true, Group: groupStock, Form: "plan 5 lb juniper for 24 December / plans / plan drop 1", Help: "when to buy, cure, dry and smoke for a date", Example: "plan 5 lb juniper 1.5 in for 24 December",
			Fields: []Field{{Name: "What", Example: "5 lb juniper 1.5 in", Optional: true}, {Name: "For when", Prefix: "for", Example: "24 December", Optional: true}}, Run: (*Turn).plan},
		{Name: "shopping", Group: groupStock, Form: "shopping", Help: "what to buy for the planned batches", Example: "shopping", Reads: true, Run: (*Turn).shopping},
	}
}

// stockItems are the things a cure uses up.
func stockItems() []string { return []string{"mix", "salt", "sugar"} }

func stockName(item string) string {
	if item == "mix" {
		return "curing mix"
	}
	return item
}

// needs is what a cure takes that is not a batch yet.
func (c cured) needs() map[string]curemath.Grams {
	out := map[string]curemath.Grams{}
	for _, cure := range c.cures {
		for item, g := range needs(cure.Weigh) {
			out[item] += g
		}
	}
	return out
}

func needs(p curemath.Portion) map[string]curemath.Grams {
	return map[string]curemath.Grams{"mix": p.Mix, "salt": p.Salt, "sugar": p.Sugar}
}

// stock shows what is left, or what a batch's cure cost, or takes a count.
func (t *Turn) stock(args string) (reply.Reply, error) {
	if ref, _, ok, err := parse.Batch(args); err == nil && ok {
		return t.cureCost(fmt.Sprint(ref.Number))
	}
	if strings.TrimSpace(args) != "" {
		return t.takeStock(args, store.StockCount)
	}
	var r reply.Reply
	s, err := t.shelf(t.Me.ID)
	if err != nil {
		return r, err
	}
	if len(s.left) == 0 {
		r.Say("I keep no count of your cupboard yet. Tell me what is there: ", reply.Type("stock mix 500 g"), ", ", reply.Type("stock salt 2 kg"))
		r.Say("From then on each batch you open is taken off, and I say so before one can't be made.")
		return r, nil
	}
	rows := [][]string{{"", "left", "price a kg"}}
	for _, item := range stockItems() {
		g, ok := s.left[item]
		if !ok {
			continue
		}
		price := "–"
		if p, ok := s.price[item]; ok {
			price = trim(float64(p.For(curemath.Kilogram)), 2)
		}
		rows = append(rows, []string{stockName(item), stockText(item, g), price})
	}
	r.Say(reply.B(t.Me.Name + "'s cupboard, by what was told:"))
	r.Table(rows)
	for _, item := range stockItems() {
		if s.left[item] < 0 {
			r.Say("More ", stockName(item), " was used than counted; count it anew: ", reply.Type("stock "+item+" 500 g"))
		}
	}
	r.Private = true
	return r, nil
}

func stockText(item string, g curemath.Grams) string {
	if item == "mix" {
		return grams(g, 1)
	}
	return grams(g, 0)
}

// takeStock takes up a count or a purchase.
func (t *Turn) takeStock(args, kind string) (reply.Reply, error) {
	var r reply.Reply
	pantry, err := t.bot.pantry()
	if err != nil {
		return r, err
	}
	said, err := readStock(pantry, args, kind == store.StockCount)
	if err != nil {
		return r, err
	}
	item := said.item
	e := store.Stocked{Member: t.Me.ID, Item: item, Kind: kind, Weight: said.weight, Paid: said.paid}
	if said.more {
		e.Kind = store.StockBuy
	}
	if e.Weight > curemath.MaxWeight {
		return r, &Error{Kind: BadInput, Why: "That is more than any cupboard holds.", Example: "stock mix 500 g"}
	}
	if err := t.Tx.AddStock(e); err != nil {
		return r, err
	}
	s, err := t.shelf(t.Me.ID)
	if err != nil {
		return r, err
	}
	noted := "Noted. You have "
	if said.price != "" {
		noted = "Noted, at " + said.price + ". You have "
	}
	r.Say(noted, reply.B(stockText(item, s.left[item])), " of ", stockName(item), ".")
	if said.mind != "" {
		r.Say(said.mind)
	}
	if item == "mix" {
		r.Say("Keep it labelled and out of the reach of children (21 CFR 172.175).")
	}
	r.Private = true
	return r, nil
}

// sayShort says what a cure takes that the sender's cupboard does not hold. It is an
// aside: where the stock cannot be read, the cure is still answered.
func (t *Turn) sayShort(r *reply.Reply, need map[string]curemath.Grams) {
	if t.Tx == nil {
		return
	}
	s, err := t.shelf(t.Me.ID)
	if err != nil {
		t.bot.Log.WarnContext(t.ctx, "the stock could not be read", "error", err)
		return
	}
	for _, item := range stockItems() {
		if left, ok := s.left[item]; ok && left < need[item] {
			r.Say("Your cupboard holds ", stockText(item, max(left, 0)), " of ", stockName(item), " and this takes ", stockText(item, need[item]), ": buy some first, or count it anew with ", reply.Type("stock "+item+" 500 g"), ".")
		}
	}
}

// sayLow says what is left after a batch where it is too little for another like it.
func (t *Turn) sayLow(r *reply.Reply, took map[string]curemath.Grams) {
	s, err := t.shelf(t.Me.ID)
	if err != nil {
		t.bot.Log.WarnContext(t.ctx, "the stock could not be read", "error", err)
		return
	}
	for _, item := range stockItems() {
		switch left, ok := s.left[item]; {
		case ok && left < 0:
			whole := ""
			if item == "mix" {
				whole = " Weigh the whole of it or don't cure: less does not cure it, and nothing else stands in for it."
			}
			r.Say("This takes ", stockText(item, took[item]), " of ", stockName(item), " and you had ", stockText(item, max(left+took[item], 0)), " counted.", whole, " Bought more, or counted wrong: ", reply.Type("stock "+item+" 500 g"))
		case ok && left < took[item]:
			r.Say("That leaves ", stockText(item, left), " of ", stockName(item), ", too little for another like it.")
		}
	}
}

// cureCost says what the cure of a batch cost by the prices last paid.
func (t *Turn) cureCost(number string) (reply.Reply, error) {
	var r reply.Reply
	p, err := t.which("stock", number, nil)
	if err != nil {
		return r, err
	}
	s, err := t.shelf(p.State.Keeper)
	if err != nil {
		return r, err
	}
	rows := [][]string{{"", "took", "cost"}}
	var total curemath.Money
	missing := ""
	for _, item := range stockItems() {
		g := takes(p.State.Batch)[item]
		cost := "?"
		if price, ok := s.price[item]; ok {
			total += price.For(g)
			cost = trim(float64(price.For(g)), 2)
		} else if g > 0 {
			missing = item
		}
		rows = append(rows, []string{stockName(item), stockText(item, g), cost})
	}
	r.Say(reply.B(name(p.State)), " took for its cure:")
	r.Table(rows)
	switch {
	case total > 0:
		without := ""
		if missing != "" {
			without = ", without the " + stockName(missing) + ", whose price I don't know"
		}
		r.Par(fmt.Sprintf("Together %.2f by the prices last paid%s. With the belly: ", float64(total), without), reply.Type(fmt.Sprintf("cost %d 24.50", p.State.Number)))
	case missing != "":
		r.Par("Tell me a price and I reckon with it: ", reply.Type("bought "+missing+" 500 g for 4.20"))
	}
	return r, nil
}
