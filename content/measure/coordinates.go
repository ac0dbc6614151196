package measure

// Places on the map, in decimal degrees of WGS 84.

import (
	"fmt"
	"math"
	"regexp"
	"strings"
)

// Angle is a latitude (north positive) or a longitude (east positive) in
// degrees, with the number of decimals it was written with.
type Angle struct {
	Degrees float64
	Digits  int
}

// Coordinates are a place on the map; of a square its middle.
type Coordinates struct {
	Latitude, Longitude Angle
	Off                 float64 // how far the place may be off, in metres: half a square's diagonal; 0 if not said
	Grid                string  // the grid reference that it was given as, "NY 123 456"; "" for degrees
}

// String writes "55.213 N, 4.871 W", as precise as it was given.
func (c Coordinates) String() string {
	return c.Latitude.letters("N", "S") + ", " + c.Longitude.letters("E", "W")
}

func (a Angle) letters(positive, negative string) string {
	l := positive
	if a.Degrees < 0 {
		l = negative
	}
	return Decimal(math.Abs(a.Degrees), a.Digits) + " " + l
}

// ParseLatitude reads "55.2 N", "45 S" or signed degrees, north positive.
func ParseLatitude(s string) (Angle, error) { return latitude.parse(s, s) }

// ParseLongitude reads "4.871 W", "168.7 E" or signed degrees, east positive.
func ParseLongitude(s string) (Angle, error) { return longitude.parse(s, s) }

// ParseCoordinates reads a latitude and a longitude: "55.213 N, 4.871 W", or
// signed with the latitude first: "55.213, -4.871". With letters on both, either
// may come first and commas may be decimal: "55,213 N, 4,871 W". A grid reference, "NY 123 456", "O 159 346" or
// "30U VG 1234 5678", is a square; coordinates in brackets behind it must lie in it.
func ParseCoordinates(s string) (Coordinates, error) {
	t := strings.ToUpper(plain(s))
	if compact := strings.Join(strings.Fields(t), ""); isGrid(compact) {
		return parseGrid(s, t, compact)
	}
	if m := twice.FindStringSubmatch(t); m != nil {
		return agreed(s, m[1], m[2])
	}
	refuse := func(reason string) (Coordinates, error) {
		return Coordinates{}, &Error{Found: s, Reason: reason, Want: "write 55.213 N, 4.871 W in decimal degrees"}
	}
	m := ledPair.FindStringSubmatch(t)
	if m == nil {
		m = pair.FindStringSubmatch(t)
	}
	switch {
	case sexagesimal.MatchString(t):
		return refuse("has minutes or seconds of arc")
	case m == nil:
		return refuse("isn't a place on the map")
	}
	first, second := m[1], m[2]
	letters := strings.ContainsAny(first, "NSEW") && strings.ContainsAny(second, "NSEW")
	if !letters && (strings.ContainsAny(t, "NSEW") || strings.Count(t, ",") > 1) {
		return refuse("isn't a place on the map: give both letters, or none")
	}
	if !letters && !strings.Contains(t, ".") && bareComma.MatchString(t) {
		return refuse("is ambiguous: the comma may part decimals or the two numbers")
	}
	if strings.ContainsAny(first, "EW") {
		first, second = second, first
	}
	lat, err := latitude.parse(s, first)
	if err != nil {
		return Coordinates{}, err
	}
	lon, err := longitude.parse(s, second)
	if err != nil {
		return Coordinates{}, err
	}
	return Coordinates{Latitude: lat, Longitude: lon}, nil
}

const (
	degrees = `[+-]?(?:\d[\d.,]*\d|\d)`
	parting = `(?:\s*[,;]\s*|\s+)`
)

var (
	oneAngle    = regexp.MustCompile(`^([NSEW]?)\s*(` + degrees + `)\s*°?\s*([NSEW]?)$`)
	ledPair     = regexp.MustCompile(`^([NSEW]\s*` + degrees + `\s*°?)` + parting + `([NSEW]\s*` + degrees + `\s*°?)$`)
	pair        = regexp.MustCompile(`^(` + degrees + `\s*°?\s*[NSEW]?)` + parting + `(` + degrees + `\s*°?\s*[NSEW]?)$`)
	sexagesimal = regexp.MustCompile(`['"]|°\s*\d`)
	bareComma   = regexp.MustCompile(`\d,\d`)
)

type axis struct {
	is                 string
	positive, negative string
	limit              float64
	example            string
}

var (
	latitude  = axis{"latitude", "N", "S", 90, "55.213 N"}
	longitude = axis{"longitude", "E", "W", 180, "4.871 W"}
)

func (x axis) parse(whole, s string) (Angle, error) {
	refuse := func(reason string) (Angle, error) {
		return Angle{}, &Error{Found: whole, Reason: reason, Want: "write " + x.example + " in decimal degrees"}
	}
	t := strings.ToUpper(plain(s))
	m := oneAngle.FindStringSubmatch(t)
	switch {
	case sexagesimal.MatchString(t):
		return refuse("has minutes or seconds of arc")
	case m == nil || m[1] != "" && m[3] != "":
		return refuse("isn't a " + x.is)
	}
	letter := m[1] + m[3]
	if letter != "" && letter != x.positive && letter != x.negative {
		return refuse(fmt.Sprintf("isn't a %s: it has the letter %s", x.is, letter))
	}
	number := m[2]
	if c := commaed.FindStringSubmatch(number); c != nil { // an angle never has thousands
		number = c[1] + "." + c[2]
	}
	if n := noughts.FindStringSubmatch(number); n != nil { // ISO 6709 writes 004.871
		number = n[1] + n[2]
	}
	v, digits, err := ParseNumber(number)
	if err != nil {
		return Angle{}, within(whole, err)
	}
	if letter != "" && strings.ContainsAny(number, "+-") {
		return refuse("has both a sign and a letter")
	}
	if math.Abs(v) > x.limit {
		return refuse(fmt.Sprintf("is off the map: a %s ends at %v degrees", x.is, x.limit))
	}
	if letter == x.negative {
		v = 0 - v
	}
	return Angle{v, digits}, nil
}
