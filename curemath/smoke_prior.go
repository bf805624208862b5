package curemath

// beforeReadings is the prior of a smoke: what bellies and pits are like. Its
// figures are computed, by fitting the model to some hundreds of simulated smokes of
// an independent slab, of a wider range and on other seeds than the forecast is
// judged on; see the tests.
func beforeReadings() *smokePrior {
	return &smokePrior{
		middle: smokeParams{
			atSpread: -7.920, atTake: 3.881, atWet: -2.141, atSupply: 2.342, atStore: 3.759,
			atDrop: 1.044, atVapour: 7.972, atBias: 2.290, atStart: -2.168,
		},
		scale: [smokeDim]smokeParams{
			atSpread: {0.228},
			atTake:   {-0.364, 0.267},
			atWet:    {-0.165, 0.164, 0.703},
			atSupply: {0.032, -0.128, 0.135, 1.029},
			atStore:  {-0.118, 0.377, -0.178, 0.043, 1.086},
			atDrop:   {-0.454, 0.315, 0.241, -0.403, -0.044, 0.972},
			atVapour: {-0.063, 0.018, 0.233, 0.009, -0.266, -0.059, 0.539},
			atBias:   {0.694, -3.455, 0.002, 0.349, 4.120, 1.438, -1.607, 5.965},
			atStart:  {-2.977, -2.438, 0.011, 1.151, 0.536, -0.161, 2.098, -0.344, 5.075},
		},
	}
}
