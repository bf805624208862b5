package bot

// mouldy is what grows on meat.
func mouldy() worry {
	return worryOf("storage", `\b(mou?ld(s|y)?|fuzz|fuzzy|furry)\b|\b(white|green|blue|black|gr[ae]y|pink|orange)(ish)? (fur|fluff|hairs?|spots?|dots?|specks?|patch(es)?|film|stuff growing)\b`,
		"Mould on meat, white, green or black, in fuzz or in spots: throw it away. Don't cut it off, don't taste it; no cure and no cooking makes it good again (USDA for bacon; from memory).",
		"Only grains that melt in a drop of water are salt, and your own pepper is no mould. In doubt it is mould (our own choice, no source).").ahead().
		butNot(`\bno (mou?ld|fuzz|spots)\b|\bpink (stuff|salt)\b`).then(gone("mould"))
}
