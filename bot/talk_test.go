package bot_test

import (
	"flag"
	"testing"
	_ "time/tzdata"

	"larderhand/bot/convtest"
)

var update = flag.Bool("update", false, "write down what was said in the golden talks")

func TestTalks(t *testing.T) {
	longTable(t)
	convtest.Run(t, "testdata", *update, func(testing.TB) convtest.Channel { return &convtest.Paper{} })
}
