package terminal_test

import (
	"strings"
	"testing"

	"larderhand/bot/adaptertest"
	"larderhand/bot/reply"
	"larderhand/bot/terminal"
)

// What somebody says is printed as it was said, to the last character.
func TestRemarksComeBackWhole(t *testing.T) {
	for _, remark := range append(adaptertest.Remarks(), adaptertest.LongRemark(10_000)) {
		var r reply.Reply
		r.Say("Noted: ", remark)
		if got := terminal.Render(r, nil); !strings.Contains(adaptertest.Solid(got), adaptertest.Solid(remark)) {
			t.Errorf("%.300q is printed as %.300q", remark, got)
		}
	}
}
