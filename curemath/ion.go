package curemath

// Factors between the salts and their ions, from the standard atomic weights
// (IUPAC 2007).
const (
	nitrogen  = 14.0067
	oxygen    = 15.9994
	sodium    = 22.98977
	potassium = 39.0983
	chlorine  = 35.453

	nitriteIon = nitrogen + 2*oxygen
	nitrateIon = nitrogen + 3*oxygen

	ionPerSodiumNitrite    = nitriteIon / (sodium + nitriteIon)
	ionPerSodiumNitrate    = nitrateIon / (sodium + nitrateIon)
	ionPerPotassiumNitrate = nitrateIon / (potassium + nitrateIon)
	potassiumPerSodium     = (potassium + nitriteIon) / (sodium + nitriteIon)
	sodiumPerSalt          = sodium / (sodium + chlorine)
)

// AsNitriteIon gives milligrams of nitrite ion in a kilogram for a ppm of sodium
// nitrite (factor 0.66679, computed from atomic weights).
func (p PPM) AsNitriteIon() PPM { return p * ionPerSodiumNitrite }

// FromNitriteIon gives the ppm of sodium nitrite for a figure stated as ion,
// the inverse of AsNitriteIon (computed).
func FromNitriteIon(ion PPM) PPM { return ion / ionPerSodiumNitrite }

// AsPotassiumNitrite gives the ppm of potassium nitrite that holds as much
// nitrite as a ppm of sodium nitrite (factor 1.23347, computed from atomic weights).
func (p PPM) AsPotassiumNitrite() PPM { return p * potassiumPerSodium }

// FromPotassiumNitrite is the inverse of AsPotassiumNitrite (computed).
func FromPotassiumNitrite(p PPM) PPM { return p / potassiumPerSodium }

// Sodium gives the mass of sodium in a mass of salt (factor 0.39337, computed
// from atomic weights).
func Sodium(salt Grams) Grams { return salt * sodiumPerSalt }
