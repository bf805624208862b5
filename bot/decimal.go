package bot

import (
	"strconv"
	"strings"
)

// decimal reads a number whose decimals stand after a point or a comma.
func decimal(s string) (float64, error) {
	return strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
}
