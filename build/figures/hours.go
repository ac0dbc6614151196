package figures

// Hours on the water by month and stage, in clock times (the guide's rules on
// figures, section 8).

import (
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
		out[i] = r.sunOn(w, i)
	}
	return out
}

func (r *reckoner) sunOn(w *Water, month int) daylight.Day {
	d := calendar.Date{Year: r.built.Year, Month: monthOf(month), Day: 15}
	return daylight.On(d, w.Place.Latitude.Degrees, w.Place.Longitude.Degrees, w.Zone)
}

// hours lists each stage's hours for the months in which one of its flights is
// on: a month is given where the flight's moved dates touch it.
func (r *reckoner) hours(row *Row) []HoursHere {
	a := row.Fly.Account
	var out []HoursHere
	for _, stage := range a.Group.Stages() {
		if !stage.OnTheWing() {
			continue
		}
		for _, sex := range sexesOf(a, stage) {
			for i := range 12 {
				for _, f := range row.Flights {
					if !touches(f, i) {
						continue
					}
					claim, ok := a.Hours.First(species.Words{Stage: stage, Sex: sex, Flight: f.Name})
					if !ok {
						continue
					}
					h := HoursHere{Stage: stage, Sex: sex, Flight: f.Name, Month: i + 1, Written: claim.Text,
						From: calendar.NoClock, To: calendar.NoClock, Basis: claim.Basis}
					r.clock(row.Water, claim.Value, i, &h)
					out = append(out, h)
				}
			}
		}
	}
	return out
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

func (r *reckoner) clock(w *Water, s calendar.Span, month int, h *HoursHere) {
	if s.From.Sun == calendar.NoSun && s.To.Sun == calendar.NoSun {
		h.From, h.To = calendar.Clock(s.From.Minutes), calendar.Clock(s.To.Minutes)
		return
	}
	if !w.HasPlace {
		h.SunWord = "no place"
		return
	}
	if w.Zone == nil {
		h.SunWord = "no time zone"
		return
	}
	d := calendar.Date{Year: r.built.Year, Month: monthOf(month), Day: 15}
	res := daylight.Resolve(s, d, w.Place.Latitude.Degrees, w.Place.Longitude.Degrees, w.Zone)
	h.From, h.To, h.SunWord = res.From, res.To, res.Missing
	h.Basis = h.Basis.With(content.On(content.Part{Ground: content.Published, Source: "sun"}))
}
