package view

// What the pages, the card and the booklet of a water say of it: facts, fishing seasons, hours of the sun.

import (
	"strings"
	"time"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content/calendar"
	"guidegen/rivers/daylight"
)

// SunRow is one event of the sun on the 15th of each month.
type SunRow struct {
	Event string
	Times []string
}

// SunRowsOf are those events alone, in the order of the day; none where the water has no place or no time zone.
func (p *Printer) SunRowsOf(w *figures.Water, wanted map[calendar.Sun]bool) []SunRow {
	if !w.HasSun() {
		return nil
	}
	var out []SunRow
	for _, e := range []struct {
		sun  calendar.Sun
		word string
		of   func(daylight.Day) daylight.Event
	}{
		{calendar.Dawn, "sun.dawn", func(d daylight.Day) daylight.Event { return d.Dawn }},
		{calendar.Sunrise, "sun.rise", func(d daylight.Day) daylight.Event { return d.Rise }},
		{calendar.Noon, "sun.noon", func(d daylight.Day) daylight.Event { return d.Noon }},
		{calendar.Sunset, "sun.set", func(d daylight.Day) daylight.Event { return d.Set }},
		{calendar.Dusk, "sun.dusk", func(d daylight.Day) daylight.Event { return d.Dusk }},
	} {
		if !wanted[e.sun] {
			continue
		}
		row := SunRow{Event: p.words.Plain(e.word)}
		for _, day := range w.Sun {
			at := e.of(day)
			text := p.words.Or("sun", at.Missing)
			if at.Missing == "" {
				text = at.Clock().String()
			}
			row.Times = append(row.Times, text)
		}
		out = append(out, row)
	}
	return out
}

// Fact is one line of the head.
type Fact struct {
	Name  string
	Text  string
	Range lang.Range
}

// SeasonView is the fishing season for one fish; the days are for the script, as 03-15.
type SeasonView struct {
	Fish             string
	Open, Close      lang.Date
	Shut, ShutTo     lang.Date // the close season
	OpenDay, LastDay string
	AllYear          bool
	Checked          lang.Date
	Stale            bool // checked more than a year before the build
	Note             string
}

// Facts are the lines at the head of a water.
func (p *Printer) Facts(w *figures.Water) []Fact {
	words := p.words
	var out []Fact
	add := func(word, text string) {
		if text != "" {
			out = append(out, Fact{Name: words.Plain("fact." + word), Text: text})
		}
	}
	if w.Kind != "" {
		add("kind", words.Or("kind", string(w.Kind)))
	}
	if a := p.Altitude(w.Altitude, w.Basis); a.Known() {
		out = append(out, Fact{Name: words.Plain("fact.altitude"), Range: a})
	}
	add("bed", w.Bed.S)
	var beats []string
	for _, b := range w.Beats {
		beats = append(beats, b.Name.S)
	}
	add("beats", strings.Join(beats, words.Plain("list.comma")))
	if w.HasPlace {
		add("place", w.Place.String())
	}
	if w.Zone != nil {
		add("zone", w.ZoneName)
	}
	var also []string
	for _, a := range w.Also {
		also = append(also, a.S)
	}
	add("also", strings.Join(also, words.Plain("list.comma")))
	return out
}

// ShutIn says for which fish a water is closed in a month, and on which of its days.
func (p *Printer) ShutIn(w *figures.Water, month time.Month) (out []string) {
	for _, s := range w.Seasons {
		if !s.Open.Valid() || !s.Close.Valid() || s.AllYear() {
			continue
		}
		runs := s.Rest().In(month)
		if len(runs) == 0 {
			continue
		}
		if len(runs) == 1 && calendar.Whole(month, runs[0]) {
			out = append(out, p.words.Plain("season.month_shut", "fish", s.Fish.S, "month", p.words.Month(int(month))))
			continue
		}
		var days []string
		for _, r := range runs {
			from, to := calendar.MonthDay{Month: month, Day: r[0]}, calendar.MonthDay{Month: month, Day: r[1]}
			text := p.words.Plain("date.range", "from", p.words.FirstDay(from).Text, "to", p.words.LastDay(to).Text)
			if r[0] == r[1] {
				text = p.words.FirstDay(from).Text
			}
			days = append(days, text)
		}
		out = append(out, p.words.Plain("season.days_shut", "fish", s.Fish.S, "days", p.words.List(days)))
	}
	return out
}

// Seasons are a water's fishing seasons, one for each fish.
func (p *Printer) Seasons(w *figures.Water) []SeasonView {
	var out []SeasonView
	for _, s := range w.Seasons {
		v := SeasonView{Fish: s.Fish.S, Open: p.words.FirstDay(s.Open), Close: p.words.LastDay(s.Close), Checked: p.words.DateOf(s.Checked), Note: s.Note.S}
		v.Stale = !s.Checked.IsZero() && !p.book.Built.IsZero() && p.book.Built.Sub(s.Checked) > 365
		if s.Open.Valid() && s.Close.Valid() {
			v.AllYear = s.AllYear()
			v.Shut, v.ShutTo = p.words.FirstDay(s.Rest().Open), p.words.LastDay(s.Rest().Close)
			if !v.AllYear {
				v.OpenDay, v.LastDay = s.Open.String(), s.Close.String()
			}
		}
		out = append(out, v)
	}
	return out
}
