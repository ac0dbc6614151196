package page

// A water's seasons side by side: each season's own middle dates, with their give or take.

import (
	"slices"
	"strconv"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
)

// SeasonsModel is the page.
type SeasonsModel struct {
	view.Frame
	Waters []WaterSeasons
}

// WaterSeasons is a water on which some flight has a middle date of its own in some season.
type WaterSeasons struct {
	Water   lang.Link
	Seasons []string
	Flights []MiddlesView
}

func (p *Printer) seasons() SeasonsModel {
	m := SeasonsModel{Frame: p.Frame("seasons", view.SeasonsPage, p.words.Plain("over.seasons"))}
	m.Description = p.words.Plain("over.about")
	m.Way = []lang.Link{p.Link(view.SeasonsPage, view.RecordsPage, p.words.Plain("foot.records"))}
	for _, w := range p.book.Waters {
		if seasons, flights := p.middlesOf(w); len(flights) > 0 {
			m.Waters = append(m.Waters, WaterSeasons{p.WaterLink(view.SeasonsPage, w), seasons, flights})
		}
	}
	return m
}

// MiddlesView is one flight of a fly: its middle date in each season, "" where the season has none.
type MiddlesView struct {
	Fly    lang.Link
	Flight string // where the fly has two
	Days   []string
}

// middlesOf puts a water's seasons side by side.
func (p *Printer) middlesOf(w *figures.Water) (seasons []string, out []MiddlesView) {
	for _, r := range w.Rows {
		for _, f := range r.Flights {
			for _, m := range f.Dates.BySeason {
				if !slices.Contains(seasons, m.Season) {
					seasons = append(seasons, m.Season)
				}
			}
		}
	}
	slices.Sort(seasons)
	for _, r := range w.Rows {
		for _, f := range r.Flights {
			if len(f.Dates.BySeason) == 0 {
				continue
			}
			v := MiddlesView{Fly: p.FlyLink(view.SeasonsPage, r.Fly), Days: make([]string, len(seasons))}
			if len(r.Flights) > 1 {
				v.Flight = f.Name
			}
			for _, m := range f.Dates.BySeason {
				v.Days[slices.Index(seasons, m.Season)] = p.words.Plain("over.day", "day", p.words.DayOf(m.P50), "n", strconv.Itoa(m.GiveOrTake))
			}
			out = append(out, v)
		}
	}
	return seasons, out
}
