package main

import (
	"testing"
	"time"

	"golang.org/x/time/rate"
)

// The figures are the platforms' own: https://core.telegram.org/bots/faq and
// Discord's topics/rate-limits.
func TestLaneLimitsStayWithinThePlatforms(t *testing.T) {
	for lane, most := range map[string]float64{"telegram": 30, "discord": 50} {
		r := laneLimits(lane).All
		if got := float64(r.Limit) + float64(r.Burst); got > most {
			t.Errorf("%s: up to %v in a second where %v are allowed", lane, got, most)
		}
		if float64(r.Limit) < most/1.05 {
			t.Errorf("%s: %v a second is more than 5 %% below %v", lane, r.Limit, most)
		}
	}
	room, group := telegramChat("telegram:-1001234/7")
	if other, _ := telegramChat("telegram:-1001234/9"); room != other {
		t.Errorf("topics of one group are %q and %q", room, other)
	}
	if n := float64(group.Limit)*60 + float64(group.Burst); n > 20.001 {
		t.Errorf("a group gets up to %v a minute", n)
	}
	if _, one := telegramChat("telegram:1234"); one.Limit > rate.Every(time.Second) {
		t.Errorf("a private chat gets %v a second", one.Limit)
	}
}
