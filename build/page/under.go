package page

// Larvae, pupae and shed skins by month: counts that never feed a chance on the wing.

import (
	"strconv"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
)

// UnderView is one kind of larvae by one method on a water.
type UnderView struct {
	Fly    lang.Link // without an address for a coarser taxon
	What   string    // stage, method and depth
	Months []string  // "April 12 (2)", of the months in which somebody looked
}

func (p *Printer) under(w *figures.Water) (out []UnderView) {
	for _, r := range w.Coverage.Under {
		v := UnderView{Fly: lang.Link{Text: r.Name}, What: p.words.Or("protocol", r.Method)}
		if r.Stage != "" {
			v.What = p.words.Or("stage", r.Stage) + p.words.Plain("list.comma") + v.What
		}
		if r.Depth != "" {
			v.What += p.words.Plain("list.comma") + p.words.Plain("under.depth", "depth", r.Depth)
		}
		for _, f := range p.book.Flies {
			if f.Address == r.Fly {
				v.Fly = p.FlyLink(view.RecordsPage, f)
			}
		}
		for i, m := range r.Months {
			if m.Samples > 0 {
				v.Months = append(v.Months, p.words.Plain("under.cell", "month", p.words.Month(i+1), "n", strconv.Itoa(m.N), "samples", strconv.Itoa(m.Samples)))
			}
		}
		out = append(out, v)
	}
	return out
}
