//go:build !unix

package bot_test

import "time"

func cpuTime() time.Duration { return 0 }
