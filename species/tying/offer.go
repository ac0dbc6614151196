// Offers: the dressings that serve for a fly, scored by size, colour, place
// and name, with each part's share of the score.

package tying

import (
	"cmp"
	"math"
	"slices"

	"guidegen/species/colour"
)

// Weights are the parts' weights in the score, which need not sum to 1, and the limits of what is offered.
type Weights struct {
	Size, Colour, Place, Named float64
	OwnRatio                   float64 // best shank : body, either way, at most, of a dressing tied for the fly
	OtherRatio                 float64 // the same of one for its group or its kin
	MostDelta                  float64 // body ΔE₀₀ at most, of one for its group or its kin
	KinScore                   float64 // least score of one for its kin
}

// Defaults are the weights and limits of a guide that names none: our judgement.
func Defaults() Weights {
	return Weights{Size: 0.35, Colour: 0.35, Place: 0.20, Named: 0.10, OwnRatio: 1.40, OtherRatio: 1.25, MostDelta: 25, KinScore: 60}
}

// Part is one part of a score: its value, 0 to 1; its weight, 0 to 1, after
// the parts without data have dropped out; and the points it brings, which
// sum to the score.
type Part struct{ Value, Weight, Points float64 }

// SizePart: the dressing's size with the nearest shank; Longer is shank less length, mm.
type SizePart struct {
	Part
	Hook           Hook
	Length, Longer float64
}

// ColourPart: the parts of the body that both have, in the order body, wing,
// hackle or legs, tail.
type ColourPart struct {
	Part
	Parts []PartColour
}

// PartColour is the colour difference ΔE₀₀ of one part of the body; Weight is
// its weight among them (body 2, wing 1, hackle or legs 1, tail 0.5).
type PartColour struct {
	Name           string
	Weight, DeltaE float64
}

// PlacePart: the natural's level and the dressing's that come nearest.
type PlacePart struct {
	Part
	Natural, Dressing Level
}

// NamedPart: whether the dressing names the species or its group.
type NamedPart struct {
	Part
	By By
}

// Offer is a dressing with its score, 0 to 100. A part that is nil had no data.
type Offer struct {
	Name   string
	Score  float64
	Size   *SizePart
	Colour *ColourPart
	Place  *PlacePart
	Named  NamedPart
}

// Advice is what a box holds for a natural.
type Advice struct {
	Offered   []Offer     // tied for it, for its group, for its kin; each class by score, then name
	NotScored []NamedOnly // tied for it or its group, but neither size nor colour is known; by class, then name
	RuledOut  []RuledOut  // only dressings that name the fly or its group; by name
	Unknown   []Code      // habits that aren't known, and so rule nothing out
}

// NamedOnly is a dressing that names the fly or its group and can't be scored.
type NamedOnly struct {
	Name string
	By   By
}

// Consider sorts a box for one natural, in three classes: dressings tied for the fly in this stage, for its group,
// and for another fly of its group. One of another group is passed over.
func Consider(n Natural, box []Dressing, w Weights) Advice {
	a := Advice{Unknown: n.unknown()}
	for _, d := range box {
		by := d.class(n)
		if r, other := d.otherCase(n, by); other {
			a.RuledOut = append(a.RuledOut, RuledOut{d.Name, ByFly, []Reason{r}})
			continue
		}
		if by == ByNone {
			continue
		}
		o := score(n, d, by, w)
		if reasons := d.against(n, o, by, w); len(reasons) > 0 {
			if by != ByKin {
				a.RuledOut = append(a.RuledOut, RuledOut{d.Name, by, reasons})
			}
			continue
		}
		switch {
		case by != ByFly && o.bodyDelta() > w.MostDelta:
		case by == ByKin && (o.Size == nil || o.Colour == nil || o.Place == nil || o.Place.Value == 0 || settle(o.Score) < w.KinScore):
		case o.Size == nil && o.Colour == nil:
			a.NotScored = append(a.NotScored, NamedOnly{d.Name, by})
		case settle(o.Score) > 0: // else nothing in it agrees
			a.Offered = append(a.Offered, o)
		}
	}
	slices.SortStableFunc(a.Offered, func(x, y Offer) int {
		return cmp.Or(x.Named.By.Rank()-y.Named.By.Rank(), cmp.Compare(settle(y.Score), settle(x.Score)), cmp.Compare(x.Name, y.Name))
	})
	slices.SortStableFunc(a.NotScored, func(x, y NamedOnly) int {
		return cmp.Or(x.By.Rank()-y.By.Rank(), cmp.Compare(x.Name, y.Name))
	})
	slices.SortStableFunc(a.RuledOut, func(x, y RuledOut) int { return cmp.Compare(x.Name, y.Name) })
	return a
}

// Best is the best class that a box holds, ByNone where it holds nothing: a tying list takes no other.
func (a Advice) Best() By {
	best := ByNone
	for _, o := range a.Offered {
		if o.Named.By.Rank() < best.Rank() {
			best = o.Named.By
		}
	}
	for _, n := range a.NotScored {
		if n.By == ByFly {
			best = ByFly
		}
	}
	return best
}

// Barred reports whether nothing is offered for want of what the water's rules allow: but for them something would be.
func (a Advice) Barred() bool {
	return len(a.Offered)+len(a.NotScored) == 0 && slices.ContainsFunc(a.RuledOut, func(r RuledOut) bool {
		return len(r.Reasons) == 1 && r.Reasons[0].Code == NotAllowed
	})
}

// bodyDelta is ΔE₀₀ of the bodies; 0 where not known.
func (o Offer) bodyDelta() float64 {
	if o.Colour != nil {
		for _, p := range o.Colour.Parts {
			if p.Name == Body {
				return settle(p.DeltaE)
			}
		}
	}
	return 0
}

// score reckons
//
//	100 (w₁ size + w₂ colour + w₃ place + w₄ named) / (w₁ + w₂ + w₃ + w₄)
//
// over the parts that have data.
func score(n Natural, d Dressing, by By, w Weights) Offer {
	o := Offer{Name: d.Name, Size: bySize(n, d), Colour: byColour(n, d), Place: byPlace(n, d), Named: byName(by)}
	type weighed struct {
		*Part
		weight float64
	}
	parts := []weighed{{&o.Named.Part, w.Named}}
	if o.Size != nil {
		parts = append(parts, weighed{&o.Size.Part, w.Size})
	}
	if o.Colour != nil {
		parts = append(parts, weighed{&o.Colour.Part, w.Colour})
	}
	if o.Place != nil {
		parts = append(parts, weighed{&o.Place.Part, w.Place})
	}
	var total float64
	for _, p := range parts {
		total += p.weight
	}
	for _, p := range parts {
		if total > 0 {
			p.Weight = p.weight / total
		}
		p.Points = 100 * float64(p.Weight*p.Value)
		o.Score += p.Points
	}
	return o
}

// bySize is 1 - |log₂(shank / length)| / 0.5, floored at 0, for the size with the nearest shank, as hooks are suggested
// (the guide's rules on figures, section 9); a tie goes to the smaller hook, then to the model's name.
func bySize(n Natural, d Dressing) *SizePart {
	if !(n.Length > 0) {
		return nil
	}
	var best *SizePart
	var least float64
	for _, h := range d.Hooks {
		if !(h.Shank > 0) {
			continue
		}
		off := settle(math.Abs(h.Shank - n.Length))
		if best == nil || cmp.Or(
			cmp.Compare(off, least),
			cmp.Compare(h.Step, best.Hook.Step),
			cmp.Compare(h.Model, best.Hook.Model)) < 0 {
			value := max(0, 1-math.Abs(math.Log2(h.Shank/n.Length))/0.5)
			best, least = &SizePart{Part{Value: value}, h, n.Length, h.Shank - n.Length}, off
		}
	}
	return best
}

// colourParts are compared in this order. A hackle stands for the legs: the
// one is compared with the other, the hackle first where both are given.
var colourParts = []struct {
	weight float64
	names  []string
}{{2, []string{Body}}, {1, []string{Wing}}, {1, []string{Hackle, Legs}}, {0.5, []string{Tail}}}

// byColour is 1 - min(ΔE₀₀, 40) / 40, the weighted mean over the parts both have.
func byColour(n Natural, d Dressing) *ColourPart {
	var c ColourPart
	var sum, weights float64
	for _, p := range colourParts {
		a, _, ok1 := first(n.Colours, p.names)
		b, name, ok2 := first(d.Colours, p.names)
		if !ok1 || !ok2 {
			continue
		}
		delta := colour.Difference(a, b)
		c.Parts = append(c.Parts, PartColour{name, p.weight, delta})
		sum += float64(p.weight * (1 - min(delta, 40)/40))
		weights += p.weight
	}
	if weights == 0 {
		return nil
	}
	c.Value = sum / weights
	return &c
}

func first(colours map[string]colour.Lab, names []string) (colour.Lab, string, bool) {
	for _, name := range names {
		if lab, ok := colours[name]; ok {
			return lab, name, true
		}
	}
	return colour.Lab{}, "", false
}

// byPlace is 1 at the natural's own level, 0.5 at the next, else 0: the best
// of the levels; of two as good the first given.
func byPlace(n Natural, d Dressing) *PlacePart {
	var best *PlacePart
	for _, x := range n.Levels {
		for _, y := range d.Levels {
			var value float64
			switch x - y {
			case 0:
				value = 1
			case 1, -1:
				value = 0.5
			}
			if best == nil || value > best.Value {
				best = &PlacePart{Part{Value: value}, x, y}
			}
		}
	}
	return best
}

// byName is 1 for the species, 0.5 for its group, else 0; it always has data.
func byName(by By) NamedPart {
	p := NamedPart{By: by}
	switch by {
	case ByFly:
		p.Value = 1
	case ByGroup:
		p.Value = 0.5
	}
	return p
}
