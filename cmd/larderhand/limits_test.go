package main

import (
	"testing"
	"time"

	"golang.org/x/time/rate"

	"larderhand/scheduler"
)

// The figures are the platforms' own: https://core.telegram.org/bots/faq and
// Discord's topics/rate-limits (second-hand, not checked against the text).
func TestLimitsStayWithinThePlatforms(t *testing.T) {
	for most, l := range map[float64]scheduler.Limits{30: telegramLimits(), 50: discordLimits()} {
		if got := float64(l.All.Limit) + float64(l.All.Burst); got > most {
			t.Errorf("up to %v in a second where %v are allowed", got, most)
		}
		if float64(l.All.Limit) < most/1.05 {
			t.Errorf("%v a second is more than 5 %% below %v", l.All.Limit, most)
		}
	}
	chat := telegramLimits().Chat
	room, group := chat("telegram:-1001234/7")
	if other, _ := chat("telegram:-1001234/9"); room != other {
		t.Errorf("topics of one group are %q and %q", room, other)
	}
	if n := float64(group.Limit)*60 + float64(group.Burst); n > 20.001 {
		t.Errorf("a group gets up to %v a minute", n)
	}
	if _, one := chat("telegram:1234"); one.Limit > rate.Every(time.Second) || one.Burst > 1 {
		t.Errorf("a private chat gets %v a second", one.Limit)
	}
}
