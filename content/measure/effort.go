package measure

// Effort: how much was sampled on a visit.

import (
	"fmt"
	"regexp"
	"strings"
)

// EffortUnit is what an effort is counted in. Efforts in different units are
// never compared.
type EffortUnit string

// The units of effort. Hours are kept as minutes.
const (
	Sweeps       EffortUnit = "sweeps"
	Minutes      EffortUnit = "minutes"
	TrapNights   EffortUnit = "trap nights"
	SquareMetres EffortUnit = "square metres"
)

// mostEffort is more of any unit than one visit can hold: two months in minutes.
const mostEffort = 100_000

// Effort is an amount of sampling; always more than nothing.
type Effort struct {
	Amount float64
	Unit   EffortUnit
}

// effortUnits are one of each, by every name it goes by.
var effortUnits = named(map[string]Effort{
	"sweep sweeps net_sweeps kescherschlag kescherschläge coup_de_filet coups_de_filet":                   {1, Sweeps},
	"min min. mins minute minutes minuten":                                                                {1, Minutes},
	"h h. hr hrs hour hours std std. stunde stunden heure heures":                                         {60, Minutes},
	"trap_night trap_nights trap-night trap-nights fallennacht fallennächte nuit_de_piège nuits_de_piège": {1, TrapNights},
	"m² m2 m^2 sq_m square_metre square_metres square_meters quadratmeter mètre_carré mètres_carrés":      {1, SquareMetres},
})

var effort = regexp.MustCompile(`^(` + numeral + `)(?:\s*([^\d\s].*))?$`)

// ParseEffort reads an amount and its unit, in English, German or French: "50 sweeps", "10 min", "1.5 hours", "50 Kescherschläge".
func ParseEffort(s string) (Effort, error) {
	const want = "write 50 sweeps, or 10 minutes (50 Kescherschläge, 50 coups de filet)"
	t := plain(s)
	m := effort.FindStringSubmatch(t)
	if m == nil {
		if reason, fix := whyNoNumber(t); reason != "isn't a number" {
			return Effort{}, &Error{Found: s, Reason: reason, Want: fix}
		}
		return Effort{}, &Error{Found: s, Reason: "isn't an effort", Want: want}
	}
	n, _, err := ParseNumber(m[1])
	if err != nil {
		return Effort{}, within(s, err)
	}
	one, ok := effortUnits[strings.ToLower(m[2])]
	switch {
	case m[2] == "":
		return Effort{}, &Error{Found: s, Reason: "has no unit", Want: want}
	case !ok:
		return Effort{}, &Error{Found: s, Reason: fmt.Sprintf("has %q for a unit", m[2]),
			Want: "use sweeps, minutes, hours, trap nights or square metres"}
	case n <= 0:
		return Effort{}, &Error{Found: s, Reason: "isn't an effort: nothing was sampled", Want: "leave the effort out where it isn't known"}
	case n*one.Amount > mostEffort:
		return Effort{}, &Error{Found: s, Reason: "is more than one visit can be", Want: "check the number"}
	}
	return Effort{n * one.Amount, one.Unit}, nil
}
