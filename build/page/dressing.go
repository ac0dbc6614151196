package page

// Dressings: the list, and a page each with the recipe in the order in which it is tied and where it is offered.

import (
	"cmp"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/species/tying"
)

// DressingsModel is the list of dressings.
type DressingsModel struct {
	view.Frame
	Dressings []DressingLine
}

// DressingLine is one dressing of the list.
type DressingLine struct {
	Dressing lang.Link
	Fishes   string
	For      string
	Stages   string // "dun", "female spinner"; "" where none is said
	Sizes    string
}

// DressingModel is one dressing's page.
type DressingModel struct {
	view.Frame
	Also      string
	From      string
	Fishes    string
	FishBasis view.Basis
	For       []StandsForView
	Sizes     string
	Parts     []view.DressPart
	Coloured  bool
	Unsaid    bool // of a colour neither wet nor dry is said
	Notes     string
	Basis     view.Basis
	Paired    *PairedView
	Uses      []UseView
	Near      []UseView // by size and colour alone: tied for other flies of the group
	Ruled     []RuledFly
}

// StandsForView is what a dressing stands for.
type StandsForView struct {
	Flies  []lang.Link
	Groups string
	Stages string
}

// UseView is a hook, and the flies that the dressing is tied on it for.
type UseView struct {
	Hook  string // "" where none is known
	Flies []UseFly
}

// UseFly is a fly in a stage; the waters are named where not all want this hook.
type UseFly struct {
	Fly           lang.Link
	Stage, Waters string
}

// RuledFly is a fly that the dressing names and yet isn't for in a stage, with one reason.
type RuledFly struct {
	Fly    lang.Link
	Case   string
	Waters string // where it is for that stage on others
	Reason string
}

func (p *Printer) dressingList() DressingsModel {
	m := DressingsModel{Frame: p.Frame("dressings", view.DressingsPage, p.words.Plain("dressings.title"))}
	m.Description = p.words.Plain("dressings.description", "guide", p.Settings().Name)
	for _, d := range p.book.Dressings {
		l := DressingLine{Dressing: p.DressingLink(view.DressingsPage, d), Fishes: p.Fishes(d), Sizes: p.DressingSizes(d)}
		var who, stages []string
		for _, s := range d.Dressing.For {
			for _, st := range s.Stages {
				stages = append(stages, p.CaseOf(st, s.Sex, ""))
			}
			for _, f := range s.Flies {
				who = append(who, f.S)
			}
			for _, g := range s.Groups {
				who = append(who, p.words.Or("groups_of", string(g)))
			}
		}
		slices.Sort(who)
		l.For, l.Stages = strings.Join(slices.Compact(who), p.words.Plain("list.comma")), p.words.List(slices.Compact(stages))
		m.Dressings = append(m.Dressings, l)
	}
	return m
}

func (p *Printer) dressing(d *figures.Dressing) DressingModel {
	at, w := view.DressingPage(d), p.words
	m := DressingModel{Frame: p.Frame("dressing", at, d.Name.S), From: d.From.S, Fishes: p.Fishes(d), FishBasis: p.Basis(at, d.FishesBasis),
		Sizes: p.DressingSizes(d), Notes: d.Notes.S, Basis: p.Basis(at, d.Basis)}
	m.Way = []lang.Link{p.Link(at, view.DressingsPage, w.Plain("nav.dressings"))}
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
			stages = append(stages, p.CaseOf(st, s.Sex, ""))
		}
		v.Groups, v.Stages = w.List(groups), w.List(stages)
		m.For = append(m.For, v)
	}
	m.Parts = p.Recipe(d)
	for _, part := range m.Parts {
		if part.Swatch != nil {
			m.Coloured, m.Unsaid = true, m.Unsaid || part.Swatch.Unsaid
		}
	}
	m.Paired, m.Uses, m.Near, m.Ruled = p.paired(at, d), p.uses(at, d, false), p.uses(at, d, true), p.ruledOut(at, d)
	return m
}

// uses are the flies that a dressing is offered for by the hook it is tied on, largest first. A fly whose waters
// agree stands once; else each hook names its waters. Those that it is only near by size and colour are a list of their own.
func (p *Printer) uses(at string, d *figures.Dressing, near bool) []UseView {
	type use struct {
		fly         *figures.Fly
		stage, hook string
		step        float64
		waters      []string
	}
	var all []use
	for _, u := range d.For {
		if u.Fly == nil || near != (u.Offer.Named.By == tying.ByKin) {
			continue
		}
		flight := u.Flight
		if len(u.Fly.Account.Flights) < 2 {
			flight = ""
		}
		x := use{fly: u.Fly, stage: p.CaseOf(u.Stage, u.Sex, flight)}
		if u.Offer.Size != nil {
			x.hook, x.step = p.HookText(u.Offer.Size.Hook), u.Offer.Size.Hook.Step
		}
		i := slices.IndexFunc(all, func(o use) bool { return o.fly == x.fly && o.stage == x.stage && o.hook == x.hook })
		if i < 0 {
			i = len(all)
			all = append(all, x)
		}
		if u.Water != nil && !slices.Contains(all[i].waters, u.Water.Name.S) {
			all[i].waters = append(all[i].waters, u.Water.Name.S)
		}
	}
	slices.SortStableFunc(all, func(a, b use) int { return cmp.Compare(b.step, a.step) })
	var out []UseView
	for _, x := range all {
		f := UseFly{Fly: p.FlyLink(at, x.fly), Stage: x.stage}
		several := 0
		for _, o := range all {
			if o.fly == x.fly && o.stage == x.stage {
				several++
			}
		}
		if several > 1 {
			f.Waters = strings.Join(x.waters, p.words.Plain("list.comma"))
		}
		if n := len(out); n == 0 || out[n-1].Hook != x.hook {
			out = append(out, UseView{Hook: x.hook})
		}
		v := &out[len(out)-1]
		v.Flies = append(v.Flies, f)
	}
	return out
}

// ruledOut are the flies that a dressing names and is ruled out for, stage by stage, with the first reason; that it
// is for another stage of them stands above.
func (p *Printer) ruledOut(at string, d *figures.Dressing) []RuledFly {
	var out []RuledFly
	for _, f := range p.book.Flies {
		for _, r := range f.Rows {
			for _, sd := range r.Dressings {
				for _, x := range sd.Advice.RuledOut {
					if x.Name != d.Name.S || len(x.Reasons) == 0 || x.Reasons[0].Code == tying.OtherStage {
						continue
					}
					v := RuledFly{Fly: p.FlyLink(at, f), Case: p.CaseOf(sd.Stage, sd.Sex, ""), Reason: p.Reason(x.Reasons[0])}
					i := slices.IndexFunc(out, func(o RuledFly) bool { return o.Fly == v.Fly && o.Case == v.Case })
					elsewhere := slices.ContainsFunc(d.For, func(u figures.DressingUse) bool { return u.Fly == f && u.Stage == sd.Stage && u.Sex == sd.Sex })
					switch {
					case i < 0:
						if elsewhere {
							v.Waters = r.Water.Name.S
						}
						out = append(out, v)
					case elsewhere && !strings.Contains(out[i].Waters, r.Water.Name.S):
						out[i].Waters += p.words.Plain("list.comma") + r.Water.Name.S
					}
				}
			}
		}
	}
	return out
}

// flyNamed is a link to the fly of a name, or the name alone where the guide has no such fly.
func (p *Printer) flyNamed(at, name string) lang.Link {
	if f := p.FlyByName[strings.ToLower(name)]; f != nil {
		return p.FlyLink(at, f)
	}
	return lang.Link{Text: name}
}
