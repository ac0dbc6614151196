package season

// Moving an account's flight to one water, and softening the moved curve:
// section 4 of the rules on figures.

import (
	"math"

	"guidegen/content/calendar"
)

// Rule is how a flight moves between waters; the words are the account's own.
type Rule string

// The rules. Unsaid takes warmth where both temperatures are known, else altitude.
const (
	Unsaid     Rule = ""
	ByWarmth   Rule = "warmth"
	ByAltitude Rule = "altitude"
	ByNothing  Rule = "nothing"
	OwnDates   Rule = "own-dates" // only in results: the water gives its own
)

// Reason says why a flight was not moved, or "" where a rule gave its days.
type Reason string

// The reasons.
const (
	WaterSays     Reason = "water-says"     // the water's own dates stand
	AccountSays   Reason = "account-says"   // the account says: nothing
	AllYear       Reason = "all-year"       // a flight of 330 days or more
	BelowDam      Reason = "below-dam"      // regulated, and its temperature is not known
	NoTemperature Reason = "no-temperature" // not known on both sides
	NoPlace       Reason = "no-place"       // neither latitude nor altitude known on both sides
)

// Flight is one flight of an account, at the guide's reference conditions.
type Flight struct {
	Dates
	Class         Class
	Moves         Rule
	DaysPerDegree Known // the account's own, in days earlier per °C warmer
}

// Local is what a water says of its own about one flight.
type Local struct {
	Class Class // replaces the account's; NoClass leaves it
	Dates Dates // replace the account's, unmoved; without both limits they don't
}

// Place is what a rule needs to know of a water, or of the reference.
type Place struct {
	Latitude    Known // degrees, south negative
	Altitude    Known // metres above the sea
	Temperature *Wave // °C; nil where not known
	Dam         bool  // below a dam: the water is regulated
	South       bool  // of a reference without a latitude: the guide lies south of the equator
}

// Shift says by how much a flight was moved, by which rule and from which parts.
type Shift struct {
	Days      int    // later is positive; own dates: own peak less the account's
	Rule      Rule   // the rule that was applied or asked for
	ByDefault bool   // the account names no rule
	Why       Reason // why not moved
	Limited   bool   // cut to the largest shift allowed
	Turn      float64
	Warmer    Known // D in °C, water less reference
	Warmth    Known // days from warmth, the turn included
	Latitude  Known // days from latitude, the turn included
	Altitude  Known // days from altitude, the turn included
}

// Moved is a flight as it lies on one water.
type Moved struct {
	Dates
	Class Class
	Shift Shift
}

// Move carries an account's flight from the reference to a water.
func Move(f Flight, local Local, here, reference Place, c Constants) Moved {
	f.Dates = f.Dates.Peaked()
	m := Moved{Dates: f.Dates, Class: f.Class}
	if local.Class != NoClass {
		m.Class = local.Class
	}
	if local.Dates.Given() {
		m.Dates = local.Dates.Peaked()
		m.Shift = Shift{Days: calendar.Gap(f.Peak, m.Peak), Rule: OwnDates, Why: WaterSays}
		return m
	}
	m.Shift = shift(f, here, reference, c)
	m.Dates = m.Dates.moved(m.Shift.Days)
	return m
}

// Hopkins 1920, J. Wash. Acad. Sci. 10:34: 4 days per degree of latitude and
// per 400 ft; later in spring, earlier in autumn. A North American rule of thumb.
const (
	daysPerLatitude = 4.0 // days per degree
	daysPerStep     = 4.0 // days per step of altitude
	stepMetres      = 121.92
)

func shift(f Flight, here, ref Place, c Constants) Shift {
	s := Shift{Rule: f.Moves, ByDefault: f.Moves == Unsaid, Turn: 1}
	warm := here.Temperature != nil && ref.Temperature != nil
	if s.ByDefault {
		s.Rule = ByAltitude
		if warm {
			s.Rule = ByWarmth
		}
	}
	switch {
	case f.Length() >= allYear:
		s.Why = AllYear
	case s.Rule == ByNothing:
		s.Why = AccountSays
	case here.Dam && here.Temperature == nil:
		s.Why = BelowDam
	case s.Rule == ByWarmth && !warm:
		s.Why = NoTemperature
	}
	if s.Why != "" {
		return s
	}
	if s.Rule == ByAltitude || s.ByDefault {
		s.Turn = Turn(f.Peak, ref.South || ref.Latitude.OK && ref.Latitude.Value < 0)
	}
	var days float64
	if s.Rule == ByWarmth {
		perDegree := c.DaysPerDegree
		if f.DaysPerDegree.OK {
			perDegree = f.DaysPerDegree.Value
		}
		n := int(c.WarmthWindow)
		s.Warmer = Is(here.Temperature.Before(f.Peak, n) - ref.Temperature.Before(f.Peak, n))
		s.Warmth = Is(-perDegree * s.Warmer.Value * s.Turn)
		days = s.Warmth.Value
	} else {
		if here.Latitude.OK && ref.Latitude.OK {
			s.Latitude = Is(daysPerLatitude * (math.Abs(here.Latitude.Value) - math.Abs(ref.Latitude.Value)) * s.Turn)
		}
		if here.Altitude.OK && ref.Altitude.OK {
			s.Altitude = Is(daysPerStep * (here.Altitude.Value - ref.Altitude.Value) / stepMetres * s.Turn)
		}
		if !s.Latitude.OK && !s.Altitude.OK {
			s.Why = NoPlace
			return s
		}
		days = s.Latitude.Value + s.Altitude.Value
	}
	days = math.Round(round9(days)) // halves away from zero
	if limit := c.LargestShift; math.Abs(days) > limit {
		days, s.Limited = math.Copysign(limit, days), true
	}
	s.Days = int(days)
	return s
}

// Turn is F, the rule's turn from spring to autumn without a jump: 1 from 21
// December to 20 June, falling to -1 on 20 September, -1 to 20 November, rising
// to 1 on 21 December. South of the equator the year is read half a year on.
func Turn(peak calendar.Day, south bool) float64 {
	const (
		fall, low  = 171, 263 // 20 June, 20 September
		rise, high = 324, 355 // 20 November, 21 December
	)
	if south {
		peak = peak.Add(183)
	}
	switch d := float64(peak); {
	case d <= fall || d >= high:
		return 1
	case d < low:
		return 1 - 2*(d-fall)/(low-fall)
	case d <= rise:
		return -1
	default:
		return 2*(d-rise)/(high-rise) - 1
	}
}

// Expected is p, the moved and softened curve of a fly on a water: the chance
// that the account alone gives to a standard visit.
func Expected(flights []Moved, c Constants) Curve { return soften(curve(flights, c), c.Softening) }

// soften is the circular mean with weights exp(-½(j/τ)²), j = -40 … 40 days. No
// rule of thumb knows a water's date to the day.
func soften(p Curve, tau float64) Curve {
	if !(tau > 0) {
		return p
	}
	const reach = 40
	var w [2*reach + 1]float64
	var total float64
	for i := range w {
		x := float64(i-reach) / tau
		w[i] = math.Exp(-x * x / 2)
		total += w[i]
	}
	var out Curve
	for i := range out {
		var sum float64
		for j, wj := range w {
			k := i + j - reach
			if k < 0 {
				k += calendar.Year
			} else if k >= calendar.Year {
				k -= calendar.Year
			}
			sum += float64(wj * p[k])
		}
		out[i] = min(1, sum/total)
	}
	return out
}
