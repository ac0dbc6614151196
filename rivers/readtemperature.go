package rivers

// Reading a file of water temperatures: spot readings and logger days, kept apart.

import (
	"guidegen/content"
	"guidegen/content/calendar"
)

var degrees = []string{"°C", "°F"}

// TemperatureColumns lists the columns of a temperature file.
var TemperatureColumns = []content.Column{
	{Name: "water", Required: true, Doc: "the water", Example: "Thessel"},
	{Name: "date", Required: true, Doc: "the day", Example: "2026-03-21"},
	{Name: "time", Doc: "local time of a spot reading", Example: "11:40"},
	{Name: "kind", Required: true, Doc: "spot or logger", Example: "spot"},
	{Name: "temperature", Units: degrees, Doc: "a spot reading", Example: "7.9"},
	{Name: "min", Units: degrees, Doc: "a logger's lowest of the day", Example: "6.8"},
	{Name: "max", Units: degrees, Doc: "a logger's highest of the day", Example: "9.1"},
	{Name: "mean", Units: degrees, Doc: "a logger's mean of the day", Example: "7.8"},
	{Name: "place", Doc: "the beat or site", Example: "church meadow"},
	{Name: "by", Doc: "who read it", Example: "E. Marl"},
	{Name: "remarks", Doc: "anything else", Example: "in the shade"},
}

// ReadTemperature reads a file of temperatures. A row that can't be used is
// reported and left out; gaps are never filled.
func ReadTemperature(f *content.File, ps *content.Problems) TemperatureSeries {
	series := TemperatureSeries{File: f.Path}
	s := content.OpenCSV(f, ps)
	if s == nil {
		return series
	}
	col := s.Match(TemperatureColumns, nil, ps)
	if col["water"].Index < 0 || col["date"].Index < 0 || col["kind"].Index < 0 {
		return series
	}
	type day struct {
		water, place string
		date         calendar.Date
	}
	seen := map[day]content.Place{}
	for row := range s.Rows(ps) {
		at := func(name string) content.Text { return row.Text(col[name].Index) }
		ok := true
		value := func(name string) (float64, bool) {
			t := at(name)
			if t.S == "" {
				return 0, false
			}
			c, read := celsius(t, col[name].Unit, ps)
			ok = ok && read
			return c, read
		}
		water, dateText := at("water"), at("date")
		if water.S == "" || dateText.S == "" {
			ps.Errorf("missing-cell", row.At, "fill in the water and the date", "this row lacks its water or its date")
			continue
		}
		date, err := calendar.ParseDate(dateText.S)
		if err != nil {
			ps.Refuse("bad-date", dateText, err)
			continue
		}
		switch kind := at("kind"); content.Fold(kind.S) {
		case "spot":
			spot := Spot{Water: water, Place: at("place"), Date: date, Time: calendar.NoClock, By: at("by").S, At: dateText.At}
			if t := at("time"); t.S != "" {
				if spot.Time, err = calendar.ParseClock(t.S); err != nil {
					ps.Refuse("bad-time", t, err)
					continue
				}
			} else {
				ps.Errorf("missing-cell", row.At, "give the time it was read", "this spot reading has no time")
				continue
			}
			var given bool
			if spot.Celsius, given = value("temperature"); !given {
				if ok {
					ps.Errorf("missing-cell", row.At, "give the temperature, or take the row out", "this spot reading has no temperature")
				}
				continue
			}
			series.Spots = append(series.Spots, spot)
		case "logger":
			d := LoggerDay{Water: water, Place: at("place"), Date: date, At: dateText.At}
			var lo, hi bool
			d.Min, lo = value("min")
			d.Max, hi = value("max")
			d.Mean, d.HasMean = value("mean")
			d.HasMinMax = lo && hi
			switch {
			case !ok:
				continue
			case lo != hi:
				ps.Errorf("missing-cell", row.At, "give both, or the mean alone", "this logger day has only one of its lowest and highest")
				continue
			case !d.HasMean && !d.HasMinMax:
				ps.Errorf("missing-cell", row.At, "give the mean, or lowest and highest, or take the row out", "this logger day has no temperature")
				continue
			case d.HasMinMax && d.Min > d.Max || d.HasMinMax && d.HasMean && (d.Mean < d.Min || d.Mean > d.Max):
				ps.Errorf("min-max", at("min").At, "check the three numbers", "lowest, mean and highest of this day are out of order")
				continue
			}
			key := day{content.Fold(water.S), content.Fold(d.Place.S), date}
			if first, twice := seen[key]; twice {
				ps.Clash("duplicate-day", dateText.At, first, "first here", "keep one of the two; two loggers need different places", "two logger rows stand for one water, place and day")
				continue
			}
			seen[key] = dateText.At
			series.Logger = append(series.Logger, d)
		default:
			where := kind.At
			if kind.S == "" {
				where = row.At
			}
			ps.Errorf("unknown-choice", where, "one of: spot, logger", "%q isn't a kind of temperature record%s", kind.S, content.DidYouMean(kind.S, []string{"spot", "logger"}))
		}
	}
	return series
}
