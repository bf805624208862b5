package curemath

// MaxRubs is the most rubs a dry box cure is planned in.
const MaxRubs = 6
