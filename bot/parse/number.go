package parse

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// number is a number as typed, with the doubts that its unit has to settle.
type number struct {
	value     float64
	thousands float64 // the other reading, where comma or point is set
	comma     bool    // a comma before exactly three digits
	point     bool    // a point before exactly three digits
	top, base int     // of a plain fraction such as 151/124, else 0
	whole     bool    // digits only
	fault     string  // why it is no number, or ""
}

// longest is how many digits of a number are read.
const longest = 24

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// vulgar gives the value of the one-character fractions.
func vulgar(r rune) (float64, bool) {
	switch r {
	case '½':
		return 1.0 / 2, true
	case '⅓':
		return 1.0 / 3, true
	case '⅔':
		return 2.0 / 3, true
	case '¼':
		return 1.0 / 4, true
	case '¾':
		return 3.0 / 4, true
	case '⅕':
		return 1.0 / 5, true
	case '⅖':
		return 2.0 / 5, true
	case '⅗':
		return 3.0 / 5, true
	case '⅘':
		return 4.0 / 5, true
	case '⅙':
		return 1.0 / 6, true
	case '⅚':
		return 5.0 / 6, true
	case '⅛':
		return 1.0 / 8, true
	case '⅜':
		return 3.0 / 8, true
	case '⅝':
		return 5.0 / 8, true
	case '⅞':
		return 7.0 / 8, true
	}
	return 0, false
}

// numeral reads digits and signs from glyph lists.
type numeral []glyph

func (g numeral) at(i int) rune {
	if i < 0 || i >= len(g) {
		return 0
	}
	return g[i].r
}

// digits gives the end of the run of digits at i.
func (g numeral) digits(i int) int {
	for isDigit(g.at(i)) {
		i++
	}
	return i
}

func (g numeral) text(i, j int) string {
	var b strings.Builder
	for ; i < j; i++ {
		b.WriteRune(g[i].r)
	}
	return b.String()
}

// starts says whether a number begins at i.
func (g numeral) starts(i int) bool {
	r := g.at(i)
	return isDigit(r) || unicode.Is(unicode.No, r) || r == '.' && isDigit(g.at(i+1)) && !isDigit(g.at(i-1))
}

// read takes the longest number at i, without a sign, and gives its end.
func (g numeral) read(i int) (number, int) {
	n, j := g.decimal(i)
	if n.fault == "" {
		n, j = g.fraction(n, i, j)
	}
	// Whatever digit-like sign still hangs on makes it no number: 5², 1e400, ½5.
	if k := g.exponent(j); k > j {
		n.fault, j = "write the number out, without an exponent", k
	}
	for isDigit(g.at(j)) || unicode.Is(unicode.No, g.at(j)) {
		n.fault = "that is not a number I know"
		j++
	}
	return n, j
}

func (g numeral) exponent(j int) int {
	if g.at(j) != 'e' {
		return j
	}
	k := j + 1
	if g.at(k) == '-' || g.at(k) == '+' {
		k++
	}
	if end := g.digits(k); end > k {
		return end
	}
	return j
}

// decimal reads digits with their decimal and thousands signs.
func (g numeral) decimal(i int) (number, int) {
	j := g.digits(i)
	parts, signs := []string{g.text(i, j)}, []rune{}
	for {
		sign := g.at(j)
		end := g.digits(j + 1)
		size := end - j - 1
		switch sign {
		case '.', ',':
			if size == 0 || sign == ',' && j == i {
				return assemble(parts, signs), j
			}
		case tie, '\'':
			if size != 3 || j == i || j-i > 3 && len(signs) == 0 {
				return assemble(parts, signs), j
			}
		default:
			return assemble(parts, signs), j
		}
		signs = append(signs, sign)
		parts = append(parts, g.text(j+1, end))
		j = end
	}
}

// assemble makes a number of groups of digits and the signs between them.
func assemble(parts []string, signs []rune) number {
	whole := strings.Join(parts, "")
	if len(whole) > longest {
		return number{fault: "that has more digits than I can use"}
	}
	if len(signs) == 0 {
		return number{value: float(whole), whole: true}
	}
	last := signs[len(signs)-1]
	tail := parts[len(parts)-1]
	grouped := grouping(parts, signs)
	switch {
	case len(signs) > 1 && grouped && alike(signs):
		return number{value: float(whole)}
	case len(signs) > 1 && (last == '.' || last == ',') && last != signs[0] &&
		alike(signs[:len(signs)-1]) && grouping(parts[:len(parts)-1], signs[:len(signs)-1]):
		return number{value: float(strings.Join(parts[:len(parts)-1], "") + "." + tail)}
	case len(signs) > 1:
		return number{fault: "that has too many points or commas"}
	case last == tie || last == '\'':
		return number{value: float(whole)}
	}
	n := number{value: float(parts[0] + "." + tail)}
	if grouped {
		n.thousands, n.comma, n.point = float(whole), last == ',', last == '.'
	}
	return n
}

// grouping says whether the groups could be thousands: one to three digits
// without a leading nought, then threes.
func grouping(parts []string, signs []rune) bool {
	if len(signs) == 0 || len(parts[0]) == 0 || len(parts[0]) > 3 || parts[0][0] == '0' {
		return false
	}
	for _, p := range parts[1:] {
		if len(p) != 3 {
			return false
		}
	}
	return true
}

func alike(signs []rune) bool {
	for _, s := range signs {
		if s != signs[0] {
			return false
		}
	}
	return true
}

// float reads at most longest digits, so it can neither overflow nor fail.
func float(s string) float64 {
	if s == "" {
		return 0
	}
	f, err := strconv.ParseFloat("0"+s, 64)
	if err != nil || math.IsInf(f, 0) {
		return 0
	}
	return f
}

// fraction adds ½ or 1/2 to the whole number n that ends at j, or makes n itself
// the top of one.
func (g numeral) fraction(n number, i, j int) (number, int) {
	gap := j
	for g.at(gap) == ' ' || g.at(gap) == tie {
		gap++
	}
	if v, ok := vulgar(g.at(gap)); ok && (n.whole || j == i) {
		return number{value: n.value + v}, gap + 1
	}
	if !n.whole || j == i {
		return n, j
	}
	if top, base, end, ok := g.ratio(i); ok {
		if base == 0 {
			return number{fault: "nothing can be divided by nought"}, end
		}
		return number{value: float64(top) / float64(base), top: top, base: base}, end
	}
	if gap == j && g.at(j) == '-' {
		gap++
	}
	if top, base, end, ok := g.ratio(gap); ok && gap > j && top < base && base <= 64 {
		return number{value: n.value + float64(top)/float64(base)}, end
	}
	return n, j
}

// ratio reads 1/2 with at most four digits on either side.
func (g numeral) ratio(i int) (top, base, end int, ok bool) {
	j := g.digits(i)
	end = g.digits(j + 1)
	if j == i || g.at(j) != '/' || end == j+1 || j-i > 4 || end-j-1 > 4 {
		return 0, 0, i, false
	}
	// A date such as 3/1/2027 or a decimal such as 1/2.5 is no fraction.
	if next := g.at(end); (next == '/' || next == '.' || next == ',') && isDigit(g.at(end+1)) {
		return 0, 0, i, false
	}
	return int(float(g.text(i, j))), int(float(g.text(j+1, end))), end, true
}
