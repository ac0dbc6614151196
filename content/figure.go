package content

import (
	"math"
	"strconv"

	"guidegen/content/measure"
)

// Figure is a number fit to print: value, unit, digits, and what it rests on.
// Page models hold figures, never bare numbers. The zero Figure is absent and
// prints as nothing.
type Figure struct {
	value  float64
	unit   string // "mm", "%", "visits", "days", "°C", "" for a bare count
	digits int    // decimals printed
	basis  Basis
	known  bool
}

// NewFigure makes a figure. A non-finite value or an empty basis is a fault
// of the program and panics: a figure never stands without its ground.
func NewFigure(value float64, unit string, digits int, b Basis) Figure {
	if math.IsNaN(value) || math.IsInf(value, 0) || b.IsZero() {
		panic("content: a figure needs a finite value and a basis: " + strconv.FormatFloat(value, 'g', -1, 64) + unit)
	}
	return Figure{value, unit, digits, b, true}
}

// Count is a whole number.
func Count(n int, unit string, b Basis) Figure { return NewFigure(float64(n), unit, 0, b) }

// Known reports whether there is a figure.
func (f Figure) Known() bool { return f.known }

// Value is the number in full.
func (f Figure) Value() float64 { return f.value }

// Unit is the unit's sign or word.
func (f Figure) Unit() string { return f.unit }

// Basis is what the figure rests on.
func (f Figure) Basis() Basis { return f.basis }

// Number prints the rounded number without its unit. Values are rounded to
// 1e-9 first, halves go away from zero, and minus zero is zero.
func (f Figure) Number() string { return Decimal(f.value, f.digits) }

// Exact is the machine's form, for the value attribute and data files.
func (f Figure) Exact() string { return strconv.FormatFloat(Round9(f.value), 'f', -1, 64) }

// Decimal prints v with a fixed number of decimals; see measure.Decimal.
func Decimal(v float64, digits int) string { return measure.Decimal(v, digits) }

// Round9 rounds to 1e-9, as is done before any rounding, tie or limit; see
// measure.Round9.
func Round9(v float64) float64 { return measure.Round9(v) }
