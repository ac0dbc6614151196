package figures

// Hours on the water by month and stage, in clock times (the guide's rules on
// figures, section 8).

import (
	"slices"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/daylight"
	"guidegen/species"
)

// HasSun reports whether the sun's times can be told: on a clock that is not the
// water's own they would be hours wrong.
func (w *Water) HasSun() bool { return w.HasPlace && w.Zone != nil }

// sun gives the sun's times on the 15th of each month of the year built for.
func (r *reckoner) sun(w *Water) (out [12]daylight.Day) {
	if !w.HasSun() {
		return out
	}
	for i := range out {
		out[i] = w.sunOn(calendar.Date{Year: r.built.Year, Month: monthOf(i), Day: 15})
	}
	return out
}

// sunOn is the sun's day at the water, reckoned once: every fly with hours by the sun asks for every day.
func (w *Water) sunOn(date calendar.Date) daylight.Day {
	if d, ok := w.suns.Load(date); ok {
		return d.(daylight.Day)
	}
	d := daylight.On(date, w.Place.Latitude.Degrees, w.Place.Longitude.Degrees, w.Zone)
	w.suns.Store(date, d)
	return d
}

// hours lists each stage's hours for the months in which one of its flights is
// on: a month is given where the flight's moved dates touch it, or where a fly that isn't listed is on.
func (r *reckoner) hours(row *Row) []HoursHere {
	a := row.Fly.Account
	var out []HoursHere
	for _, stage := range a.Group.Stages() {
		if !stage.OnTheWing() {
			continue
		}
		for _, sex := range sexesOf(a, stage) {
			for i := range 12 {
				for _, f := range row.FlightsOf() {
					mid := calendar.Date{Year: r.built.Year, Month: monthOf(i), Day: 15}
					if h, ok := row.hours(mid, species.Words{Stage: stage, Sex: sex, Flight: f.Name}); ok && monthsOf(row, f.Name, i) {
						out = append(out, h)
					}
				}
			}
		}
	}
	return out
}

// HoursOn gives a stage's hours on one date in one of the flights here; two
// where the account tells the sexes apart and neither is asked for.
func (row *Row) HoursOn(date calendar.Date, stage species.Stage, sex species.Sex, flight string) []HoursHere {
	if !stage.OnTheWing() || !slices.ContainsFunc(row.FlightsOf(), func(f FlightHere) bool { return f.Name == flight }) {
		return nil
	}
	var out []HoursHere
	for _, s := range sexesOf(row.Fly.Account, stage) {
		if s != species.NoSex && sex != species.NoSex && s != sex {
			continue
		}
		if h, ok := row.hours(date, species.Words{Stage: stage, Sex: s, Flight: flight}); ok {
			out = append(out, h)
		}
	}
	return out
}

func (row *Row) hours(date calendar.Date, w species.Words) (HoursHere, bool) {
	h := HoursHere{Stage: w.Stage, Sex: w.Sex, Flight: w.Flight, Month: int(date.Month)}
	claims := row.Fly.Hours.For(w)
	for i, c := range claims {
		s := row.Water.stretch(c, date)
		if i == 0 {
			h.Stretch = s
		} else {
			h.Others = append(h.Others, s)
		}
	}
	return h, len(claims) > 0
}

// sexesOf gives the sexes whose hours an account tells apart in a stage.
func sexesOf(a *species.Account, stage species.Stage) []species.Sex {
	for _, c := range a.Hours {
		if c.Words.Sex != species.NoSex && (c.Words.Stage == stage || c.Words.Stage == species.NoStage) {
			return []species.Sex{species.Male, species.Female}
		}
	}
	return []species.Sex{species.NoSex}
}

// touches reports whether a moved flight has a day in a month.
func touches(f FlightHere, month int) bool {
	first, last := calendar.FirstOf(monthOf(month)), calendar.LastOf(monthOf(month))
	return calendar.Within(first, f.From, f.To) || calendar.Within(f.From, first, last)
}

// stretch turns hours as stated into clock times on a date.
func (w *Water) stretch(c species.Claim[calendar.Span], date calendar.Date) Stretch {
	s := w.HoursOn(c.Value, date)
	s.Written, s.Basis = c.Text, c.Basis.With(s.Basis)
	return s
}

// HoursOn is a span on one date by the water's clock. Against the sun it needs the water's place and time zone.
func (w *Water) HoursOn(span calendar.Span, date calendar.Date) Stretch {
	s := Stretch{Span: span, Start: calendar.NoClock, End: calendar.NoClock}
	switch {
	case !s.BySun():
		s.Start, s.End = calendar.Clock(span.From.Minutes), calendar.Clock(span.To.Minutes)
	case !w.HasPlace:
		s.SunWord = NoPlace
	case w.Zone == nil:
		s.SunWord = NoZone
	default:
		res := daylight.Resolve(span, date, w.Zone, w.sunOn)
		s.Start, s.End, s.SunWord = res.From, res.To, res.Missing
		s.Basis = content.On(content.Part{Ground: content.Published, Source: "sun"})
	}
	s.From, s.To = daylight.About(s.Span, s.Start, s.End)
	return s
}
