package reply

import (
	"errors"
	"strconv"
	"strings"
)

// MaxToken is how many bytes a button's token may take: the lower of the two
// platforms' limits (callback data of 1 to 64 bytes on Telegram, custom ids of 1
// to 100 characters on Discord).
const MaxToken = 64

// ErrToken says that a token was not made by this package or by a version of it
// that is still understood.
var ErrToken = errors.New("not a button of ours")

const (
	tokenMark = "L1" // format version: a later format gets another mark and both are read
	tokenAsk  = "A1"
)

// Token packs what the button does into a string that survives restarts and
// upgrades: a format mark, the batch's version in base 36, and the line.
func (b Button) Token() string {
	mark := tokenMark
	if b.Ask {
		mark = tokenAsk
	}
	return mark + ":" + strconv.FormatInt(int64(b.Version), 36) + ":" + b.Line
}

// ParseToken reads a token back; the label is lost.
func ParseToken(s string) (Button, error) {
	mark, rest, ok := strings.Cut(s, ":")
	if !ok || (mark != tokenMark && mark != tokenAsk) || len(s) > MaxToken {
		return Button{}, ErrToken
	}
	v, line, ok := strings.Cut(rest, ":")
	if !ok || line == "" {
		return Button{}, ErrToken
	}
	n, err := strconv.ParseInt(v, 36, 32)
	if err != nil || n < 0 {
		return Button{}, ErrToken
	}
	return Button{Line: line, Version: int(n), Ask: mark == tokenAsk}, nil
}
