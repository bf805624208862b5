package discordtest

import "slices"

// hideAfterMinutes are the values of auto_archive_duration
// (resources/channel.mdx).
var hideAfterMinutes = []int{60, 1440, 4320, 10080}

const (
	maxChannelName = 100
	maxTopic       = 1024
	maxSlowmode    = 21600
)

func threadLimits(c *call) {
	c.checkName(text(c.object()["name"]))
	c.checkSettings()
}

func channelLimits(c *call) {
	if name, ok := c.object()["name"]; ok {
		c.checkName(text(name))
	}
	if n := length(text(c.object()["topic"])); n > maxTopic {
		c.breach("topic of %d characters, more than %d", n, maxTopic)
	}
	c.checkSettings()
}

func (c *call) checkName(name string) {
	if n := length(name); n < 1 || n > maxChannelName {
		c.breach("channel name of %d characters, want 1-%d", n, maxChannelName)
	}
}

func (c *call) checkSettings() {
	body := c.object()
	if n, ok := whole(body["auto_archive_duration"]); ok && !slices.Contains(hideAfterMinutes, n) {
		c.breach("auto_archive_duration %d, want one of %v", n, hideAfterMinutes)
	}
	if n, ok := whole(body["rate_limit_per_user"]); ok && (n < 0 || n > maxSlowmode) {
		c.breach("rate_limit_per_user %d, want 0-%d", n, maxSlowmode)
	}
}
