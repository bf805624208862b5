package main

import "larderhand/scheduler"

// In any second a bucket lets through its Limit and its Burst, so each of these
// stays one below its platform's figure and so never goes over it. What the bot
// answers comes on top; where that is too much the platform says how long to wait.

// discordLimits is how fast Discord takes pings: 50 requests a second in all
// (Discord's documentation, topics/rate-limits). The limits of a single channel
// are named by each answer and followed by its retry_after.
func discordLimits() scheduler.Limits {
	return scheduler.Limits{All: scheduler.Rate{Limit: 49, Burst: 1}}
}
