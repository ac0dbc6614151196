// Package season reckons when a fly is on the wing: the curve an account
// describes, that curve moved to one water, the chance of finding the fly on a
// visit, dates from records, water temperature, and how right the guide was.
//
// Everything here is plain numbers on the circle of the year: no text is read,
// no basis is carried and no clock is looked at. Callers bring records that
// already passed the rules on what counts as a visit and as a find, and merge
// the basis of a figure where they call.
//
// One file holds one rule of the guide's page on figures; the section is named
// at the head of the file. Constants a guide may change live in Constants.
package season

import (
	"guidegen/content/calendar"
	"guidegen/content/measure"
)

// Curve holds one value per day of the year; index 0 is 1 January.
type Curve [calendar.Year]float64

// At returns the value on a day.
func (c *Curve) At(d calendar.Day) float64 { return c[int(d)-1] }

// Largest returns the largest value of the year.
func (c *Curve) Largest() float64 {
	top := c[0]
	for _, v := range c {
		top = max(top, v)
	}
	return top
}

// LargestIn returns the largest value in the run that goes forward from a to b.
func (c *Curve) LargestIn(a, b calendar.Day) float64 {
	top := c.At(a)
	for n := 1; n <= calendar.Fwd(a, b); n++ {
		top = max(top, c.At(a.Add(n)))
	}
	return top
}

// Flat is a curve of one value, as for a fly found on a water but not listed there.
func Flat(p float64) Curve {
	var c Curve
	for i := range c {
		c[i] = p
	}
	return c
}

// Known is a number that may not be known; the zero Known is not.
type Known struct {
	Value float64
	OK    bool
}

// Is wraps a number that is known.
func Is(v float64) Known { return Known{v, true} }

// Class is an abundance class of the DAFOR scale of field ecology.
type Class int

// The five classes, scarcest first, so that neighbours differ by one step.
const (
	NoClass Class = iota // not given
	Rare
	Occasional
	Frequent
	Abundant
	Dominant
)

// Visit is one sampling event on which a fly was looked for. A visit that did
// not look for it is no Visit; nor is a find outside the visit's scope, a visit
// with a vague date, or one where the fly was named only to a coarser rank.
// Visits with a zero Date are passed over.
type Visit struct {
	Date     calendar.Date
	Found    bool
	Effort   Known   // effort over the standard effort of its unit: 100 sweeps are 2
	Protocol string  // needed by flight dates only
	Count    float64 // flies of this kind, at least 1 where found; needed by flight dates only
	Season   int     // of the fly's year (SeasonOf); 0: the calendar year
	// Unreviewed says that the find rests on unreviewed records alone.
	Unreviewed bool
	// Held keeps the visit out of the chance, but not out of plain counts; see Hold.
	Held bool
}

func (v Visit) day() calendar.Day { return v.Date.OfYear() }

func (v Visit) season() int {
	if v.Season != 0 {
		return v.Season
	}
	return v.Date.Year
}

// worth is e: 1 if found or the effort is not known, else at most 1.
func (v Visit) worth() float64 {
	if v.Found || !v.Effort.OK || !(v.Effort.Value >= 0) {
		return 1
	}
	return min(1, v.Effort.Value)
}

func round9(x float64) float64 { return measure.Round9(x) }

// apart is the number of days from a day to the run from–to; 0 inside it.
func apart(d, from, to calendar.Day) int {
	if calendar.Within(d, from, to) {
		return 0
	}
	return min(calendar.Fwd(d, from), calendar.Fwd(to, d))
}

func abs(n int) int { return max(n, -n) }
