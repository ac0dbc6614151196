// Package measure holds the guide's quantities: a named type for each, the
// units they may be written in, and how finely each was written. A number
// without its unit is refused, never guessed at.
package measure

import (
	"math"
	"strconv"
	"strings"

	"guidegen/content/calendar"
)

// Error is the refusal that every reader of a text in the guide returns: what
// was found, why it can't be read, what would be right.
type Error = calendar.Error

// The quantities. Lengths of flies and hooks are Millimetres, heights above the
// sea and distances Metres. A CelsiusDegrees is a difference between two temperatures.
type (
	Millimetres    float64
	Metres         float64
	Celsius        float64
	CelsiusDegrees float64
	DaysPerDegree  float64 // days that a flight moves per °C of difference
)

// Quantity is one of the above.
type Quantity interface{ ~float64 }

// Unit is a unit that a T may be written in, such as mm or in for Millimetres.
type Unit[T Quantity] struct {
	Symbol string  // as printed: mm, ft, °C
	factor float64 // T per unit
	zero   float64 // what the unit's scale reads where T is 0
}

// Value turns a reading in this unit into a T.
func (u Unit[T]) Value(reading float64) T { return T(float64((reading - u.zero) * u.factor)) }

// Reading turns a T into a reading in this unit.
func (u Unit[T]) Reading(v T) float64 { return float64(float64(v)/u.factor) + u.zero }

// The units. An inch is 25.4 mm and a foot 0.3048 m exactly (international yard
// and pound agreement, 1959); °C = (°F - 32) × 5/9. Differences have no zero to move.
var (
	MM     = Unit[Millimetres]{"mm", 1, 0}
	CM     = Unit[Millimetres]{"cm", 10, 0}
	Inch   = Unit[Millimetres]{"in", 25.4, 0}
	Metre  = Unit[Metres]{"m", 1, 0}
	Foot   = Unit[Metres]{"ft", 0.3048, 0}
	KM     = Unit[Metres]{"km", 1000, 0}
	Mile   = Unit[Metres]{"mi", 1609.344, 0}
	DegC   = Unit[Celsius]{"°C", 1, 0}
	DegF   = Unit[Celsius]{"°F", 5. / 9, 32}
	StepC  = Unit[CelsiusDegrees]{"°C", 1, 0}
	StepF  = Unit[CelsiusDegrees]{"°F", 5. / 9, 0}
	DaysPC = Unit[DaysPerDegree]{"days per °C", 1, 0}
	DaysPF = Unit[DaysPerDegree]{"days per °F", 9. / 5, 0}
)

// Range is a quantity as somebody wrote it, from Low to High (equal where one
// value was written), with the unit and the number of decimals it was written in.
type Range[T Quantity] struct {
	Low, High T
	Unit      Unit[T]
	Digits    int // the most decimals of its numbers, in Unit
}

// Single reports whether one value was written.
func (r Range[T]) Single() bool { return r.Low == r.High }

// DigitsIn is the number of decimals to print r with in unit u: as written in
// its own unit; in another, the most whose last digit is no less than a third
// of the last digit written. So 0.30 in prints as 7.6 mm, 300 ft as 91 m.
func (r Range[T]) DigitsIn(u Unit[T]) int {
	if u == r.Unit {
		return r.Digits
	}
	step := math.Pow10(-r.Digits) * r.Unit.factor / u.factor
	return max(0, int(math.Floor(Round9(-math.Log10(step/3)))))
}

// In prints r in unit u, rounded to what was measured: "7.5–9.5 mm", "90 m".
func (r Range[T]) In(u Unit[T]) string {
	digits := r.DigitsIn(u)
	low, high := Decimal(u.Reading(r.Low), digits), Decimal(u.Reading(r.High), digits)
	switch {
	case low == high:
		return low + " " + u.Symbol
	case strings.HasPrefix(low, "−"):
		return low + " to " + high + " " + u.Symbol
	}
	return low + "–" + high + " " + u.Symbol
}

// String prints r in the unit it was written in.
func (r Range[T]) String() string { return r.In(r.Unit) }

// Round9 rounds to 1e-9, as is done before any rounding, tie or limit, so that
// the last bits of a sum decide nothing. Minus zero becomes zero.
func Round9(v float64) float64 {
	if math.Abs(v) > 1e6 {
		return v // the spacing of float64 nears 1e-9 here
	}
	return math.Round(v*1e9)/1e9 + 0
}

// Decimal prints v with a fixed number of decimals, halves away from zero,
// with a true minus sign and no minus before zero.
func Decimal(v float64, digits int) string {
	p := math.Pow10(digits)
	s := strconv.FormatFloat(math.Round(Round9(v)*p)/p+0, 'f', digits, 64)
	return strings.Replace(s, "-", "−", 1)
}
