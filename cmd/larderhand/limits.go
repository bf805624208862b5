package main

import (
	"strings"
	"time"

	"golang.org/x/time/rate"

	"larderhand/scheduler"
	"larderhand/store"
)

// workers is how many messages to one platform may be on their way at once: ten
// seconds of the quickest platform's rate, so that a few hundred hanging
// conversations hold up nobody else.
const workers = 500

// The platforms' published limits. In any second a bucket lets through Limit +
// Burst, so each stays one below its platform's figure and reaches it.
func laneLimits(lane string) scheduler.Limits {
	switch lane {
	case "telegram":
		// About 30 messages a second in all, 1 a second in one chat, 20 a minute in
		// one group: https://core.telegram.org/bots/faq, "My bot is hitting limits".
		return scheduler.Limits{All: scheduler.Rate{Limit: 29, Burst: 1}, Chat: telegramChat}
	case "discord":
		// 50 requests a second in all: Discord's documentation, topics/rate-limits;
		// the limits of single routes are named by each answer and followed by its
		// retry_after.
		return scheduler.Limits{All: scheduler.Rate{Limit: 49, Burst: 1}}
	}
	return scheduler.Limits{}
}

// telegramChat counts all topics of a chat together. Groups have negative numbers
// (Bot API, Chat.id).
func telegramChat(a store.Address) (string, scheduler.Rate) {
	room, _, _ := strings.Cut(string(a), "/")
	if strings.HasPrefix(room, "telegram:-") {
		return room, scheduler.Rate{Limit: rate.Every(time.Minute / 19), Burst: 1}
	}
	return room, scheduler.Rate{Limit: 1, Burst: 1}
}
