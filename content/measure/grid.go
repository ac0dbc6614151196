package measure

// Places given as a grid reference: a square on the map, not a point. British (Ordnance Survey, on Airy's ellipsoid),
// Irish (on Airy's modified), and the military grid (on UTM; MGRS, as in NGA.STND.0037). The sums are wgs84's; the
// letters are ours.

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/wroge/wgs84"
)

// oneShift is how far a shift of seven parameters from a national datum may be out, in metres (Ordnance Survey, A guide
// to coordinate systems in Great Britain, section 6.6: about 5 m).
const oneShift = 5

var (
	british = regexp.MustCompile(`^([HJNOST])([A-HJ-Z])(\d*)$`)
	irish   = regexp.MustCompile(`^([A-HJ-Z])(\d+)$`)
	utm     = regexp.MustCompile(`^(\d{1,2})([C-HJ-NP-X])([A-HJ-NP-Z])([A-HJ-NP-V])(\d*)$`)
)

// isGrid reports whether a text can only be meant for a grid reference.
func isGrid(compact string) bool {
	return british.MatchString(compact) || irish.MatchString(compact) || utm.MatchString(compact)
}

// twice is a grid reference with coordinates behind it; halves are a reference's figures where a space parts them in two.
var (
	twice  = regexp.MustCompile(`^([^()]+?) ?\(([^()]+)\)$`)
	halves = regexp.MustCompile(`[A-Z] ?(\d+) (\d+)$`)
)

// agreed reads a square and coordinates that must lie in it, give or take the shift and the last decimal written.
func agreed(found, square, point string) (Coordinates, error) {
	at, err := ParseCoordinates(square)
	if err != nil {
		return Coordinates{}, within(found, err)
	}
	p, err := ParseCoordinates(point)
	if err != nil {
		return Coordinates{}, within(found, err)
	}
	if at.Grid == "" || p.Grid != "" {
		return Coordinates{}, &Error{Found: found, Reason: "isn't a place on the map", Want: "write a grid reference, then coordinates in brackets: NY 123 456 (54.799 N, 3.366 W)"}
	}
	const degree = 111195 // metres of a degree of latitude on the mean sphere
	north := (at.Latitude.Degrees - p.Latitude.Degrees) * degree
	east := (at.Longitude.Degrees - p.Longitude.Degrees) * degree * math.Cos(at.Latitude.Degrees*math.Pi/180)
	last := degree * math.Pow10(-min(p.Latitude.Digits, p.Longitude.Digits))
	if apart := math.Hypot(north, east); apart > at.Off+last {
		return Coordinates{}, &Error{Found: found, Reason: "gives two places, " + strconv.FormatFloat(apart, 'f', 0, 64) + " m apart", Want: "look at both again; the middle of the square is " + at.String()}
	}
	return at, nil
}

// parseGrid reads a text of which isGrid, in capitals, and the same without spaces.
func parseGrid(found, spaced, compact string) (Coordinates, error) {
	refuse := func(reason, want string) (Coordinates, error) {
		return Coordinates{}, &Error{Found: found, Reason: reason, Want: want}
	}
	var digits string
	var square func() (east, north float64, on wgs84.CoordinateReferenceSystem, ok bool)
	off := float64(oneShift)
	switch {
	case utm.MatchString(compact):
		m := utm.FindStringSubmatch(compact)
		zone, _ := strconv.Atoi(m[1]) // two digits
		if zone < 1 || zone > 60 {
			return refuse("names a zone that the military grid doesn't have", "zones are 1 to 60: 30U VG 1234 5678")
		}
		digits, off = m[5], 0
		square = func() (float64, float64, wgs84.CoordinateReferenceSystem, bool) {
			return utmSquare(zone, m[2][0], m[3][0], m[4][0])
		}
	case british.MatchString(compact):
		m := british.FindStringSubmatch(compact)
		digits = m[3]
		square = func() (float64, float64, wgs84.CoordinateReferenceSystem, bool) {
			// Squares of 500 km, then of 100 km, both in fives from the north-west; the origin is that of SV.
			a, b := fives(m[1][0]), fives(m[2][0])
			e, n := (a%5-2)*5+b%5, (3-a/5)*5+4-b/5
			return float64(e) * 1e5, float64(n) * 1e5, wgs84.OSGB36NationalGrid(), e >= 0 && e < 7 && n >= 0 && n < 13
		}
	default:
		m := irish.FindStringSubmatch(compact)
		digits = m[2]
		square = func() (float64, float64, wgs84.CoordinateReferenceSystem, bool) {
			a := fives(m[1][0])
			return float64(a%5) * 1e5, float64(4-a/5) * 1e5, irishGrid(), true
		}
	}
	if m := halves.FindStringSubmatch(spaced); len(digits)%2 != 0 || m != nil && len(m[1]) != len(m[2]) {
		return refuse("has not as many figures for north as for east", "give as many for north as for east: NY 123 456")
	}
	if len(digits) > 10 {
		return refuse("is finer than a metre", "ten figures at most")
	}
	east, north, on, ok := square()
	if !ok {
		return refuse("lies outside the grid", "look at the letters again")
	}
	side := math.Pow10(5 - len(digits)/2)
	part := func(s string) float64 { n, _ := strconv.Atoi("0" + s); return float64(n)*side + side/2 } // figures alone
	east += part(digits[:len(digits)/2])
	north += part(digits[len(digits)/2:])
	lat, lon := onTheGround(on, east, north)
	if utm.MatchString(compact) && !inBand(compact, lat) {
		return refuse("lies outside the grid", "look at the letters again")
	}
	lat, lon = math.Round(lat*1e7)/1e7, math.Round(lon*1e7)/1e7 // a centimetre: the same on any machine
	precise := 1 + len(digits)/2
	letters := strings.TrimSuffix(compact, digits)
	if letters != compact[:1] && off == 0 {
		letters = letters[:len(letters)-2] + " " + letters[len(letters)-2:] // the zone, then the square
	}
	ref := strings.TrimSpace(letters + " " + digits[:len(digits)/2] + " " + digits[len(digits)/2:])
	return Coordinates{Angle{lat, precise}, Angle{lon, precise}, math.Ceil(side*math.Sqrt2/2 + off), ref}, nil
}

// onTheGround turns a grid's metres into degrees of WGS 84. The library's way back from a transverse Mercator is out by
// some 15 m (it takes a root where the series has a power of 3/2), its way there by centimetres: so that is gone until
// it meets the point.
func onTheGround(on wgs84.CoordinateReferenceSystem, east, north float64) (lat, lon float64) {
	const degree = 111195 // metres of a degree of latitude on the mean sphere
	lon, lat, _ = wgs84.Transform(on, wgs84.LonLat())(east, north, 0)
	for range 8 { // each leaves a fiftieth of what was left, or less
		e, n, _ := wgs84.Transform(wgs84.LonLat(), on)(lon, lat, 0)
		lat += (north - n) / degree
		lon += (east - e) / (degree * math.Cos(lat*math.Pi/180))
	}
	return lat, lon
}

// fives is the place of a letter in a square of five by five without I.
func fives(letter byte) int {
	i := int(letter - 'A')
	if letter > 'I' {
		i--
	}
	return i
}

// irishGrid is EPSG 29903 (TM75): Airy's modified ellipsoid, and the shift to WGS 84 of EPSG 1641, both from memory.
func irishGrid() wgs84.CoordinateReferenceSystem {
	return wgs84.Helmert(6377340.189, 299.3249646, 482.5, -130.6, 564.6, -1.042, -0.214, -0.631, 8.15).
		TransverseMercator(-8, 53.5, 1.000035, 200000, 250000)
}

// bands are the letters of the military grid's bands of 8°, from 80° south.
const bands = "CDEFGHJKLMNPQRSTUVWX"

// utmSquare is the corner of a square of 100 km. Columns begin anew every third zone, rows every 2000 km and five
// letters further in even zones; the band says which of the rows of a letter is meant.
func utmSquare(zone int, band, column, row byte) (east, north float64, on wgs84.CoordinateReferenceSystem, ok bool) {
	const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	e := strings.IndexByte(letters, column) - (zone-1)%3*8
	n := strings.IndexByte(letters[:20], row)
	if zone%2 == 0 {
		n = (n + 15) % 20
	}
	northern := band >= 'N'
	on = wgs84.UTM(float64(zone), northern)
	south := float64(strings.IndexByte(bands, band)*8 - 80)
	_, least, _ := wgs84.Transform(wgs84.LonLat(), on)(float64(zone*6-183), south, 0)
	north = float64(n) * 1e5
	for north+1e5 <= least-1 {
		north += 2e6
	}
	return float64(e+1) * 1e5, north, on, e >= 0 && e < 8
}

// inBand reports whether a latitude lies in the band that a reference names; a square may reach over its edge.
func inBand(compact string, lat float64) bool {
	south := float64(strings.IndexByte(bands, utm.FindStringSubmatch(compact)[2][0])*8 - 80)
	return lat > south-1 && lat < south+13
}
