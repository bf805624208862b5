package bot_test

import (
	"strings"
	"testing"

	"larderhand/store"
)

// 3.2 g of a 6.25 % mix on 2,001 g comes to 99.95 ppm, 4.8 g of a 10 % one on 4,801 g to
// 99.98: neither may read as 100 ppm, under the 100 ppm. Computed.
func TestAHairUnderReadsAsUnder(t *testing.T) {
	b := newBench(t, store.Memory)
	for _, line := range []string{"2001 g mix 6.25% nitrite 100 ppm", "4801 g mix 10% nitrite 100 ppm", "open 4801 g mix 10% nitrite 100 ppm"} {
		said := b.say(line).Text()
		if strings.Contains(said, "comes to 100 ppm") || !strings.Contains(said, "comes to 99.9 ppm") {
			t.Errorf("%q: %s", line, said)
		}
	}
}
