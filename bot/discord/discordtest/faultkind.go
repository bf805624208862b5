package discordtest

import (
	"net/http"
	"strconv"
	"time"
)

// FaultKind is a way for a request to go wrong.
type FaultKind struct {
	name  string
	reply answer // with a status: said instead of acting
	after bool   // acts on the model first, then goes wrong
	hold  bool
	reset bool
	delay time.Duration
}

func (k FaultKind) answer() answer { return k.reply }

// RateLimited is a 429 of one route, with retry_after in float seconds and the
// headers of topics/rate-limits.mdx. Keep it short: after it discordgo's own
// limiter holds back the next call of that route for as long in real time,
// whatever the context says.
func RateLimited(retryAfter time.Duration) FaultKind {
	return limited("rate limited", retryAfter, "user", false)
}

// RateLimitedShared is a 429 of a resource's shared limit, which does not count
// towards the limit of invalid requests.
func RateLimitedShared(retryAfter time.Duration) FaultKind {
	return limited("rate limited (shared)", retryAfter, "shared", false)
}

// RateLimitedGlobally is a 429 for all requests of the bot.
func RateLimitedGlobally(retryAfter time.Duration) FaultKind {
	return limited("rate limited globally", retryAfter, "global", true)
}

func limited(name string, after time.Duration, scope string, global bool) FaultKind {
	seconds := strconv.FormatFloat(after.Seconds(), 'f', -1, 64)
	h := http.Header{
		"Retry-After":       {strconv.Itoa(int((after + time.Second - 1) / time.Second))},
		"X-Ratelimit-Scope": {scope},
	}
	if global {
		h["X-Ratelimit-Global"] = []string{"true"}
	} else {
		h["X-Ratelimit-Limit"], h["X-Ratelimit-Remaining"] = []string{"5"}, []string{"0"}
		h["X-Ratelimit-Reset-After"], h["X-Ratelimit-Bucket"] = []string{seconds}, []string{"fake"}
	}
	return FaultKind{name: name, reply: answer{status: 429, header: h, body: obj{
		"message": "You are being rate limited.", "retry_after": after.Seconds(), "global": global, "code": 0,
	}}}
}

// ServerError is a 5xx with an HTML page, as a proxy in front answers.
func ServerError(status int) FaultKind {
	return FaultKind{name: "server error", reply: answer{
		status: status, html: "<html><head><title>" + http.StatusText(status) + "</title></head></html>",
	}}
}

// Refused is an error answer with a code of
// topics/opcodes-and-status-codes.mdx.
func Refused(status, code int, message string) FaultKind {
	return FaultKind{name: message, reply: refuse(status, code, message)}
}

// Unauthorized is a 401: the token is no longer good.
func Unauthorized() FaultKind { return Refused(401, 0, "401: Unauthorized") }

// MissingAccess is 403, 50001.
func MissingAccess() FaultKind { return Refused(403, 50001, "Missing Access") }

// MissingPermissions is 403, 50013.
func MissingPermissions() FaultKind { return Refused(403, 50013, "Missing Permissions") }

// CannotMessage is 403, 50007: the person takes no direct messages.
func CannotMessage() FaultKind { return Refused(403, 50007, "Cannot send messages to this user") }

// UnknownChannel is 404, 10003.
func UnknownChannel() FaultKind { return Refused(404, 10003, "Unknown Channel") }

// UnknownMessage is 404, 10008.
func UnknownMessage() FaultKind { return Refused(404, 10008, "Unknown Message") }

// UnknownWebhook is 404, 10015.
func UnknownWebhook() FaultKind { return Refused(404, 10015, "Unknown Webhook") }

// Hang takes the request and does nothing until Release, which lets it go on as
// usual, or until the client gives up, which leaves it undone.
func Hang() FaultKind { return FaultKind{name: "hangs", hold: true} }

// HoldAnswer does what is asked but keeps the answer until Release: the client
// that gives up does not know the outcome.
func HoldAnswer() FaultKind { return FaultKind{name: "answer held", hold: true, after: true} }

// Reset cuts the connection before anything is done.
func Reset() FaultKind { return FaultKind{name: "connection reset", reset: true} }

// ResetAfter does what is asked and cuts the connection before answering.
func ResetAfter() FaultKind {
	return FaultKind{name: "connection reset after the deed", reset: true, after: true}
}

// Slow does what is asked and answers late, in real time; keep it short, and
// prefer HoldAnswer.
func Slow(d time.Duration) FaultKind { return FaultKind{name: "slow", delay: d, after: true} }
