package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"time"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/reply"
)

// apiError is why a request came to nothing. It holds no address, since those of
// interactions hold a token.
type apiError struct {
	status int           // 0: no answer came
	code   int           // Discord's own
	after  time.Duration // a 429: how long to wait
	wide   bool          // a 429: for all requests
	cause  string
}

func (e *apiError) Error() string {
	switch {
	case e.status == 0:
		return "no answer: " + e.cause
	case e.after > 0:
		return fmt.Sprintf("asked to wait %s", e.after)
	}
	return fmt.Sprintf("status %d, code %d: %s", e.status, e.code, e.cause)
}

// lasting reports whether trying again cannot help.
func (e *apiError) lasting() bool {
	return e.status >= 400 && e.status < 500 && e.status != http.StatusTooManyRequests
}

// caller makes requests. It uses a session that is never connected, so that nothing
// the gateway does holds it up.
type caller struct{ session *discordgo.Session }

// do makes one request and tries nothing again. Each gets a limiter of its own:
// the library's shared one sleeps through its waits whatever becomes of ctx.
func (c caller) do(ctx context.Context, method, address string, payload any, files []*discordgo.File) ([]byte, error) {
	kind, raw, err := encode(payload, files)
	if err != nil {
		return nil, err
	}
	limit := &limited{}
	ctx = context.WithValue(ctx, limitedKey{}, limit)
	bucket := discordgo.NewRatelimiter().LockBucket(address)
	out, err := c.session.RequestWithLockedBucket(method, address, kind, raw, bucket, 0,
		discordgo.WithContext(ctx), discordgo.WithRetryOnRatelimit(false), discordgo.WithRestRetries(0))
	if err != nil {
		err = tidy(err)
		if e := status(err); e != nil && e.status == http.StatusTooManyRequests {
			e.after, e.wide = max(limit.after(), e.after), limit.Global
		}
		return nil, err
	}
	return out, nil
}

func encode(payload any, files []*discordgo.File) (kind string, raw []byte, err error) {
	switch {
	case payload == nil:
		return "", nil, nil
	case len(files) > 0:
		return discordgo.MultipartBodyWithJSON(payload, files)
	}
	raw, err = json.Marshal(payload)
	return "application/json", raw, err
}

func uploads(files []reply.File) []*discordgo.File {
	var out []*discordgo.File
	for _, f := range files {
		out = append(out, &discordgo.File{Name: f.Name, ContentType: f.Type, Reader: bytes.NewReader(f.Data)})
	}
	return out
}

// tidy makes an error of the library's one that holds no secret.
func tidy(err error) error {
	var (
		limit *discordgo.RateLimitError
		rest  *discordgo.RESTError
		link  *url.Error
	)
	switch {
	case errors.As(err, &limit) && limit.RateLimit != nil && limit.TooManyRequests != nil:
		return &apiError{status: http.StatusTooManyRequests, after: max(limit.RetryAfter, time.Millisecond)}
	case errors.As(err, &rest):
		e := &apiError{status: rest.Response.StatusCode, cause: http.StatusText(rest.Response.StatusCode)}
		if rest.Message != nil {
			e.code, e.cause = rest.Message.Code, rest.Message.Message
		}
		return e
	case errors.As(err, &link):
		return &apiError{cause: link.Err.Error()}
	}
	// What is left is a body that cannot be read or a 502 given up on.
	return &apiError{cause: "the answer could not be used"}
}
