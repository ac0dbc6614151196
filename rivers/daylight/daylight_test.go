package daylight

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // not every machine has zones

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

func zone(t testing.TB, name string) *time.Location {
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

func date(t testing.TB, s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	require.NoError(t, err)
	return d
}

func span(t testing.TB, s string) calendar.Span {
	v, err := calendar.ParseSpan(s)
	require.NoError(t, err)
	return v
}

func reference(t *testing.T, name string) [][]string {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "checks", name))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

// meanSun is a zone in which 12:00 is near the solar noon of a longitude.
func meanSun(longitude float64) *time.Location {
	return time.FixedZone("mean sun", int(longitude*240))
}

// Two ephemerides that agree within half a second: npm astronomy-engine 2.1.19
// and Debian python3-ephem 4.1.4, for seven places on twelve dates of 2026 and
// for grazing dates at 69.6° N, where a second of arc is minutes of time.
func TestAgainstEphemerides(t *testing.T) {
	for name, limit := range map[string]func(latitude float64) time.Duration{
		"sun.csv": func(latitude float64) time.Duration {
			if math.Abs(latitude) < 60 {
				return time.Minute
			}
			return 2 * time.Minute
		},
		"sun_polar.csv": func(float64) time.Duration { return 10 * time.Minute },
	} {
		rows := reference(t, name)
		require.NotEmpty(t, rows)
		for _, r := range rows {
			latitude, err := strconv.ParseFloat(r[0], 64)
			require.NoError(t, err)
			longitude, err := strconv.ParseFloat(r[1], 64)
			require.NoError(t, err)
			day := On(date(t, r[2]), latitude, longitude, meanSun(longitude))
			for _, c := range []struct {
				what  string
				got   Event
				want  string
				limit time.Duration
			}{
				{"sunrise", day.Rise, r[3], limit(latitude)},
				{"noon", day.Noon, r[4], 15 * time.Second},
				{"sunset", day.Set, r[5], limit(latitude)},
				{"dusk", day.Dusk, r[6], limit(latitude)},
				{"sunrise, second library", day.Rise, r[7], limit(latitude)},
				{"sunset, second library", day.Set, r[8], limit(latitude)},
			} {
				where := strings.Join(r[:3], " ") + " " + c.what
				if c.want == "" {
					assert.NotEmpty(t, c.got.Missing, where)
					continue
				}
				want, err := time.Parse(time.RFC3339, c.want)
				require.NoError(t, err)
				if assert.Empty(t, c.got.Missing, where) {
					assert.WithinDuration(t, want, c.got.At, c.limit, where)
				}
			}
		}
	}
}

// Almanac and handbook values as printed: the US Naval Observatory's times for
// Atlanta to the minute, and NREL/TP-560-34302 in hours. NREL's printed sunset
// is that of the evening before its date. The Venus of Meeus, example 15.a, is
// not the sun and has no place here.
func TestAgainstAlmanacs(t *testing.T) {
	published := map[string]string{}
	for _, r := range reference(t, "sun_published.csv") {
		published[strings.Fields(r[0])[0]+" "+r[1]] = r[2]
	}
	atlanta := On(date(t, "2009-09-06"), 33.8, -84.4, zone(t, "America/New_York"))
	for what, e := range map[string]Event{"begin civil twilight": atlanta.Dawn, "sunrise": atlanta.Rise, "transit": atlanta.Noon, "sunset": atlanta.Set, "end civil twilight": atlanta.Dusk} {
		want := published["USNO "+what+" UTC"]
		require.NotEmpty(t, want, what)
		assert.Equal(t, want[max(0, len(want)-5):], e.At.UTC().Round(time.Minute).Format("15:04"), what)
	}

	fixed := time.FixedZone("UTC-7", -7*3600)
	hours := func(e Event) float64 {
		h, m, s := e.At.Clock()
		return float64(h) + float64(m)/60 + float64(s)/3600
	}
	today, yesterday := On(date(t, "2003-10-17"), 39.742476, -105.1786, fixed), On(date(t, "2003-10-16"), 39.742476, -105.1786, fixed)
	for what, e := range map[string]Event{"sunrise local h": today.Rise, "transit local h": today.Noon, "sunset local h": yesterday.Set} {
		want, err := strconv.ParseFloat(published["NREL "+what], 64)
		require.NoError(t, err, what)
		assert.InDelta(t, want, hours(e), 10./3600, what)
	}
}

// Meeus, Astronomical Algorithms, 2nd ed., example 25.a: 1992-10-13.0 TD, by the
// method used here, to the digits printed.
func TestMeeusExample(t *testing.T) {
	instant := unixSeconds(time.Date(1992, 10, 13, 0, 0, 0, 0, time.UTC))
	longitude, obliquity, declination, equation := sunAt(instant)
	longitude = math.Mod(longitude, 360)
	if longitude < 0 {
		longitude += 360
	}
	assert.InDelta(t, 199.90895, longitude, 2e-5)
	assert.InDelta(t, 23.43999, obliquity, 2e-5) // of the same example, from memory
	assert.InDelta(t, -7.78507, declination, 1e-5)
	ascension := degrees(math.Atan2(cos(obliquity)*sin(longitude), cos(longitude))) + 360
	assert.InDelta(t, 198.38083, ascension, 2e-5)
	// Example 28.a, the same instant: 13 min 42.7 s, by a method good to a few seconds; from memory.
	assert.InDelta(t, 13+42.7/60, equation, 5./60)
}

func TestPolarDaysAndNights(t *testing.T) {
	oslo := zone(t, "Europe/Oslo")
	summer := On(date(t, "2026-06-21"), 69.6, 18.9, oslo)
	assert.Equal(t, NoSunset, summer.Polar())
	assert.Equal(t, NoSunset, summer.Rise.Missing)
	assert.Equal(t, NoDark, summer.Dusk.Missing)
	assert.Equal(t, calendar.NoClock, summer.Set.Clock())
	winter := On(date(t, "2026-12-21"), 69.6, 18.9, oslo)
	assert.Equal(t, NoSunrise, winter.Polar())
	assert.Empty(t, winter.Dusk.Missing, "there is twilight at noon")
	deep := On(date(t, "2026-12-21"), 80, 18.9, oslo)
	assert.Equal(t, NoLight, deep.Dusk.Missing)
	south := On(date(t, "2026-12-21"), -75, 0, nil)
	assert.Equal(t, NoSunset, south.Polar())
	assert.Empty(t, On(date(t, "2026-03-20"), 69.6, 18.9, oslo).Polar())
}

// A zone may lie a day from the mean sun of its own islands.
func TestTheDateIsTheZonesOwn(t *testing.T) {
	for name, longitude := range map[string]float64{"Pacific/Kiritimati": -157.4, "Pacific/Apia": -171.8, "Pacific/Auckland": 168.7, "Europe/London": -4.9, "America/Adak": -176.6} {
		day := On(date(t, "2026-04-12"), -10, longitude, zone(t, name))
		assert.Equal(t, date(t, "2026-04-12"), calendar.DateOf(day.Noon.At), name)
		assert.True(t, day.Rise.At.Before(day.Noon.At) && day.Set.At.After(day.Noon.At), name)
	}
}

// over tells the sun's days at a place.
func over(latitude, longitude float64, zone *time.Location) func(calendar.Date) Day {
	return func(d calendar.Date) Day { return On(d, latitude, longitude, zone) }
}

func TestResolve(t *testing.T) {
	london, helsinki := zone(t, "Europe/London"), zone(t, "Europe/Helsinki")
	for _, c := range []struct {
		span, date          string
		latitude, longitude float64
		zone                *time.Location
		from, to            string // to the minute, by the first ephemeris of sun.csv where the sun has a part
	}{
		{"11:00 to 15:30", "2026-03-21", 51.1, -1.5, london, "11:00", "15:30"},
		{"sunset-2h to sunset+30min", "2026-06-21", 51.1, -1.5, london, "19:25", "21:55"},
		{"sunset-2h to sunset+30min", "2026-12-21", 51.1, -1.5, london, "14:01", "16:31"},
		{"sunrise to 10:00", "2026-04-12", 51.1, -1.5, london, "06:18", "10:00"},
		{"sunset to dusk", "2026-08-15", 51.1, -1.5, london, "20:27", "21:04"},
		{"solar noon to sunset", "2026-05-10", 51.1, -1.5, london, "13:02", "20:42"},
		{"dusk", "2026-10-25", 51.1, -1.5, london, "16:57", "17:57"}, // the day the clocks go back
		{"22:00 to 02:00", "2026-06-21", 51.1, -1.5, london, "22:00", "02:00"},
		{"dusk to 00:00", "2026-06-21", 51.1, -1.5, london, "22:12", "00:00"},
		{"sunset to 02:00", "2026-06-21", 65, 26, helsinki, "00:19", "02:00"}, // so far north the sun sets after the local midnight
	} {
		h := Resolve(span(t, c.span), date(t, c.date), c.zone, over(c.latitude, c.longitude, c.zone))
		assert.Empty(t, h.Missing, c.span)
		assert.Equal(t, c.from, h.From.String(), c.span+" "+c.date)
		assert.Equal(t, c.to, h.To.String(), c.span+" "+c.date)
		assert.False(t, h.End.Before(h.Start), c.span)
		assert.Less(t, h.End.Sub(h.Start), 24*time.Hour, c.span)
	}
}

func TestNights(t *testing.T) {
	london := zone(t, "Europe/London")
	for text, ends := range map[string]int{ // the day of March 2026 on which the span ends
		"sunset to sunrise": 22, "dusk to dawn": 22, "dusk to 02:00": 22, "22:00 to 02:00": 22, "22:00 to sunrise": 22, "sunset to 00:00": 22, "sunrise to 00:00": 22, "12:00 to 00:00": 22,
		"04:00 to sunrise": 21, "sunrise to 10:00": 21, "16:00 to sunset": 21, "sunset-2h to 21:00": 21, "dawn to dusk": 21,
	} {
		h := Resolve(span(t, text), date(t, "2026-03-21"), london, over(51.1, -1.5, london))
		require.Empty(t, h.Missing, text)
		assert.Equal(t, ends, h.End.Day(), text)
		assert.Equal(t, 21, h.Start.Day(), text)
	}
}

func TestHoursThatAreNot(t *testing.T) {
	oslo, london := zone(t, "Europe/Oslo"), zone(t, "Europe/London")
	for _, c := range []struct {
		span, date string
		latitude   float64
		zone       *time.Location
		want       string
	}{
		{"sunset-2h to sunset+30min", "2026-06-21", 69.6, oslo, NoSunset},
		{"sunrise to 10:00", "2026-12-21", 69.6, oslo, NoSunrise},
		{"18:00 to dusk", "2026-06-21", 69.6, oslo, NoDark},
		{"sunrise+6h to sunset-6h", "2026-12-21", 51.1, london, NeverStarts},
		{"sunset-2h to 17:00", "2026-06-21", 51.1, london, NeverStarts}, // never a night and a day
		{"04:00 to sunrise", "2026-06-21", 51.1, london, NeverStarts},
	} {
		h := Resolve(span(t, c.span), date(t, c.date), c.zone, over(c.latitude, 18.9, c.zone))
		assert.Equal(t, c.want, h.Missing, c.span)
		assert.Equal(t, [2]calendar.Clock{calendar.NoClock, calendar.NoClock}, [2]calendar.Clock{h.From, h.To}, c.span)
	}
}

// Anywhere, on any date: the events come in their order, the sun stands at
// their zenith angle, noon lies within the date, and an event is missing only
// where the sun never passes.
func TestDayProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		latitude := rapid.Float64Range(-85, 85).Draw(t, "latitude")
		longitude := rapid.Float64Range(-180, 180).Draw(t, "longitude")
		d := calendar.Date{Year: 2026, Month: 1, Day: 1}.AddDays(rapid.IntRange(0, 1460).Draw(t, "days"))
		day := On(d, latitude, longitude, meanSun(longitude))
		if calendar.DateOf(day.Noon.At) != d {
			t.Fatalf("noon of %s at %s", d, day.Noon.At)
		}
		last := time.Time{}
		for _, e := range []Event{day.Dawn, day.Rise, day.Noon, day.Set, day.Dusk} {
			if e.Missing == "" && !e.At.After(last) {
				t.Fatalf("out of order on %s: %+v", d, day)
			}
			if e.Missing == "" {
				last = e.At
			}
		}
		noon := unixSeconds(day.Noon.At)
		for i, e := range []Event{day.Dawn, day.Rise, day.Set, day.Dusk} {
			zenith := []float64{twilight, horizon, horizon, twilight}[i]
			if e.Missing == "" {
				if off := above(unixSeconds(e.At), latitude, longitude, zenith); math.Abs(off) > 1e-4 {
					t.Fatalf("event %d of %s at %s is off by %v", i, d, e.At, off)
				}
				continue
			}
			from, to := noon, noon+43200
			if i < 2 {
				from, to = noon-43200, noon
			}
			up := above(noon, latitude, longitude, zenith) > 0
			for x := from + 600; x < to; x += 600 {
				if (above(x, latitude, longitude, zenith) > 0) != up {
					t.Fatalf("event %d of %s is said to be missing", i, d)
				}
			}
		}
	})
}
