package page

// The hours of each stage by the clock, each fly's in the middle of the month when it is likeliest, and the sun.

import (
	"html/template"
	"slices"
	"strconv"
	"time"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content/calendar"
	"guidegen/species"
)

// HoursView is a water's table of hours and its sun.
type HoursView struct {
	Zone   string
	Gist   string // "mid-May: sunset 21:40"
	Months []string
	Sun    []view.SunRow
	Flies  []HoursFly
}

// HoursFly is one fly's stages in one flight.
type HoursFly struct {
	Fly   lang.Link
	Month string // whose 15th the hours are of
	Rows  []HoursRow
	Count string // how many rows
}

// HoursRow is one stage: a bar, and the hours.
type HoursRow struct {
	Stage, Hours string
	SVG          template.HTML
}

func (p *Printer) hours(at string, w *figures.Water) *HoursView {
	h := HoursView{Zone: w.ZoneName}
	for i := 1; i <= 12; i++ {
		h.Months = append(h.Months, p.words.ShortMonth(i))
	}
	h.Sun = p.sunRows(w)
	for _, r := range w.Rows {
		for _, f := range p.hoursFlies(at, r) {
			if n := len(h.Flies); n > 0 && h.Flies[n-1].Fly == f.Fly && slices.Equal(h.Flies[n-1].Rows, f.Rows) {
				continue // another flight at the same hours
			}
			h.Flies = append(h.Flies, f)
		}
	}
	if len(h.Flies) == 0 && len(h.Sun) == 0 {
		return nil
	}
	return &h
}

func (p *Printer) sunRows(w *figures.Water) []view.SunRow {
	return p.SunRowsOf(w, map[calendar.Sun]bool{calendar.Sunrise: true, calendar.Sunset: true, calendar.Dusk: true})
}

// hoursFlies are a fly's hours, flight by flight.
func (p *Printer) hoursFlies(at string, r *figures.Row) []HoursFly {
	var out []HoursFly
	for _, f := range r.FlightsOf() {
		month := peakMonth(r, f)
		v := HoursFly{Fly: p.FlyLink(at, r.Fly), Month: p.words.Month(int(month))}
		date := calendar.Date{Year: p.book.Built.Year, Month: month, Day: 15}
		for _, stage := range r.Fly.Group.Stages() {
			for _, h := range r.HoursOn(date, stage, species.NoSex, f.Name) {
				v.Rows = append(v.Rows, p.hoursRow(r.Water, h))
			}
		}
		if len(v.Rows) > 0 {
			v.Count = strconv.Itoa(len(v.Rows))
			out = append(out, v)
		}
	}
	return out
}

// peakMonth is the month of a flight's most flies here.
func peakMonth(r *figures.Row, f figures.FlightHere) time.Month {
	if f.Peak.Valid() {
		return f.Peak.Month()
	}
	return max(r.Largest, 1).Month()
}

func (p *Printer) hoursRow(w *figures.Water, h figures.HoursHere) HoursRow {
	row := HoursRow{Stage: p.ShortCase(view.StageSex{Stage: h.Stage, Sex: h.Sex}), Hours: p.WithOthers(h, func(s figures.Stretch) string {
		if s.SunWord == figures.NoPlace || s.SunWord == figures.NoZone {
			return p.words.Span(s.Span)
		}
		return p.Clock(s)
	})}
	if h.SunWord == "" && h.From != calendar.NoClock && h.To != calendar.NoClock {
		rise, set := 0, 0
		if sun := w.Sun[max(h.Month, 1)-1]; w.HasSun() && sun.Rise.Missing == "" && sun.Set.Missing == "" {
			rise, set = int(sun.Rise.Clock()), int(sun.Set.Clock())
		}
		row.SVG = chart.Clock(int(h.From), int(h.To), rise, set)
	}
	return row
}
