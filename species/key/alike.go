// Look-alikes: which flies could be taken for each other, in what order, and what separates each pair: section 11 of
// the rules on figures. No score leaves this file: a per cent beside a name would read as a match.

package key

import (
	"cmp"
	"slices"

	"guidegen/content/calendar"
	"guidegen/species/colour"
)

// AlikeSettings are the limits of look-alikes: our judgement, tried on two faunas.
type AlikeSettings struct {
	Most       float64 // look-alikes beside those that an account names
	Likeness   float64 // the least of them
	MeetWithin float64 // days by which two flights may lie apart and still meet
	Overlap    float64 // share of the shorter season in common that lets two flies meet all the same
	Times      float64 // a middle length so many times the other's is told at a glance
	Glance     float64 // body ΔE₀₀ told at a glance
	Apart      float64 // mm by which ranges of length lie apart to separate
	Telling    float64 // characters known for both, below which not enough is known to say
}

// DefaultAlike are the limits of a guide that names none.
func DefaultAlike() AlikeSettings {
	return AlikeSettings{Most: 3, Likeness: 0.5, MeetWithin: 15, Overlap: 0.2, Times: 1.5, Glance: 25, Apart: 0.5, Telling: 4}
}

// Flight is one flight as two dates can be had of it: moved to a water, and as the account gives it.
type Flight struct {
	Name           string
	Moved, Account Run
	LengthsByForm  map[Form][]Measure // the account's, by what was measured
}

// Run is a run of days.
type Run struct{ From, To calendar.Day }

// Measure is a length in mm and what it measures.
type Measure struct {
	Low, High float64
	Part      string
	Memory    bool // from memory alone
}

// Mid is the middle of a range.
func (m Measure) Mid() float64 { return (m.Low + m.High) / 2 }

// Season is a fly on the water (or in the whole guide) as look-alikes take it.
type Season struct {
	*Fly
	Flights []Flight
	Curve   []float64       // the account's chance by day, moved and softened
	Names   map[string]bool // IDs of flies that its account warns of
}

// Verdict says how a pair can be told apart.
type Verdict int

// The verdicts.
const (
	InTheHand    Verdict = iota
	InTheHandBut         // in more than half of the forms
	SomeForms            // in some forms
	OnlyHelp             // nothing separates, but size or colour help
	NotInTheHand         // nothing separates or helps
	NotEnough            // too little is known of both
	AnotherKind          // they have no form in common
)

// Separator is what the two of a pair never agree in, or, where it only helps, mostly.
type Separator struct {
	Character string // of the vocabulary; LengthCharacter or ShadeCharacter
	Part      string // of a colour: body, wing, legs
	Needs     Needs
	Forms     []Form // in which it separates
	Flight    string // a length that separates in this flight alone; "" in all compared
	Memory    bool   // it rests on memory alone, on either side
	A, B      Side
}

// Side is what one fly of a pair shows.
type Side struct {
	States []string
	Length Measure
	Colour Tint
}

// Names of the characters that no vocabulary has.
const (
	LengthCharacter = "length"
	ShadeCharacter  = "shade"
)

// LookAlike is one fly that could be taken for another.
type LookAlike struct {
	ID, Name  string
	Named     bool // one of the two accounts warns of it
	Meet      bool // they are on the wing together
	Apart     int  // else: days between their nearest flights
	Separates []Separator
	Helps     []Separator
	Verdict   Verdict
	Covered   []Form // forms of the verdicts InTheHandBut and SomeForms
	likeness  float64
	sameShape bool
	NoForm    bool // not compared: one of the two has no wings
}

// pair is two flights, by their places.
type pair struct{ a, b, apart int }

// pairs lists the pairs of flights that meet, nearest first, or all where none does, and the distance in days of
// the nearest: by moved or by the accounts' own dates, whichever lie nearer.
func pairs(a, b Season, set AlikeSettings) (l []pair, meet bool, nearest int) {
	nearest = calendar.Year
	var all []pair
	for i, x := range a.Flights {
		for j, y := range b.Flights {
			d := min(apartDays(x.Moved, y.Moved), apartDays(x.Account, y.Account))
			all = append(all, pair{i, j, d})
			nearest = min(nearest, d)
		}
	}
	slices.SortStableFunc(all, func(x, y pair) int { return x.apart - y.apart })
	for _, p := range all {
		if float64(p.apart) <= set.MeetWithin {
			l = append(l, p)
		}
	}
	if len(l) == 0 {
		return all, false, nearest
	}
	return l, true, nearest
}

// apartDays is 0 where two runs share a day; a run without dates is half a year from any other.
func apartDays(a, b Run) int {
	if a.From == 0 || b.From == 0 {
		return calendar.Year / 2
	}
	if calendar.Within(a.From, b.From, b.To) || calendar.Within(b.From, a.From, a.To) {
		return 0
	}
	return min(calendar.Fwd(a.To, b.From), calendar.Fwd(b.To, a.From))
}

// Overlap is Σ min(p₁,p₂) / min(Σp₁,Σp₂), 0 where a curve is nought throughout.
func Overlap(p1, p2 []float64) float64 {
	var both, s1, s2 float64
	for i := range min(len(p1), len(p2)) {
		both += min(p1[i], p2[i])
	}
	for _, p := range p1 {
		s1 += p
	}
	for _, p := range p2 {
		s2 += p
	}
	if least := min(s1, s2); least > 0 {
		return both / least
	}
	return 0
}

// comparison is a pair under way.
type comparison struct {
	guide  *Guide
	set    AlikeSettings
	a, b   Season
	forms  []Form // in common
	meets  []pair
	within bool
	near   int
}

func (g *Guide) compare(a, b Season, set AlikeSettings) *comparison {
	c := &comparison{guide: g, set: set, a: a, b: b}
	for _, f := range a.Fly.Forms {
		if b.Fly.has(f) {
			c.forms = append(c.forms, f)
		}
	}
	c.meets, c.within, c.near = pairs(a, b, set)
	return c
}

// lengths gives both flies' lengths in a form, of the nearest pair of flights compared that has them measured alike.
func (c *comparison) lengths(f Form) (a, b Measure, ok bool) {
	for _, p := range c.meets {
		for _, x := range c.a.Flights[p.a].LengthsByForm[f] {
			for _, y := range c.b.Flights[p.b].LengthsByForm[f] {
				if x.Part == y.Part && x.High > 0 && y.High > 0 {
					return x, y, true
				}
			}
		}
	}
	return a, b, false
}

func ratio(a, b Measure) float64 { return settle(max(a.Mid(), b.Mid()) / min(a.Mid(), b.Mid())) }

func delta(a, b *Fly, f Form, part string) (float64, bool) {
	x, okA := a.Colours[f][part]
	y, okB := b.Colours[f][part]
	if !okA || !okB {
		return 0, false
	}
	return settle(colour.Difference(x.Lab, y.Lab)), true
}

// states are both flies' states of a character in a form, where both are known.
func states(c Character, a, b *Fly, f Form) (x, y []string, ok bool) {
	x, y = a.States[f][c.Name], b.States[f][c.Name]
	return x, y, len(x) > 0 && len(y) > 0
}

// shape reports whether wing posture and pairs of wings disagree in a form known for both, agree in none known for
// both, and whether each is known for both in some form.
func (c *comparison) shape() (disagrees, never, known bool) {
	known = true
	for _, role := range []Role{Posture, Pairs} {
		ch, has := c.guide.Vocabulary.role(role)
		if !has {
			known = false
			continue
		}
		n, agree := 0, 0
		for _, f := range c.forms {
			if x, y, ok := states(ch, c.a.Fly, c.b.Fly, f); ok {
				n++
				if meet(x, y) {
					agree++
				}
			}
		}
		disagrees = disagrees || agree < n
		never = never || n > 0 && agree == 0
		known = known && n > 0
	}
	return disagrees, never, known
}

// atAGlance reports whether a pair can't be mistaken: another kind of fly, another build, far off in colour or size.
func (c *comparison) atAGlance() bool {
	if len(c.forms) == 0 {
		return true
	}
	if _, never, _ := c.shape(); never {
		return true
	}
	inAll := func(test func(f Form) (bool, bool)) bool {
		n := 0
		for _, f := range c.forms {
			if far, known := test(f); known {
				if !far {
					return false
				}
				n++
			}
		}
		return n > 0
	}
	return inAll(func(f Form) (bool, bool) {
		d, ok := delta(c.a.Fly, c.b.Fly, f, Body)
		return d >= c.set.Glance, ok
	}) || inAll(func(f Form) (bool, bool) {
		a, b, ok := c.lengths(f)
		return ok && ratio(a, b) >= c.set.Times, ok
	})
}

// Weights of likeness: our judgement.
const (
	lengthWeight, colourWeight = 2.0, 2.0
	closeDelta, farDelta       = 5.0, 25.0
)

var partWeights = []struct {
	part   string
	weight float64
}{{Body, 3}, {Wing, 1}, {Legs, 0.5}}

// likeness is Σ weight·s / Σ weight over what is known for both; 0 where nothing is.
func (c *comparison) likeness() float64 {
	var sum, weights float64
	var s []float64
	for _, f := range c.forms {
		if a, b, ok := c.lengths(f); ok {
			s = append(s, max(0, 2-ratio(a, b)))
		}
	}
	if len(s) > 0 {
		sum, weights = sum+lengthWeight*mean(s), weights+lengthWeight
	}
	s = nil
	for _, f := range c.forms {
		var in, w float64
		for _, p := range partWeights {
			if d, ok := delta(c.a.Fly, c.b.Fly, f, p.part); ok {
				in += p.weight * min(1, max(0, (farDelta-d)/(farDelta-closeDelta)))
				w += p.weight
			}
		}
		if w > 0 {
			s = append(s, in/w)
		}
	}
	if len(s) > 0 {
		sum, weights = sum+colourWeight*mean(s), weights+colourWeight
	}
	for _, ch := range c.guide.Vocabulary {
		var w, ws []float64
		for _, f := range c.forms {
			x, y, ok := states(ch, c.a.Fly, c.b.Fly, f)
			if !ok {
				continue
			}
			weight := [...]float64{1, 0.5, 0}[ch.Needs]
			same := 0.0
			if shared := common(x, y); len(shared) > 0 {
				same = 1
				weight *= 1 - max(c.guide.share(c.a.Group, ch, f, shared), c.guide.share(c.b.Group, ch, f, shared))
			}
			w, ws = append(w, weight), append(ws, weight*same)
		}
		if len(w) > 0 {
			sum, weights = sum+mean(ws), weights+mean(w)
		}
	}
	if weights == 0 {
		return 0
	}
	return settle(sum / weights)
}

func mean(l []float64) float64 {
	var sum float64
	for _, x := range l {
		sum += x
	}
	return sum / float64(len(l))
}

func common(a, b []string) []string {
	var l []string
	for _, w := range a {
		if slices.Contains(b, w) {
			l = append(l, w)
		}
	}
	return l
}

// separators lists what separates a pair, and what helps without deciding, easiest first: by need, not from memory
// before memory, then length, colour and the vocabulary's order.
func (c *comparison) separators() (separates, helps []Separator) {
	sep, help := c.byLength()
	separates, helps = append(separates, sep...), append(helps, help...)
	sep, help = c.byColour()
	separates, helps = append(separates, sep...), append(helps, help...)
	for _, ch := range c.guide.Vocabulary {
		s := Separator{Character: ch.Name, Needs: ch.Needs}
		for _, f := range c.forms {
			if x, y, ok := states(ch, c.a.Fly, c.b.Fly, f); ok && !meet(x, y) {
				s.Memory = s.Memory || c.a.Fly.memory(f, ch.Name) || c.b.Fly.memory(f, ch.Name)
				if len(s.Forms) == 0 {
					s.A.States, s.B.States = x, y
				}
				s.Forms = append(s.Forms, f)
			}
		}
		if len(s.Forms) > 0 {
			separates = append(separates, s)
		}
	}
	slices.SortStableFunc(separates, func(x, y Separator) int {
		return cmp.Or(cmp.Compare(x.Needs, y.Needs), cmp.Compare(boolInt(x.Memory), boolInt(y.Memory)))
	})
	return separates, helps
}

// byLength: always longer or shorter where in every form the ranges lie apart, in every pair of flights compared or
// in one alone; else mostly, where they share at most half of the shorter.
func (c *comparison) byLength() (separates, helps []Separator) {
	type measured struct {
		f    Form
		p    pair
		a, b Measure
	}
	var all []measured
	for _, f := range c.forms {
		for _, p := range c.meets {
			for _, x := range c.a.Flights[p.a].LengthsByForm[f] {
				for _, y := range c.b.Flights[p.b].LengthsByForm[f] {
					if x.Part == y.Part {
						all = append(all, measured{f, p, x, y})
					}
				}
			}
		}
	}
	if len(all) == 0 {
		return nil, nil
	}
	off := func(m measured) float64 {
		return settle(max(m.a.Low-m.b.High, m.b.Low-m.a.High))
	}
	holds := func(test func(measured) bool, only *pair) (Separator, bool) {
		s := Separator{Character: LengthCharacter}
		var sign float64
		for _, m := range all {
			if only != nil && m.p != *only {
				continue
			}
			way := settle(m.a.Mid() - m.b.Mid())
			if !test(m) || sign*way < 0 {
				return s, false
			}
			sign = way
			if len(s.Forms) == 0 {
				s.A.Length, s.B.Length = m.a, m.b
			} else if s.A.Length.Part == m.a.Part {
				s.A.Length = wide(s.A.Length, m.a)
				s.B.Length = wide(s.B.Length, m.b)
			}
			s.Memory = s.Memory || m.a.Memory || m.b.Memory
			if !slices.Contains(s.Forms, m.f) {
				s.Forms = append(s.Forms, m.f)
			}
		}
		return s, len(s.Forms) > 0
	}
	always := func(m measured) bool { return off(m) >= c.set.Apart }
	if s, ok := holds(always, nil); ok {
		return []Separator{s}, nil
	}
	for _, p := range c.meets {
		if s, ok := holds(always, &p); ok && len(c.a.Flights) > 1 {
			s.Flight = c.a.Flights[p.a].Name
			return []Separator{s}, nil
		}
	}
	mostly := func(m measured) bool {
		shared := min(m.a.High, m.b.High) - max(m.a.Low, m.b.Low)
		shorter := min(m.a.High-m.a.Low, m.b.High-m.b.Low)
		return settle(m.a.Mid()-m.b.Mid()) != 0 && settle(shared-shorter/2) <= 0
	}
	if s, ok := holds(mostly, nil); ok {
		return nil, []Separator{s}
	}
	return nil, nil
}

func wide(a, b Measure) Measure {
	a.Low, a.High = min(a.Low, b.Low), max(a.High, b.High)
	return a
}

// byColour: a body far off separates in the living fly; one less far off, or wings and legs, help.
func (c *comparison) byColour() (separates, helps []Separator) {
	const surely, maybe = 20, 10
	for _, p := range partWeights {
		sep, help := Separator{Character: ShadeCharacter, Part: p.part}, Separator{Character: ShadeCharacter, Part: p.part}
		for _, f := range c.forms {
			d, ok := delta(c.a.Fly, c.b.Fly, f, p.part)
			if !ok || d < maybe {
				continue
			}
			s := &help
			if p.part == Body && d >= surely {
				s = &sep
			}
			x, y := c.a.Fly.Colours[f][p.part], c.b.Fly.Colours[f][p.part]
			if len(s.Forms) == 0 {
				s.A.Colour, s.B.Colour = x, y
			}
			s.Memory = s.Memory || x.Memory || y.Memory
			s.Forms = append(s.Forms, f)
		}
		if len(sep.Forms) > 0 {
			separates = append(separates, sep)
		}
		if len(help.Forms) > 0 {
			helps = append(helps, help)
		}
	}
	return separates, helps
}

// verdict weighs the separators that need no microscope: in how many of the forms in common one of them holds. One
// that holds in a flight alone covers no form.
func (c *comparison) verdict(separates, helps []Separator) (v Verdict, covered []Form) {
	if len(c.forms) == 0 {
		return AnotherKind, nil
	}
	for _, s := range separates {
		if s.Needs < Microscope && s.Flight == "" {
			for _, f := range s.Forms {
				if !slices.Contains(covered, f) {
					covered = append(covered, f)
				}
			}
		}
	}
	switch n := len(covered); {
	case n == len(c.forms):
		return InTheHand, nil
	case 2*n > len(c.forms):
		return InTheHandBut, covered
	case n > 0:
		return SomeForms, covered
	case len(separates) == 0 && float64(c.telling()) < c.set.Telling:
		return NotEnough, nil
	case len(helps) > 0 || len(separates) > 0:
		return OnlyHelp, nil
	}
	return NotInTheHand, nil
}

// telling counts the characters known for both in the form where most are.
func (c *comparison) telling() int {
	most := 0
	for _, f := range c.forms {
		n := 0
		for _, ch := range c.guide.Vocabulary {
			if _, _, ok := states(ch, c.a.Fly, c.b.Fly, f); ok {
				n++
			}
		}
		if _, _, ok := c.lengths(f); ok {
			n++
		}
		if _, ok := delta(c.a.Fly, c.b.Fly, f, Body); ok {
			n++
		}
		most = max(most, n)
	}
	return most
}

// LookAlikes lists the flies that one could be taken for: every one that its account or the other's warns of, and the
// likest others. more is how many of the likest didn't fit.
func (g *Guide) LookAlikes(fly Season, others []Season, set AlikeSettings) (list []LookAlike, more int) {
	var named, unnamed []LookAlike
	for _, o := range others {
		if o.ID == fly.ID {
			continue
		}
		warned := fly.Names[o.ID] || o.Names[fly.ID]
		c := g.compare(fly, o, set)
		meet := c.within || settle(Overlap(fly.Curve, o.Curve)) >= set.Overlap
		l := LookAlike{ID: o.ID, Name: o.Name, Named: warned, Meet: meet, Apart: c.near,
			NoForm: len(fly.Forms) == 0 || len(o.Forms) == 0}
		disagrees, _, known := c.shape()
		l.sameShape = !disagrees && len(c.forms) > 0
		if !warned {
			strangers := fly.Group != o.Group || fly.Mixed && fly.Family != o.Family
			if !meet || disagrees || strangers && !known || c.atAGlance() {
				continue
			}
		}
		l.likeness = c.likeness()
		if !warned && l.likeness < set.Likeness {
			continue
		}
		l.Separates, l.Helps = c.separators()
		l.Verdict, l.Covered = c.verdict(l.Separates, l.Helps)
		if warned {
			named = append(named, l)
		} else {
			unnamed = append(unnamed, l)
		}
	}
	order := func(a, b LookAlike) int {
		return cmp.Or(cmp.Compare(boolInt(!a.Meet), boolInt(!b.Meet)), cmp.Compare(boolInt(!a.sameShape), boolInt(!b.sameShape)),
			cmp.Compare(b.likeness, a.likeness), cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	}
	slices.SortStableFunc(named, order)
	slices.SortStableFunc(unnamed, order)
	if most := int(set.Most); len(unnamed) > most {
		more, unnamed = len(unnamed)-most, unnamed[:most]
	}
	meeting := slices.IndexFunc(named, func(l LookAlike) bool { return !l.Meet })
	if meeting < 0 {
		meeting = len(named)
	}
	list = append(append(append(list, named[:meeting]...), unnamed...), named[meeting:]...)
	return list, more
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
