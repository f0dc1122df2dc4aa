package units

import "math/big"

// Speed is a length a minute.
type Speed int64

// MetrePerMin is one metre a minute.
const MetrePerMin Speed = Speed(Metre)

// MPerMin returns the speed in m/min.
func (s Speed) MPerMin() float64 { return float64(s) / float64(MetrePerMin) }

// Format gives the speed for people: "120 m/min" or "9000 in/min".
func (s Speed) Format(inch bool) string {
	if inch {
		return decimalText(big.NewRat(int64(s), int64(Inch)), 1) + " in/min"
	}
	return decimalText(big.NewRat(int64(s), int64(Metre)), 1) + " m/min"
}

// Exact gives the speed in m/min so that [ParseSpeed] reads the same value back.
func (s Speed) Exact() string { return decimalText(big.NewRat(int64(s), int64(Metre)), 9) + " m/min" }
