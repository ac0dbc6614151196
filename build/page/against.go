package page

// Records against accounts, for those who look after the guide: on the members' records page.

import (
	"strconv"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
)

// AgainstView is one flight of a fly on one water.
type AgainstView struct {
	Water, Fly         lang.Link
	Flight             string // where the fly has several
	Account            string // the peak, as moved
	Middle             string // of the finds; "" where the records give none
	GiveOrTake, Visits content.Figure
	Seasons            string
	Apart              string
	Differ             bool
	Sizes              []AgainstSize
	Lines              []AgainstLine
}

// AgainstSize is one stage as measured; Off is by how much the middle lies outside the account's, in words.
type AgainstSize struct {
	Stage     string
	Median, N content.Figure
	Account   string
	Off, Hook string
}

// AgainstLine is a line of YAML and the file it is for.
type AgainstLine struct{ File, Text string }

func (p *Printer) against() []AgainstView {
	var out []AgainstView
	for _, w := range p.book.Waters {
		for _, row := range w.Rows {
			for _, a := range row.Against {
				out = append(out, p.againstView(w, row, a))
			}
		}
	}
	return out
}

func (p *Printer) againstView(w *figures.Water, row *figures.Row, a figures.Against) AgainstView {
	words, d := p.words, a.Flight.Dates
	v := AgainstView{Water: p.WaterLink(view.RecordsPage, w), Fly: p.FlyLink(view.RecordsPage, row.Fly), Account: words.DayOf(a.Flight.Peak).Text, Differ: a.Differ}
	if len(row.Flights) > 1 {
		v.Flight = a.Flight.Name
	}
	if a.Dates {
		b := view.OwnVisits(w.Name.S, d.Visits, len(d.Seasons))
		v.Middle, v.GiveOrTake, v.Visits, v.Seasons = words.DayOf(d.P50).Text, content.Count(d.GiveOrTake, "days", b), view.Count(d.Visits, b), words.Seasons(d.Seasons)
		switch {
		case a.Days > 0:
			v.Apart = words.Plain("against.later", "n", strconv.Itoa(a.Days))
		case a.Days < 0:
			v.Apart = words.Plain("against.earlier", "n", strconv.Itoa(-a.Days))
		default:
			v.Apart = words.Plain("against.same")
		}
	}
	if a.Line != "" {
		v.Lines = append(v.Lines, AgainstLine{w.At.File, a.Line})
	}
	for _, z := range a.Sizes {
		s := AgainstSize{Stage: p.CaseOf(z.Stage, z.Sex, ""), Median: p.Length(z.Median, max(1, z.Digits), z.Basis), N: view.Count(z.N, z.Basis)}
		s.Account = words.Range(p.Lengths(z.From, z.To, 1, content.Basis{}))
		switch off := words.Amount(p.Length(max(z.Off, -z.Off), 1, z.Basis)); {
		case z.Off > 0:
			s.Off = words.Plain("against.longer", "by", off)
		case z.Off < 0:
			s.Off = words.Plain("against.shorter", "by", off)
		}
		if z.Hook != nil && z.Was != nil && z.Hook.Size != z.Was.Size {
			s.Hook = words.Plain("against.hook", "now", p.HookSize(z.Hook.Suggestion), "was", p.HookSize(*z.Was))
		}
		v.Sizes = append(v.Sizes, s)
		if z.Line != "" {
			v.Lines = append(v.Lines, AgainstLine{row.Fly.Name.At.File, "length: {" + z.Line + "}"})
		}
	}
	return v
}
