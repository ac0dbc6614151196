package calendar

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// refused checks that a text is refused in full, and why.
func refused(t *testing.T, err error, text, reason, want string) {
	var e *Error
	require.ErrorAs(t, err, &e, text)
	assert.Contains(t, e.Reason, reason, text)
	assert.Contains(t, e.Want, want, text)
}

func TestParseDay(t *testing.T) {
	for text, want := range map[string]Day{
		"21 Mar": DayOf(3, 21), "21 March": DayOf(3, 21), "March 21": DayOf(3, 21), "21st Mar.": DayOf(3, 21), "21-Mar": DayOf(3, 21), "3rd sept": DayOf(9, 3),
		"early Apr": DayOf(4, 5), "mid Apr": DayOf(4, 15), "mid-April": DayOf(4, 15), "Late FEB": DayOf(2, 25), "29 Feb": DayOf(2, 28), " 1  Jan ": 1,
	} {
		d, err := ParseDay(text, From)
		require.NoError(t, err, text)
		assert.Equal(t, want, d, text)
	}
	for role, want := range map[Role]Day{From: DayOf(4, 1), Peak: DayOf(4, 15), To: DayOf(4, 30)} {
		d, err := ParseDay("Apr", role)
		require.NoError(t, err)
		assert.Equal(t, want, d)
	}
	for text, want := range map[string][2]string{
		"3/5": {"ambiguous", "3 May"}, "3/5/24": {"ambiguous", "3 May"}, "2026-05-03": {"one year", "21 Mar"}, "3 May 2026": {"one year", ""}, "May 2026": {"one year", ""},
		"31 Apr": {"April has 30 days", ""}, "30 Feb": {"February has 29 days", ""}, "0 May": {"31 days", ""}, "-5 Mar": {"a day", ""}, "+5 Mar": {"a day", ""},
		"early": {"a day", ""}, "early spring": {"no month", ""}, "Mar Apr": {"a day", ""}, "5": {"a day", ""}, "": {"a day", ""}, "5 5": {"a day", ""},
	} {
		_, err := ParseDay(text, From)
		refused(t, err, text, want[0], want[1])
	}
}

func TestParseWhen(t *testing.T) {
	day := func(y int, m time.Month, d int) Date { return Date{y, m, d} }
	for text, want := range map[string]When{
		"2026-05-03": {day(2026, 5, 3), day(2026, 5, 3)}, " 2024-02-29 ": {day(2024, 2, 29), day(2024, 2, 29)}, "2026-02": {day(2026, 2, 1), day(2026, 2, 28)},
		"2024-02": {day(2024, 2, 1), day(2024, 2, 29)}, "2026": {day(2026, 1, 1), day(2026, 12, 31)}, "2026-05-01/2026-05-09": {day(2026, 5, 1), day(2026, 5, 9)},
		"2026-05/2026-06": {day(2026, 5, 1), day(2026, 6, 30)}, "2025/2026": {day(2025, 1, 1), day(2026, 12, 31)},
	} {
		w, err := ParseWhen(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, w, text)
		assert.Equal(t, want.From == want.To, w.Exact(), text)
	}
	for text, want := range map[string][2]string{
		"2026-02-29": {"February 2026 has 28 days", "2026-02-28"}, "2026-13-01": {"01 to 12", ""}, "2026-13": {"01 to 12", ""}, "2026-5-3": {"ISO 8601", "2026-05-03"},
		"3/5/2026": {"ambiguous", "2026-05-03 or 2026-03-05"}, "3/5/24": {"short year", ""}, "13/5/2026": {"ISO 8601", "2026-05-13"}, "5.13.2026": {"ISO 8601", "2026-05-13"},
		"4/4/2026": {"ISO 8601", "2026-04-04"}, "31/31/2026": {"a date", ""}, "2026-05-09/2026-05-01": {"ends before", "earlier"},
		"2026-05-01/2026-05-09/2026-06-01": {"two ends", ""}, "3 May 2026": {"a date", "2026-05-03"}, "": {"a date", ""}, "yesterday": {"a date", ""},
	} {
		_, err := ParseWhen(text)
		refused(t, err, text, want[0], want[1])
	}
	_, err := ParseDate("2026-05")
	refused(t, err, "2026-05", "not one day", "2026-05-03")
}

func TestParseClock(t *testing.T) {
	for text, want := range map[string]Clock{"18:30": 1110, "9:05": 545, "00:00": 0, "23:59": 1439} {
		c, err := ParseClock(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, c, text)
	}
	for _, text := range []string{"24:00", "18:60", "18.30", "1830", "6 pm", "18:3", "-1:30", "", "NO"} {
		_, err := ParseClock(text)
		refused(t, err, text, "a clock time", "")
	}
}

func TestParseSpan(t *testing.T) {
	clock := func(m int) Moment { return Moment{NoSun, m} }
	for text, want := range map[string]Span{
		"11:00 to 15:30":                          {clock(660), clock(930)},
		"11:00-15:30":                             {clock(660), clock(930)},
		"11:00 – 15:30":                           {clock(660), clock(930)},
		"22:00 TO 2:00":                           {clock(1320), clock(120)},
		"sunset-2h to sunset+30min":               {Moment{Sunset, -120}, Moment{Sunset, 30}},
		"Sunset - 2 hours to sunset + 30 minutes": {Moment{Sunset, -120}, Moment{Sunset, 30}},
		"sunset−1h30min–dusk":                     {Moment{Sunset, -90}, Moment{Dusk, 0}},
		"sunrise to 10:00":                        {Moment{Sunrise, 0}, clock(600)},
		"solar noon to sunset":                    {Moment{Noon, 0}, Moment{Sunset, 0}},
		"dusk to dawn":                            {Moment{Dusk, 0}, Moment{Dawn, 0}},
		"dusk":                                    {Moment{Dusk, -30}, Moment{Dusk, 30}},
		"sunset+1h":                               {Moment{Sunset, 30}, Moment{Sunset, 90}},
	} {
		s, err := ParseSpan(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, s, text)
	}
	for text, want := range map[string][2]string{
		"sunset-2 to dusk": {"a time of day", "sunset-2h"}, "sunset- to dusk": {"no hours or minutes", ""}, "sunset-13h to dusk": {"12 hours", ""},
		"noon to 15:00": {"highest point", "12:00 or solar noon"}, "11:00": {"a stretch", "11:00 to 15:30"}, "11:00 to 11:00": {"one moment", ""},
		"sunset+2h to sunset-2h": {"ends before", "earlier"}, "evening": {"a stretch", ""}, "": {"a stretch", ""}, "11 to 15": {"a time of day", "18:30"},
		"sunrise to 10:00 to dusk": {"a time of day", ""},
	} {
		_, err := ParseSpan(text)
		refused(t, err, text, want[0], want[1])
	}
}

func TestDatesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := DateOf(time.Unix(rapid.Int64Range(-2e9, 4e9).Draw(t, "seconds"), 0).UTC())
		back, err := ParseDate(d.String())
		if err != nil || back != d {
			t.Fatalf("%s: %v, %v", d, back, err)
		}
		c := Clock(rapid.IntRange(0, 1439).Draw(t, "clock"))
		if b, err := ParseClock(c.String()); err != nil || b != c {
			t.Fatalf("%s: %v, %v", c, b, err)
		}
	})
}

func FuzzParsers(f *testing.F) {
	for _, s := range []string{"21 Mar", "late Feb", "2026-05-01/2026-05-09", "3/5/24", "18:30", "sunset-2h to dusk", "11:00-15:30", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		check := func(err error, fine bool) {
			var e *Error
			if err != nil && (!errors.As(err, &e) || e.Reason == "") {
				t.Fatalf("%q: an incomplete refusal: %v", s, err)
			}
			if err == nil && !fine {
				t.Fatalf("%q gave something impossible", s)
			}
		}
		d, err := ParseDay(s, Peak)
		check(err, d.Valid())
		w, err := ParseWhen(s)
		check(err, !w.To.Before(w.From) && exists(w.From) && exists(w.To))
		c, err := ParseClock(s)
		check(err, c >= 0 && c < 1440)
		span, err := ParseSpan(s)
		check(err, span.From != span.To)
	})
}

// The same days in German and French; names and orders as Duden and the Imprimerie nationale have them, from memory.
func TestDaysInGermanAndFrench(t *testing.T) {
	for written, want := range map[string]Day{
		"20. April": DayOf(4, 20), "15. Juni": DayOf(6, 15), "1. Jänner": DayOf(1, 1), "3. Mär": DayOf(3, 3), "3. ma\u0308rz": DayOf(3, 3), "24. Dez.": DayOf(12, 24),
		"1er mars": DayOf(3, 1), "20 avril": DayOf(4, 20), "14 juil.": DayOf(7, 14), "15 AOÛT": DayOf(8, 15), "6 fév": DayOf(2, 6), "2 décembre": DayOf(12, 2),
		"Anfang Mai": DayOf(5, 5), "Mitte April": DayOf(4, 15), "Ende Oktober": DayOf(10, 25), "mi-avril": DayOf(4, 15), "début juin": DayOf(6, 5), "fin août": DayOf(8, 25),
		"Juni": DayOf(6, 1), "juillet": DayOf(7, 1),
	} {
		got, err := ParseDay(written, From)
		assert.NoError(t, err, written)
		assert.Equal(t, want, got, written)
	}
	_, err := ParseDay("20. Brachet", From)
	assert.ErrorContains(t, err, "isn't a day of the year")
	assert.Contains(t, err.(*Error).Want, "21. März, 21 mars")
	_, err = ParseDay("Mitte Brachet", From)
	assert.ErrorContains(t, err, "names no month")
}

func TestSpansInGermanAndFrench(t *testing.T) {
	for written, english := range map[string]string{
		"11:00 bis 15:30": "11:00 to 15:30", "11:00 à 15:30": "11:00 to 15:30",
		"Sonnenuntergang-2h bis Sonnenuntergang+30min": "sunset-2h to sunset+30min",
		"Sonnenaufgang + 1 Stunde bis 10:00":           "sunrise+1h to 10:00",
		"coucher-2 heures à coucher+30min":             "sunset-2h to sunset+30min",
		"lever à midi solaire":                         "sunrise to solar noon",
		"Dunkelwerden":                                 "dusk", "crépuscule": "dusk", "Morgengrauen bis 7:00": "dawn to 7:00",
	} {
		want, err := ParseSpan(english)
		require.NoError(t, err)
		got, err := ParseSpan(written)
		assert.NoError(t, err, written)
		assert.Equal(t, want, got, written)
	}
}
