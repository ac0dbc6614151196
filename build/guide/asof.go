package guide

// A preview: the guide as it would have read on an earlier day.

import (
	"io/fs"
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
)

// ReadAsOf reads a guide without whatever is dated later than a day, so that nothing later gets into a page or a
// figure. later says in words what was left out, "" for nothing.
func ReadAsOf(fsys fs.FS, day calendar.Date, ps *content.Problems) (g *Guide, later string, err error) {
	g, err = readAs(fsys, day, true, ps)
	if err != nil {
		return nil, "", err
	}
	return g, g.leaveOutLater(day), nil
}

// leaveOutLater takes out the records that are later than a day; one whose date is vague goes where its last day is
// later. What an account or a season says of its own checking is kept without a date that lies ahead.
func (g *Guide) leaveOutLater(day calendar.Date) string {
	var said []string
	count := func(n int, one string) {
		if n > 0 {
			said = append(said, content.Several(n, one))
		}
	}
	ahead := func(d calendar.Date) bool { return day.Before(d) }
	visits := keep(g.Visits, func(v *Visit) bool { return !ahead(v.When.To) })
	count(len(g.Visits)-len(visits), "visit")
	g.Visits = visits
	readings := 0
	for i := range g.Series {
		s := &g.Series[i]
		before := len(s.Spots) + len(s.Logger)
		s.Spots = keep(s.Spots, func(x rivers.Spot) bool { return !ahead(x.Date) })
		s.Logger = keep(s.Logger, func(x rivers.LoggerDay) bool { return !ahead(x.Date) })
		readings += before - len(s.Spots) - len(s.Logger)
	}
	count(readings, "reading")
	photos := keep(g.Photos, func(p *Photo) bool { return p.Shows.Date.IsZero() || !ahead(p.Shows.Date.To) })
	count(len(g.Photos)-len(photos), "photo")
	g.Photos = photos
	corrections := keep(g.Corrections, func(c Correction) bool { return !ahead(c.Date) })
	count(len(g.Corrections)-len(corrections), "correction")
	g.Corrections = corrections
	reviews := 0
	for _, a := range g.Accounts {
		if ahead(a.Reviewed) {
			a.Reviewed, a.ReviewedBy = calendar.Date{}, ""
			reviews++
		}
	}
	count(reviews, "review")
	checks := 0
	for _, w := range g.Waters {
		for i := range w.Seasons {
			if ahead(w.Seasons[i].Checked) {
				w.Seasons[i].Checked = calendar.Date{}
				checks++
			}
		}
	}
	count(checks, "season's check")
	return strings.Join(said, ", ")
}
