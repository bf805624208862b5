package curemath

import "fmt"

// YieldErrorKind says why a yield was not worked out.
type YieldErrorKind int

const (
	// YieldBadWeight: a weight that is not above zero, or over a ton.
	YieldBadWeight YieldErrorKind = iota + 1
	// YieldNoGreen: the fresh weight, which every percent is of, is missing.
	YieldNoGreen
	// YieldStageTwice: two weights for the same stage.
	YieldStageTwice
	// YieldBadStage: not a stage.
	YieldBadStage
	// YieldBadLoss: a loss that is not from 0 to under 100 %.
	YieldBadLoss
	// YieldBadSalt: a salt share that is not from 0 to 100 %.
	YieldBadSalt
	// YieldBadLength: a length or thickness that is not above zero, or over 2 m.
	YieldBadLength
	// YieldBadMoney: an amount of money that is negative or not a number.
	YieldBadMoney
)

// YieldError is the error of every function of yields.
type YieldError struct {
	Kind  YieldErrorKind
	Stage WeighStage // for YieldStageTwice and YieldBadWeight of a stage
}

func (e YieldError) Error() string {
	switch e.Kind {
	case YieldBadWeight:
		return "A weight must be above zero and not over a ton."
	case YieldNoGreen:
		return "The fresh weight is missing; every percent is of it."
	case YieldStageTwice:
		return fmt.Sprintf("There are two weights for %s.", e.Stage)
	case YieldBadStage:
		return "That is no stage at which a belly is weighed."
	case YieldBadLoss:
		return "A loss must be from 0 to under 100 %."
	case YieldBadSalt:
		return "A salt share must be from 0 to 100 %."
	case YieldBadLength:
		return "A length must be above zero and not over 2 m."
	case YieldBadMoney:
		return "An amount of money cannot be negative."
	default:
		return "That yield cannot be worked out."
	}
}

func checkYieldWeight(g Grams) error {
	if !(g > 0 && g <= Ton) {
		return YieldError{Kind: YieldBadWeight}
	}
	return nil
}

func checkLength(m Millimetres) error {
	if !(m > 0 && m <= 2000) {
		return YieldError{Kind: YieldBadLength}
	}
	return nil
}

func checkLoss(p Percent) error {
	if !(p >= 0 && p < 100) {
		return YieldError{Kind: YieldBadLoss}
	}
	return nil
}
