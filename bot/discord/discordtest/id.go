package discordtest

import (
	"strconv"
	"time"
)

// discordEpoch is the first second of 2015 in Unix milliseconds
// (reference.mdx, "Snowflakes").
const discordEpoch = 1420070400000

// newID makes the next snowflake. Ids follow from the clock and the order of
// calls alone, so that a run can be repeated to the letter.
func (s *Server) newID() string {
	s.increment++
	ms := s.now().UnixMilli() - discordEpoch
	return strconv.FormatInt(ms<<22|s.increment, 10)
}

// shardOf applies the published formula (gateway.mdx, "Sharding").
func shardOf(guildID string, shards int) int {
	if guildID == "" || shards < 2 {
		return 0
	}
	n, err := strconv.ParseInt(guildID, 10, 64)
	if err != nil {
		return 0
	}
	return int(n>>22) % shards
}

func stamp(t time.Time) string {
	return t.UTC().Format("2006-01-02T15:04:05.000000+00:00")
}
