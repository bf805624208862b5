package adaptertest

import (
	"strings"
	"unicode"
)

// emojiBlocks are the blocks of Unicode that hold emoji (the names list of the
// standard, from memory).
var emojiBlocks = [][2]rune{{0x2190, 0x21FF}, {0x2300, 0x23FF}, {0x25A0, 0x27BF}, {0x2900, 0x297F}, {0x2B00, 0x2BFF},
	{0x1F000, 0x1F02F}, {0x1F0A0, 0x1F0FF}, {0x1F100, 0x1F2FF}, {0x1F300, 0x1F64F}, {0x1F680, 0x1F6FF}, {0x1F7E0, 0x1F7FF}, {0x1F900, 0x1F9FF}, {0x1FA70, 0x1FAFF}}

// sequences are emoji of several characters: with a shape, a colour of skin, joined to
// one, flags of letters and of tags, and what stands on a key.
const sequences = "\u2764\ufe0f \u2714\ufe0e \U0001F44D\U0001F3FF \U0001F469\U0001F3FD\u200d\U0001F373 \U0001F468\u200d\U0001F469\u200d\U0001F467\u200d\U0001F466 " +
	"\U0001F3F3\ufe0f\u200d\U0001F308 \U0001F9D1\U0001F3FB\u200d\U0001F91D\u200d\U0001F9D1\U0001F3FF \U0001F1E9\U0001F1EA\U0001F1FA\U0001F1F8 " +
	"\U0001F3F4\U000E0067\U000E0062\U000E0065\U000E006E\U000E0067\U000E007F 1\ufe0f\u20e3 #\ufe0f\u20e3 *\ufe0f\u20e3"

// Remarks are what people may say of a batch that is hard to carry: every emoji,
// scripts written from right to left, characters put together, and what means something
// in some markup. Each is 400 characters at most.
func Remarks() []string {
	out := []string{sequences,
		"\u05e8\u05d9\u05d7 \u05e2\u05e8\u05e2\u05e8, \u05d9\u05d5\u05dd 3 (bag 2) \u05d5\u05e2\u05d5\u05d3 5% \u05de\u05dc\u05d7!",
		"\u0631\u0627\u0626\u062d\u0629 \u0627\u0644\u0639\u0631\u0639\u0631\u060c \u0661\u0662 \u064a\u0648\u0645\u064b\u0627 \u0648 5 lb \u0628\u062f\u0648\u0646 \u0645\u0644\u062d\u061f",
		"\u200f\u05e9\u05dc\u05d5\u05dd\u200e then left to right",
		"e\u0301 a\u0308 \u0e01\u0e33\u0e25\u0e31\u0e07 \ud55c\uad6d\uc5b4 \u4e2d\u6587 \u0928\u092e\u0915 \U0001D505\U0001D51E\U0001D520\U0001D52C\U0001D52B z\u0351\u036b\u0343\u036a\u0302"}
	var emoji []rune
	for _, block := range emojiBlocks {
		for r := block[0]; r <= block[1]; r++ {
			if unicode.IsGraphic(r) {
				emoji = append(emoji, r)
			}
		}
	}
	for n := 0; n < len(emoji); n += 400 {
		out = append(out, string(emoji[n:min(n+400, len(emoji))]))
	}
	return append(out, hostile...)
}

// LongRemark is a text of most characters of all sorts, nearly, in words of their own,
// so that what is lost of it, or comes twice, shows.
func LongRemark(most int) string {
	var b strings.Builder
	n, list := 0, Remarks()
	for i := 0; ; i++ {
		word := "w" + string(rune('a'+i%26)) + string(rune('a'+i/26%26)) + "<" + string([]rune(strings.Join(strings.Fields(list[i%len(list)]), ""))[:1]) + "&>"
		if n += len([]rune(word)) + 1; n > most {
			return strings.TrimSpace(b.String())
		}
		b.WriteString(word + " ")
	}
}

// Solid is a text without its spaces and line ends, and without the marks that show
// nothing and keep a platform from making something of what was typed.
func Solid(text string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("\u2060", "", "\u200b", "").Replace(text)), "")
}
