package measure

// Quantities with their unit, as an editor writes them. Where a table holds the
// unit in its heading or in a column of its own, join the two with a space first.

import (
	"fmt"
	"regexp"
	"strings"
)

// scale is one kind of quantity: what it is called, the names of its units, the
// limits beyond which a number is surely a slip, and an example of it.
type scale[T Quantity] struct {
	is        string // what it is called: "length"
	units     map[string]Unit[T]
	wanted    string // the units to choose from, in words
	low, high T
	outside   string // why a value beyond low or high can't be
	ranges    bool   // whether "7 to 9" makes sense
	example   string
	others    string // the same in German and French, where it differs
}

var lengths = scale[Millimetres]{
	is: "length", wanted: "mm, cm or in", ranges: true, example: "7.5 to 9.5 mm", others: "7,5 bis 9,5 mm, 7,5 à 9,5 mm",
	units: named(map[string]Unit[Millimetres]{
		"mm millimetre millimetres millimeter millimeters millimètre millimètres":            MM,
		"cm centimetre centimetres centimeter centimeters zentimeter centimètre centimètres": CM,
		`in in. inch inches " zoll pouce pouces`:                                             Inch}),
	low: 1e-6, high: 1000, outside: "isn't a length of a fly or a hook",
}

var altitudes = scale[Metres]{
	is: "altitude", wanted: "m or ft", ranges: true, example: "35 to 110 m", others: "35 bis 110 m, 35 à 110 m",
	units: named(map[string]Unit[Metres]{
		"m m. metre metres meter meters mètre mètres": Metre,
		"ft ft. foot feet ' fuß fuss pied pieds":      Foot}),
	low: -500, high: 9000, outside: "isn't an altitude on land",
}

var temperatures = scale[Celsius]{
	is: "temperature", wanted: "°C or °F", example: "11.4 °C",
	units: named(map[string]Unit[Celsius]{celsius: DegC, fahrenheit: DegF}),
	low:   -90, high: 100, outside: "isn't a temperature of water or air",
}

var daysPerDegree = scale[DaysPerDegree]{
	is: "number of days per degree", wanted: "days per °C or days per °F", example: "5 days per °C", others: "5 Tage je °C, 5 jours par °C",
	units: named(map[string]Unit[DaysPerDegree]{
		per("c", "celsius"): DaysPC, per("f", "fahrenheit"): DaysPF}),
	low: 0, high: 100, outside: "isn't a rate that a flight moves at: warmer water never holds it back",
}

// In the tables below "_" stands for a space within a name.
const (
	celsius    = "°c c °_c celsius °celsius deg_c degrees_c degrees_celsius degc centigrade"
	fahrenheit = "°f f °_f fahrenheit °fahrenheit deg_f degrees_f degrees_fahrenheit degf"
)

func per(letter, word string) string {
	var names []string
	for _, days := range []string{"days_per_", "day_per_", "days/", "days_/_", "per_", "d/", "tage_je_", "tag_je_", "tage_pro_", "tag_pro_", "jours_par_", "jour_par_"} {
		for _, degree := range []string{"°" + letter, letter, word, "degree_" + letter, "degree_" + word} {
			names = append(names, days+degree)
		}
	}
	return strings.Join(names, " ")
}

// named takes apart lists of names, each for one unit.
func named[U any](lists map[string]U) map[string]U {
	units := map[string]U{}
	for list, u := range lists {
		for _, name := range strings.Fields(list) {
			units[strings.ReplaceAll(name, "_", " ")] = u
		}
	}
	return units
}

// ParseLength reads a body length or a part of a hook, one value or a range:
// "7.5 to 9.5 mm", "7.5-9.5 mm", "8 mm", "0.3 in", "7,5 bis 9,5 mm", "7,5 à 9,5 mm". A length is more
// than nothing and at most 1 m.
func ParseLength(s string) (Range[Millimetres], error) { return lengths.parse(s) }

// ParseAltitude reads a height above the sea, one value or a range: "35-110 m",
// "300 ft". Land below the sea is negative: "-4 m".
func ParseAltitude(s string) (Range[Metres], error) { return altitudes.parse(s) }

// ParseTemperature reads one temperature: "11.4 °C", "52 °F", "11.4 C".
func ParseTemperature(s string) (Range[Celsius], error) { return temperatures.parse(s) }

// ParseDaysPerDegree reads how far a degree moves a flight: "5 days per °C";
// 5 days per °F is 9 days per °C.
func ParseDaysPerDegree(s string) (Range[DaysPerDegree], error) { return daysPerDegree.parse(s) }

// TemperatureUnit reads °C or °F.
func TemperatureUnit(s string) (Unit[Celsius], error) { return temperatures.unit(s, s) }

var quantity = regexp.MustCompile(`(?i)^(` + numeral + `)\s*(\D*?)\s*(?:(?:to|bis|à|-|–|—)\s*(` + numeral + `)\s*(\D*?))?$`)

func (sc scale[T]) parse(s string) (Range[T], error) {
	t := plain(s)
	refuse := func(reason, want string) (Range[T], error) {
		return Range[T]{}, &Error{Found: s, Reason: reason, Want: want}
	}
	m := quantity.FindStringSubmatch(t)
	if m == nil {
		if reason, want := whyNoNumber(t); reason != "isn't a number" {
			return refuse(reason, want)
		}
		want := "write " + sc.example
		if sc.others != "" {
			want += " (" + sc.others + ")"
		}
		return refuse("isn't "+article(sc.is), want)
	}
	lowText, lowUnit, highText, highUnit := m[1], m[2], m[3], m[4]
	low, digits, err := ParseNumber(lowText)
	if err != nil {
		return Range[T]{}, within(s, err)
	}
	high, unitText := low, lowUnit
	if highText != "" {
		if !sc.ranges {
			return refuse("is a range, but one value is wanted", "write "+sc.example)
		}
		var d int
		if high, d, err = ParseNumber(highText); err != nil {
			return Range[T]{}, within(s, err)
		}
		if strings.Contains(lowText+highText, ",") && strings.Contains(lowText+highText, ".") {
			return refuse("mixes decimal commas and points", "write "+sc.example)
		}
		digits, unitText = max(digits, d), highUnit
	}
	unit, err := sc.unit(s, unitText)
	if err != nil {
		return Range[T]{}, err
	}
	if highText != "" && lowUnit != "" {
		if first, err := sc.unit(s, lowUnit); err != nil || first != unit {
			return refuse("has two units", "write both ends in one unit: "+sc.example)
		}
	}
	if low > high {
		return refuse("starts above its end", fmt.Sprintf("write the smaller first: %s to %s %s", highText, lowText, unit.Symbol))
	}
	r := Range[T]{unit.Value(low), unit.Value(high), unit, digits}
	if r.Low < sc.low || r.High > sc.high {
		return refuse(sc.outside, "check the number and its unit")
	}
	return r, nil
}

func (sc scale[T]) unit(s, name string) (Unit[T], error) {
	name = plain(name)
	if u, ok := sc.units[strings.ToLower(name)]; ok {
		return u, nil
	}
	if name == "" {
		return Unit[T]{}, &Error{Found: s, Reason: "has no unit", Want: "add the one it was measured in: " + sc.wanted}
	}
	return Unit[T]{}, &Error{Found: s, Reason: fmt.Sprintf("has %q for a unit", name), Want: "use " + sc.wanted}
}

// within makes a refusal of a part a refusal of the whole text.
func within(s string, err error) error {
	e := err.(*Error)
	return &Error{Found: s, Reason: e.Reason, Want: e.Want}
}

// article puts a or an before what a scale measures.
func article(of string) string {
	if of[0] == 'a' {
		return "an " + of
	}
	return "a " + of
}
