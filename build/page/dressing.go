package page

// Dressings: the list, and a page each with the recipe in the trade's order and where it is offered.

import (
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species/hook"
)

// DressingsModel is the list of dressings.
type DressingsModel struct {
	Frame
	Dressings []DressingLine
}

// DressingLine is one dressing of the list.
type DressingLine struct {
	Dressing Link
	Fishes   string
	For      string
	Sizes    string
}

// DressingModel is one dressing's page.
type DressingModel struct {
	Frame
	Also      string
	From      string
	Fishes    string
	FishBasis Basis
	For       []StandsForView
	Sizes     string
	Parts     []DressPart
	Coloured  bool
	Unsaid    bool // of a colour neither wet nor dry is said
	Notes     string
	Basis     Basis
	Uses      []UseView
}

// StandsForView is what a dressing stands for.
type StandsForView struct {
	Flies  []Link
	Groups string
	Stages string
}

// DressPart is one line of the recipe.
type DressPart struct {
	Part   string
	Of     string
	Swatch *SwatchView
}

// UseView is one fly for which the dressing is offered, with the waters.
type UseView struct {
	Fly    Link
	Stage  string
	Waters []UseWater
}

// UseWater is one water where it is.
type UseWater struct {
	Water       Link
	Flight      string
	Score       content.Figure
	Hook, Model string
}

func (p *Printer) dressingList() DressingsModel {
	m := DressingsModel{Frame: p.frame("dressings", DressingsPage, p.words.Plain("dressings.title"))}
	m.Description = p.words.Plain("dressings.description", "guide", p.settings().Name)
	for _, d := range p.book.Dressings {
		l := DressingLine{Dressing: p.dressingLink(DressingsPage, d), Fishes: p.fishes(d), Sizes: p.dressingSizes(d)}
		var who []string
		for _, s := range d.Dressing.For {
			for _, f := range s.Flies {
				who = append(who, f.S)
			}
			for _, g := range s.Groups {
				who = append(who, p.words.Or("groups_of", string(g)))
			}
		}
		slices.Sort(who)
		l.For = strings.Join(slices.Compact(who), p.words.Plain("list.comma"))
		m.Dressings = append(m.Dressings, l)
	}
	return m
}

func (p *Printer) fishes(d *figures.Dressing) string {
	var s []string
	for _, l := range d.Fishes {
		s = append(s, p.words.Or("level", string(l)))
	}
	return p.words.list(s)
}

func (p *Printer) dressingSizes(d *figures.Dressing) string {
	if d.SizesText.S != "" && len(d.Dressing.Sizes) == 0 {
		return d.SizesText.S
	}
	return hook.List(d.Dressing.Sizes)
}

func (p *Printer) dressing(d *figures.Dressing) DressingModel {
	at, w := dressingPage(d), p.words
	m := DressingModel{Frame: p.frame("dressing", at, d.Name.S), From: d.From.S, Fishes: p.fishes(d), FishBasis: p.basis(at, d.FishesBasis),
		Sizes: p.dressingSizes(d), Notes: d.Notes.S, Basis: p.basis(at, d.Basis)}
	m.Way = []Link{p.link(at, DressingsPage, w.Plain("nav.dressings"))}
	m.Description = w.Plain("dressing.description", "dressing", d.Name.S)
	var also []string
	for _, a := range d.Also {
		also = append(also, a.S)
	}
	m.Also = strings.Join(also, w.Plain("list.comma"))
	for _, s := range d.Dressing.For {
		v := StandsForView{}
		for _, f := range s.Flies {
			v.Flies = append(v.Flies, p.flyNamed(at, f.S))
		}
		var groups, stages []string
		for _, g := range s.Groups {
			groups = append(groups, w.Or("groups_of", string(g)))
		}
		for _, st := range s.Stages {
			stages = append(stages, p.caseOf(st, s.Sex, ""))
		}
		v.Groups, v.Stages = w.list(groups), w.list(stages)
		m.For = append(m.For, v)
	}
	for _, part := range d.Parts {
		dp := DressPart{Part: w.Or("dress_part", part.Part), Of: part.Of.S}
		if !part.Shade.Colour.IsZero() {
			s := p.swatch("", part.Shade)
			dp.Swatch, m.Coloured, m.Unsaid = &s, true, m.Unsaid || s.Unsaid
		}
		m.Parts = append(m.Parts, dp)
	}
	m.Uses = p.uses(at, d)
	return m
}

// uses joins the places where a dressing is offered by fly and stage, in page order.
func (p *Printer) uses(at string, d *figures.Dressing) []UseView {
	var out []UseView
	type key struct {
		fly   *figures.Fly
		stage string
	}
	place := map[key]int{}
	for _, u := range d.For {
		if u.Fly == nil {
			continue
		}
		stage := p.caseOf(u.Stage, u.Sex, "")
		k := key{u.Fly, stage}
		i, ok := place[k]
		if !ok {
			i = len(out)
			place[k] = i
			out = append(out, UseView{Fly: p.flyLink(at, u.Fly), Stage: stage})
		}
		if u.Water == nil {
			continue
		}
		uw := UseWater{Water: p.waterLink(at, u.Water)}
		if len(u.Fly.Account.Flights) > 1 {
			uw.Flight = u.Flight
		}
		if u.Offer.Size != nil {
			uw.Hook, uw.Model = u.Offer.Size.Hook.Size, u.Offer.Size.Hook.Model
		}
		uw.Score = content.NewFigure(u.Offer.Score, "", 0, ground(u.Fly.Basis))
		out[i].Waters = append(out[i].Waters, uw)
	}
	return out
}

// flyNamed is a link to the fly of a name, or the name alone where the guide has no such fly.
func (p *Printer) flyNamed(at, name string) Link {
	if f := p.flyByName[strings.ToLower(name)]; f != nil {
		return p.flyLink(at, f)
	}
	return Link{Text: name}
}
