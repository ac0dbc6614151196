package measure

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseLength(t *testing.T) {
	for text, want := range map[string]Range[Millimetres]{
		"7.5 to 9.5 mm":      {7.5, 9.5, MM, 1},
		"7.5-9.5 mm":         {7.5, 9.5, MM, 1},
		"7.5–9.5 mm":         {7.5, 9.5, MM, 1},
		"7.5 mm to 9.5 mm":   {7.5, 9.5, MM, 1},
		"7.5mm - 9.5mm":      {7.5, 9.5, MM, 1},
		"8 mm":               {8, 8, MM, 0},
		" 8.0\u00a0MM ":      {8, 8, MM, 1},
		"7,5 mm":             {7.5, 7.5, MM, 1},
		"6,5 to 8 mm":        {6.5, 8, MM, 1},
		"0,125 in":           {3.175, 3.175, Inch, 3},
		".5 cm":              {5, 5, CM, 1},
		"1.2 Centimetres":    {12, 12, CM, 1},
		`0.25"`:              {6.35, 6.35, Inch, 2},
		"7 TO 9 millimeters": {7, 9, MM, 0},
	} {
		r, err := ParseLength(text)
		require.NoError(t, err, text)
		assert.InDelta(t, float64(want.Low), float64(r.Low), 1e-9, text)
		assert.InDelta(t, float64(want.High), float64(r.High), 1e-9, text)
		assert.Equal(t, want.Unit, r.Unit, text)
		assert.Equal(t, want.Digits, r.Digits, text)
	}
}

func TestRefusedLengths(t *testing.T) {
	for text, want := range map[string][2]string{ // reason, what would be right
		"8":                              {"has no unit", "mm, cm or in"},
		"7.5 to 9.5":                     {"has no unit", "mm, cm or in"},
		"8 kg":                           {`has "kg" for a unit`, "use mm, cm or in"},
		"8 °C":                           {`has "°C" for a unit`, "use mm"},
		"7 mm to 1 in":                   {"two units", "one unit"},
		"9.5 to 7.5 mm":                  {"above its end", "7.5 to 9.5 mm"},
		"-3 mm":                          {"a length of a fly", ""},
		"−3 mm":                          {"a length of a fly", ""},
		"0 mm":                           {"a length of a fly", ""},
		"8000 mm":                        {"a length of a fly", ""},
		"1,250 mm":                       {"ambiguous", "1.250 or 1250"},
		"1,234.5 mm":                     {"thousands", "1200 or 7.5"},
		"1 234 mm":                       {"thousands", ""},
		"1'234 mm":                       {"thousands", ""},
		"1.2.3 mm":                       {"two decimal signs", ""},
		"7,5 to 9.5 mm":                  {"mixes", ""},
		"5/16 in":                        {"fraction", "decimal"},
		"¼ in":                           {"fraction", "decimal"},
		"NaN mm":                         {"measured", ""},
		".inf mm":                        {"measured", ""},
		"Infinity":                       {"measured", ""},
		"1e3 mm":                         {"isn't a length", ""},
		"7, 9 mm":                        {"isn't a length", "7.5 to 9.5 mm"},
		"about 8 mm":                     {"isn't a length", "7.5 to 9.5 mm"},
		"8 ± 1 mm":                       {"isn't a length", ""},
		"mm":                             {"isn't a length", ""},
		"012 mm":                         {"starts with a nought", "write 12"},
		"7 to 09 mm":                     {"starts with a nought", "write 9"},
		"00.8 mm":                        {"starts with a nought", "write 0.8"},
		"-07 mm":                         {"starts with a nought", "write -7"},
		"":                               {"isn't a length", ""},
		"8 mm to":                        {"for a unit", ""},
		"5 to 6 to 7 mm":                 {"isn't a length", ""},
		strings.Repeat("9", 400) + " mm": {"too large", ""},
	} {
		_, err := ParseLength(text)
		var e *Error
		require.ErrorAs(t, err, &e, text)
		assert.Equal(t, text, e.Found)
		assert.Contains(t, e.Reason, want[0], text)
		assert.Contains(t, e.Want, want[1], text)
	}
}

func TestParseAltitude(t *testing.T) {
	for text, want := range map[string][2]Metres{
		"35-110 m": {35, 110}, "90 m": {90, 90}, "300 ft": {91.44, 91.44}, "300'": {91.44, 91.44},
		"-4 to -2 m": {-4, -2}, "0 m": {0, 0}, "100 feet to 300 feet": {30.48, 91.44}, "1250 metres": {1250, 1250},
	} {
		r, err := ParseAltitude(text)
		require.NoError(t, err, text)
		assert.InDelta(t, float64(want[0]), float64(r.Low), 1e-9, text)
		assert.InDelta(t, float64(want[1]), float64(r.High), 1e-9, text)
	}
	for _, text := range []string{"9500 m", "90", "1,250 m", "90 mm", "110-35 m"} {
		_, err := ParseAltitude(text)
		assert.Error(t, err, text)
	}
}

// The fixed points of the two scales: ice at 32 °F, steam at 212 °F, and -40 on
// both (definition of the Fahrenheit scale against ITS-90).
func TestTemperatures(t *testing.T) {
	for text, want := range map[string]Celsius{
		"11.4 °C": 11.4, "11.4 C": 11.4, "11,4°c": 11.4, "11.4 ℃": 11.4, "11.4 ºC": 11.4, "11 deg C": 11, "0.5 celsius": .5,
		"32 °F": 0, "212 °F": 100, "-40 F": -40, "−40 °C": -40, "52 fahrenheit": 100. / 9,
	} {
		r, err := ParseTemperature(text)
		require.NoError(t, err, text)
		assert.InDelta(t, float64(want), float64(r.Low), 1e-9, text)
		assert.True(t, r.Single())
	}
	for text, reason := range map[string]string{
		"284 K": `has "K" for a unit`, "11.4°": `has "°" for a unit`, "11.4": "has no unit",
		"012 °C": "starts with a nought", "520 °F": "a temperature", "8 to 12 °C": "is a range", "warm": "isn't a temperature",
	} {
		_, err := ParseTemperature(text)
		require.ErrorContains(t, err, reason, text)
	}

	for text, want := range map[string]DaysPerDegree{
		"5 days per °C": 5, "5 days per C": 5, "3.5 per °C": 3.5, "5 days/°C": 5, "5 days per °F": 9, "1 day per degree Celsius": 1,
	} {
		r, err := ParseDaysPerDegree(text)
		require.NoError(t, err, text)
		assert.InDelta(t, float64(want), float64(r.Low), 1e-9, text)
	}
	_, err := ParseDaysPerDegree("-4 days per °C")
	assert.ErrorContains(t, err, "warmer water never holds it back")
	_, err = ParseEffort("99999999999999 sweeps")
	assert.ErrorContains(t, err, "more than one visit can be")
	_, err = ParseDaysPerDegree("5")
	assert.ErrorContains(t, err, "has no unit")
}

func TestUnitsAlone(t *testing.T) {
	u, err := TemperatureUnit("°F")
	require.NoError(t, err)
	assert.Equal(t, DegF, u)
	_, err = TemperatureUnit("K")
	assert.ErrorContains(t, err, "for a unit")
}

func TestPrintsWhatWasMeasured(t *testing.T) {
	length := func(s string, u Unit[Millimetres]) string {
		r, err := ParseLength(s)
		require.NoError(t, err)
		return r.In(u)
	}
	assert.Equal(t, "7.5–9.5 mm", length("7.5 to 9.5 mm", MM))
	assert.Equal(t, "8 mm", length("8 mm", MM))
	assert.Equal(t, "8.0 mm", length("8.0 mm", MM))
	assert.Equal(t, "8 mm", length("0.3 in", MM), "a tenth of an inch isn't a tenth of a millimetre")
	assert.Equal(t, "7.6 mm", length("0.30 in", MM))
	assert.Equal(t, "0.30 in", length("7.5 mm", Inch))
	assert.Equal(t, "12 mm", length("1.2 cm", MM))

	r, err := ParseAltitude("300 ft")
	require.NoError(t, err)
	assert.Equal(t, "91 m", r.In(Metre))
	assert.Equal(t, "300 ft", r.String())
	r, err = ParseAltitude("-4 to -2 m")
	require.NoError(t, err)
	assert.Equal(t, "−4 to −2 m", r.String())
	c, err := ParseTemperature("52 °F")
	require.NoError(t, err)
	assert.Equal(t, "11 °C", c.In(DegC))

	assert.Equal(t, "7.3", Decimal(7.25, 1), "halves go away from zero")
	assert.Equal(t, "−7.3", Decimal(-7.25, 1))
	assert.Equal(t, "0.3", Decimal(0.25-1e-12, 1), "rounded to 1e-9 first")
	assert.Equal(t, "0", Decimal(-0.3, 0))
	assert.False(t, math.Signbit(Round9(-1e-12)))
}

func TestParseEffort(t *testing.T) {
	for text, want := range map[string]Effort{
		"50 sweeps": {50, Sweeps}, "1 sweep": {1, Sweeps}, "10 minutes": {10, Minutes}, "10 min": {10, Minutes},
		"10min": {10, Minutes}, "1.5 h": {90, Minutes}, "1,5 hours": {90, Minutes}, "2 trap nights": {2, TrapNights}, "0.1 m2": {.1, SquareMetres},
	} {
		e, err := ParseEffort(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, e, text)
	}
	for text, reason := range map[string]string{
		"50": "has no unit", "50 sweps": `has "sweps" for a unit`, "0 sweeps": "nothing was sampled", "-5 sweeps": "nothing was sampled",
		"some": "isn't an effort", "": "isn't an effort", "20 to 30 sweeps": "for a unit", "nan sweeps": "measured", "1,000 sweeps": "ambiguous",
	} {
		_, err := ParseEffort(text)
		var e *Error
		require.ErrorAs(t, err, &e, text)
		assert.Contains(t, e.Reason, reason, text)
		assert.NotEmpty(t, e.Want, text)
	}
}

func TestParseCoordinates(t *testing.T) {
	for _, text := range []string{
		"55.213 N, 4.871 W", "55.213, -4.871", "55.213,-4.871", "55.213 -4.871", "55.213N 4.871W", "55.213°N, 4.871° w", "N 55.213, W 4.871",
		"N55.213 W4.871", "4.871 W, 55.213 N", "55,213 N, 4,871 W", "55,213 N; 4,871 W", "+55.213, −4.871", "055.213 N, 004.871 W",
	} {
		c, err := ParseCoordinates(text)
		require.NoError(t, err, text)
		assert.Equal(t, Coordinates{Latitude: Angle{55.213, 3}, Longitude: Angle{-4.871, 3}}, c, text)
		assert.Equal(t, "55.213 N, 4.871 W", c.String())
	}
	c, err := ParseCoordinates("45 S, 168.70 E")
	require.NoError(t, err)
	assert.Equal(t, "45 S, 168.70 E", c.String(), "each keeps its precision")

	for text, reason := range map[string]string{
		"95 N, 4 W": "off the map", "155.2, -4.8": "off the map", "55 N, 181 W": "off the map", "55.2 N": "a place", "-55.2 N, 4 W": "sign and a letter",
		"55.2 N, 4.8 N": "a longitude", "55.2 N, 4.8": "both letters", "55,213": "ambiguous", "55,213, -4,871": "both letters, or none",
		`55°12'47" N, 4°52'16" W`: "minutes or seconds", "NaN, 4": "a place", "": "a place", "55.2 N 4.8 W 3": "a place", "N 55.2 N, 4 W": "a place",
	} {
		_, err := ParseCoordinates(text)
		var e *Error
		require.ErrorAs(t, err, &e, text)
		assert.Contains(t, e.Reason, reason, text)
		assert.Equal(t, text, e.Found)
	}
}

func TestOneAngle(t *testing.T) {
	for text, want := range map[string]Angle{"55.2 N": {55.2, 1}, "45S": {-45, 0}, "-45.50": {-45.5, 2}, "55,2 N": {55.2, 1}, "S 45": {-45, 0}, "0 S": {0, 0}} {
		a, err := ParseLatitude(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, a, text)
	}
	a, err := ParseLongitude("168.7 E")
	require.NoError(t, err)
	assert.Equal(t, Angle{168.7, 1}, a)
	_, err = ParseLatitude("55.2 W")
	assert.ErrorContains(t, err, "letter W")
	_, err = ParseLongitude("180.1")
	assert.ErrorContains(t, err, "off the map")
}

// What is printed reads back as what was written.
func TestPrintedReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]Unit[Millimetres]{MM, CM, Inch}).Draw(t, "unit")
		low := rapid.IntRange(1, 390).Draw(t, "low")
		high := rapid.IntRange(low, 390).Draw(t, "high")
		digits := rapid.IntRange(1, 3).Draw(t, "digits")
		p := math.Pow10(digits)
		r := Range[Millimetres]{unit.Value(float64(low) / p), unit.Value(float64(high) / p), unit, digits}
		back, err := ParseLength(r.String())
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(back.Low-r.Low)) > 1e-9 || math.Abs(float64(back.High-r.High)) > 1e-9 || back.Digits != digits || back.Unit != unit {
			t.Fatalf("%s read back as %+v", r, back)
		}
		x := rapid.Float64Range(-50, 50).Draw(t, "x")
		if math.Abs(DegF.Reading(DegF.Value(x))-x) > 1e-9 {
			t.Fatal("°F is not its own way back")
		}
	})
}

func TestCoordinatesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Coordinates{
			Latitude:  Angle{float64(rapid.IntRange(-90000, 90000).Draw(t, "lat")) / 1000, 3},
			Longitude: Angle{float64(rapid.IntRange(-180000, 180000).Draw(t, "lon")) / 1000, 3}}
		back, err := ParseCoordinates(c.String())
		if err != nil || back != c {
			t.Fatalf("%s: %v, %v", c, back, err)
		}
	})
}

func FuzzParsers(f *testing.F) {
	for _, s := range []string{"7.5 to 9.5 mm", "35-110 m", "52 °F", "50 sweeps", "55.213 N, 4.871 W", "1,250 mm", "NaN", "-", "5 days per °C", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		check := func(err error, values ...float64) {
			var e *Error
			if err != nil {
				if !errors.As(err, &e) || e.Found != s || e.Reason == "" {
					t.Fatalf("%q: an incomplete refusal: %v", s, err)
				}
				return
			}
			for _, v := range values {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%q gave %v", s, v)
				}
			}
		}
		l, err := ParseLength(s)
		check(err, float64(l.Low), float64(l.High))
		if err == nil && (l.Low <= 0 || l.High < l.Low) {
			t.Fatalf("%q gave %v", s, l)
		}
		a, err := ParseAltitude(s)
		check(err, float64(a.Low), float64(a.High))
		c, err := ParseTemperature(s)
		check(err, float64(c.Low))
		d, err := ParseDaysPerDegree(s)
		check(err, float64(d.Low))
		e, err := ParseEffort(s)
		check(err, e.Amount)
		p, err := ParseCoordinates(s)
		check(err, p.Latitude.Degrees, p.Longitude.Degrees)
		if math.Abs(p.Latitude.Degrees) > 90 || math.Abs(p.Longitude.Degrees) > 180 {
			t.Fatalf("%q lies off the map: %v", s, p)
		}
	})
}

// Ranges and units in German and French; the names of units after the SI brochure (BIPM) in both, from memory.
func TestQuantitiesInGermanAndFrench(t *testing.T) {
	for written, english := range map[string]string{
		"7 bis 9 mm": "7 to 9 mm", "7,5 bis 9,5 mm": "7.5 to 9.5 mm", "7 à 9 mm": "7 to 9 mm", "7,5 mm à 9 mm": "7.5 to 9 mm",
		"0,3 Zoll": "0.3 in", "1 pouce": "1 in", "8 Millimeter": "8 mm", "8 millimètres": "8 mm", "1 Zentimeter": "1 cm",
	} {
		want, err := ParseLength(english)
		require.NoError(t, err)
		got, err := ParseLength(written)
		assert.NoError(t, err, written)
		assert.Equal(t, want, got, written)
	}
	for written, english := range map[string]string{"35 bis 110 m": "35 to 110 m", "35 à 110 mètres": "35 to 110 m", "300 Fuß": "300 ft", "300 pieds": "300 ft"} {
		want, err := ParseAltitude(english)
		require.NoError(t, err)
		got, err := ParseAltitude(written)
		assert.NoError(t, err, written)
		assert.Equal(t, want, got, written)
	}
	for written, english := range map[string]string{"5 Tage je °C": "5 days per °C", "5,5 jours par °C": "5.5 days per °C"} {
		want, err := ParseDaysPerDegree(english)
		require.NoError(t, err)
		got, err := ParseDaysPerDegree(written)
		assert.NoError(t, err, written)
		assert.Equal(t, want, got, written)
	}
	for written, want := range map[string]Effort{
		"50 Kescherschläge": {50, Sweeps}, "50 coups de filet": {50, Sweeps}, "1,5 Stunden": {90, Minutes}, "20 Minuten": {20, Minutes},
		"2 heures": {120, Minutes}, "3 Fallennächte": {3, TrapNights}, "2 nuits de piège": {2, TrapNights},
	} {
		got, err := ParseEffort(written)
		assert.NoError(t, err, written)
		assert.Equal(t, want, got, written)
	}
	_, err := ParseLength("7 x 9 mm")
	require.Error(t, err)
	assert.Contains(t, err.(*Error).Want, "7,5 bis 9,5 mm")
}
