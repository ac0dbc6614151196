// The dichotomous key: numbered couplets that lead to each fly of a set, in whatever form it is in the hand, or to the
// flies that can't be separated from it: section 11 of the rules on figures.

package key

import (
	"math"
	"slices"
)

// Settings are the constants of keys: our judgement.
type Settings struct {
	Base         float64 // added to every chance, so that no fly weighs nothing
	Easy         float64 // share of the best gain from which an easier way of seeing is taken
	Near         float64 // share of the best score from which the order of looking decides
	Memory       float64 // by which what rests on memory alone lowers a score
	Pale, Dark   float64 // L* from which a body is pale, and below which it is dark
	Doubt        float64 // L* about these limits within which a body may be called either
	Step         float64 // mm between lengths asked for
	Margin       float64 // mm on either side within which a length may be called either
	MostCouplets int     // a key is cut beyond this many couplets
}

// Defaults are the settings of a guide that names none. The limit on couplets is there because a specimen goes down
// both branches where nothing is known; leaves that it cuts say so.
func Defaults() Settings {
	return Settings{Base: 0.01, Easy: 0.25, Near: 0.75, Memory: 0.2, Pale: 60, Dark: 30, Doubt: 4, Step: 0.5, Margin: 0.5, MostCouplets: 2000}
}

// Specimen is a fly in one form, as it may lie in the hand.
type Specimen struct {
	Fly     *Fly
	Form    Form
	Length  Measure // 0 where not known
	Chance  float64 // of the fly in the set
	LeftOut bool    // a male spinner without a body colour: the key's foot says so
}

// Key is a key ready to be printed. A set of one fly or none, or whose flies can't be separated at all, has no
// couplets, and Start lists the flies.
type Key struct {
	Start    Lead      // where to begin: couplet 1, or the flies
	Couplets []Couplet // number n at n-1; a lead always goes to a later number
	Tools    []Needs   // what the couplets need, easiest first, each once
	LeftOut  []string  // IDs of flies of which a form is left out

	// MeanSteps is the number of couplets that a specimen answers, a both-ways couplet counting each side half: the
	// mean over a fly's forms, then over flies; MeanStepsByChance is weighted by the flies' weights.
	MeanSteps, MeanStepsByChance float64

	Cut bool // the limit on couplets was reached
}

// Couplet is one numbered question, n and n'.
type Couplet struct {
	Number    int
	From      int     // the couplet that leads here; 0 for the first
	Character string  // of the vocabulary, or LengthCharacter or ShadeCharacter
	Limit     float64 // of a length, mm: up to it, or over
	Part      string  // of a length: what all in play are measured by, body or overall; "" where both are among them
	Needs     Needs
	SeenIn    []Form
	Leads     [2]Lead // n: one state (up to the limit; pale or dark); n': the rest
	Flies     int     // in play
}

// Lead is one side of a couplet. States are the one state, or those of the rest that specimens down this way have. Next
// is the couplet to go to, or 0 where Flies (IDs) are the answer: more than one can't be separated, except where Cut.
type Lead struct {
	States []string
	Next   int
	Flies  []string
	Cut    bool
}

// The states of a shade couplet.
const (
	Pale = "pale"
	Mid  = "mid"
	Dark = "dark"
)

// side says which way a specimen goes: yes, no, or both.
type side int

const (
	bothSides side = iota
	yesSide
	noSide
)

// question is a couplet to be: a character with a state against the rest, a length, or a shade.
type question struct {
	character int // place in the vocabulary; asksLength, asksShade
	state     int // place among the states; of a shade 0 pale, 1 dark
	limit     float64
}

const (
	asksLength = -1
	asksShade  = -2
)

// member is a specimen in a branch, with the weight and the share of it that have reached it.
type member struct {
	specimen      int
	weight, share float64
}

type branch struct {
	in         []member
	gone       map[[2]int]bool // states answered no: character, state
	over, upTo float64         // the limits of length answered, mm
	depth      int
	q          question
	mixed      bool
	leads      [2]*branch // nil for a leaf
	cut        bool
}

type builder struct {
	v   Vocabulary
	all []Specimen
	set Settings
}

// Build makes the key for a set of specimens.
func (g *Guide) Build(specimens []Specimen, set Settings) Key {
	b := builder{v: g.Vocabulary, set: set}
	var k Key
	for _, s := range specimens {
		if s.LeftOut {
			if !slices.Contains(k.LeftOut, s.Fly.ID) {
				k.LeftOut = append(k.LeftOut, s.Fly.ID)
			}
			continue
		}
		b.all = append(b.all, s)
	}
	forms := map[string]int{}
	for _, s := range b.all {
		forms[s.Fly.ID]++
	}
	root := &branch{gone: map[[2]int]bool{}, upTo: math.Inf(1)}
	for i, s := range b.all {
		root.in = append(root.in, member{i, (max(0, s.Chance) + set.Base) / float64(forms[s.Fly.ID]), 1})
	}
	couplets := 0
	for queue := []*branch{root}; len(queue) > 0; queue = queue[1:] {
		x := queue[0]
		q, ok := b.choose(x)
		if !ok {
			continue
		}
		if couplets == set.MostCouplets {
			x.cut, k.Cut = true, true
			continue
		}
		couplets++
		b.divide(x, q)
		queue = append(queue, x.leads[0], x.leads[1])
	}
	b.number(&k, root, 0)
	k.Start = Lead{Next: min(1, couplets)}
	if couplets == 0 {
		k.Start = b.end(root)
	}
	b.measure(&k, root, forms)
	return k
}

// flies counts the flies of a branch.
func (b builder) flies(in []member) int {
	seen := map[*Fly]bool{}
	for _, m := range in {
		seen[b.all[m.specimen].Fly] = true
	}
	return len(seen)
}

// applies reports whether every specimen in play can show a character.
func (b builder) applies(c Character, in []member) bool {
	for _, m := range in {
		s := b.all[m.specimen]
		if !c.Applies(s.Form, s.Fly.Group) {
			return false
		}
	}
	return true
}

// known reports whether what a question asks is known of a specimen.
func (b builder) known(q question, s Specimen) bool {
	switch q.character {
	case asksLength:
		return s.Length.High > 0
	case asksShade:
		_, ok := s.Fly.Colours[s.Form][Body]
		return ok
	}
	return len(s.Fly.States[s.Form][b.v[q.character].Name]) > 0
}

// goes finds a specimen's side. One with nothing known, or with states on both sides, goes both ways; a state that was
// answered no is no longer among the rest.
func (b builder) goes(x *branch, q question, mixed bool, s Specimen) side {
	if !b.known(q, s) {
		return bothSides
	}
	switch q.character {
	case asksLength:
		d := b.set.Margin
		if mixed {
			d = max(d, 0.1*q.limit)
		}
		switch {
		case settle(s.Length.High-(q.limit-d)) <= 0:
			return yesSide
		case settle(s.Length.Low-(q.limit+d)) >= 0:
			return noSide
		}
		return bothSides
	case asksShade:
		limit := b.set.Pale
		if q.state == 1 {
			limit = b.set.Dark
		}
		switch off := settle(s.Fly.Colours[s.Form][Body].Lab.L - limit); {
		case math.Abs(off) <= b.set.Doubt:
			return bothSides
		case (off > 0) == (q.state == 0):
			return yesSide
		}
		return noSide
	}
	var here, rest bool
	c := b.v[q.character]
	for _, w := range s.Fly.States[s.Form][c.Name] {
		switch i := slices.Index(c.States, w); {
		case i == q.state:
			here = true
		case i >= 0 && !x.gone[[2]int{q.character, i}]:
			rest = true
		}
	}
	switch {
	case here && !rest:
		return yesSide
	case rest && !here:
		return noSide
	}
	return bothSides
}

// candidate is a split with its worth.
type candidate struct {
	question
	needs       Needs
	gain, score float64
	clear       float64 // of a length: mm to the nearest limit of those wholly on a side; less than 0 where one side has none
	place       int     // in the order in which one looks
}

// choose finds the split that tells most: of the easiest way of seeing that gains at least a quarter of the best, of
// the splits scoring at least three quarters of the best the first in the order in which one looks.
func (b builder) choose(x *branch) (question, bool) {
	if b.flies(x.in) < 2 {
		return question{}, false
	}
	all := b.candidates(x, false)
	if len(all) == 0 {
		all = b.candidates(x, true)
	}
	if len(all) == 0 {
		return question{}, false
	}
	best := func(n Needs) (g float64) {
		for _, k := range all {
			if k.needs == n {
				g = max(g, k.gain)
			}
		}
		return g
	}
	need := Microscope
	top := max(best(NakedEye), best(HandLens))
	for _, n := range []Needs{NakedEye, HandLens} {
		if best(n) > 0 && settle(best(n)-b.set.Easy*top) >= 0 {
			need = n
			break
		}
	}
	var score float64
	for _, k := range all {
		if k.needs == need {
			score = max(score, k.score)
		}
	}
	var chosen *candidate
	for i, k := range all {
		if k.needs == need && settle(k.score-b.set.Near*score) >= 0 && (chosen == nil || k.place < chosen.place) {
			chosen = &all[i]
		}
	}
	return chosen.question, true
}

// candidates are the best splits of each character, of length and of shade; see worth for the last resort.
func (b builder) candidates(x *branch, last bool) (all []candidate) {
	for i, c := range b.v {
		if !b.applies(c, x.in) {
			continue
		}
		var best *candidate
		for s := range c.States {
			if x.gone[[2]int{i, s}] {
				continue
			}
			if k, ok := b.worth(x, question{character: i, state: s}, c.Needs, last); ok && (best == nil || k.score > best.score) {
				best = &k
			}
		}
		if best != nil {
			best.place = b.placeOf(i)
			all = append(all, *best)
		}
	}
	all = append(all, b.bestLength(x, last)...)
	return append(all, b.bestShade(x, last)...)
}

// placeOf is the place of a question in the order in which one looks: wing posture, pairs of wings, tails, length,
// shade, wings, then the vocabulary.
func (b builder) placeOf(character int) int {
	switch character {
	case asksLength:
		return 3
	case asksShade:
		return 4
	}
	return b.v[character].Looked(character)
}

// worth reckons a split: gain = H - (W₁H₁ + W₂H₂)/(W₁ + W₂), H the entropy of the flies' summed weights; the score is
// lowered by the share of the weight whose known state rests on memory alone. Not ok where a side doesn't get smaller; as
// a last resort one side may keep all, if those that go both ways do so by what is known of them: flies of 5–7 and
// 7.5–9 mm lie too near each other for one limit, but over 7.5 there is only the second.
func (b builder) worth(x *branch, q question, needs Needs, last bool) (candidate, bool) {
	mixed := q.character == asksLength && b.mixed(x.in)
	var weights [3][]float64 // yes, no and all, by fly in the order of the specimens
	place := make(map[*Fly]int, len(x.in))
	var total, memory float64
	n := [2]int{}
	known := true
	for _, m := range x.in {
		s := b.all[m.specimen]
		total += m.weight
		if b.fromMemory(q, s) {
			memory += m.weight
		}
		f, seen := place[s.Fly]
		if !seen {
			f = len(place)
			place[s.Fly] = f
			for i := range weights {
				weights[i] = append(weights[i], 0)
			}
		}
		weights[2][f] += m.weight
		switch b.goes(x, q, mixed, s) {
		case yesSide:
			weights[0][f] += m.weight
			n[0]++
		case noSide:
			weights[1][f] += m.weight
			n[1]++
		default:
			known = known && b.known(q, s)
			for i := range 2 {
				weights[i][f] += m.weight / 2
				n[i]++
			}
		}
	}
	if min(n[0], n[1]) == len(x.in) || max(n[0], n[1]) == len(x.in) && !(last && known) || total == 0 {
		return candidate{}, false
	}
	h, _ := entropy(weights[2])
	h0, w0 := entropy(weights[0])
	h1, w1 := entropy(weights[1])
	k := candidate{question: q, needs: needs}
	k.gain = settle(h - (float64(w0*h0)+float64(w1*h1))/(w0+w1))
	k.score = settle(k.gain * (1 - b.set.Memory*memory/total))
	return k, k.gain > 0
}

func (b builder) fromMemory(q question, s Specimen) bool {
	switch q.character {
	case asksLength:
		return s.Length.High > 0 && s.Length.Memory
	case asksShade:
		return s.Fly.Colours[s.Form][Body].Memory
	}
	return s.Fly.memory(s.Form, b.v[q.character].Name)
}

// mixed reports whether flies measured body and overall are both in play.
func (b builder) mixed(in []member) bool { return len(b.parts(in)) > 1 }

// parts are what the flies in play are measured by, sorted.
func (b builder) parts(in []member) []string {
	var out []string
	for _, m := range in {
		if l := b.all[m.specimen].Length; l.High > 0 && !slices.Contains(out, l.Part) {
			out = append(out, l.Part)
		}
	}
	slices.Sort(out)
	return out
}

// bestLength is the best limit of length: of equal scores the one furthest from the lengths of those wholly on either
// side (nearest, where one side has none), of two the smaller. It lies between the limits already answered.
func (b builder) bestLength(x *branch, last bool) []candidate {
	low, high := math.Inf(1), 0.0
	for _, m := range x.in {
		if l := b.all[m.specimen].Length; l.High > 0 {
			low, high = min(low, l.Low), max(high, l.High)
		}
	}
	var best *candidate
	for n := math.Ceil(low / b.set.Step); n*b.set.Step <= high; n++ {
		q := question{character: asksLength, limit: n * b.set.Step}
		k, ok := b.worth(x, q, NakedEye, last)
		if !ok || q.limit <= x.over || q.limit >= x.upTo {
			continue
		}
		k.clear, k.place = b.clear(x, q), b.placeOf(asksLength)
		if best == nil || k.score > best.score || k.score == best.score && k.clear > best.clear {
			best = &k
		}
	}
	if best == nil {
		return nil
	}
	return []candidate{*best}
}

func (b builder) clear(x *branch, q question) float64 {
	mixed, near := b.mixed(x.in), [2]float64{math.Inf(1), math.Inf(1)}
	for _, m := range x.in {
		s := b.all[m.specimen]
		switch b.goes(x, q, mixed, s) {
		case yesSide:
			near[0] = min(near[0], math.Abs(q.limit-s.Length.High))
		case noSide:
			near[1] = min(near[1], math.Abs(s.Length.Low-q.limit))
		}
	}
	nearest := settle(min(near[0], near[1]))
	if math.IsInf(max(near[0], near[1]), 1) {
		return -nearest
	}
	return nearest
}

func (b builder) bestShade(x *branch, last bool) []candidate {
	var best *candidate
	for state := range 2 {
		if x.gone[[2]int{asksShade, state}] {
			continue
		}
		k, ok := b.worth(x, question{character: asksShade, state: state}, NakedEye, last)
		if ok && (best == nil || k.score > best.score) {
			k.place = b.placeOf(asksShade)
			best = &k
		}
	}
	if best == nil {
		return nil
	}
	return []candidate{*best}
}

func (b builder) divide(x *branch, q question) {
	x.q, x.mixed = q, q.character == asksLength && b.mixed(x.in)
	for i := range x.leads {
		gone := map[[2]int]bool{}
		for k := range x.gone {
			gone[k] = true
		}
		over, upTo := x.over, x.upTo
		switch {
		case q.character == asksLength && i == 0:
			upTo = q.limit
		case q.character == asksLength:
			over = q.limit
		case i == 1:
			gone[[2]int{q.character, q.state}] = true
		case q.character == asksShade:
			gone[[2]int{asksShade, 0}], gone[[2]int{asksShade, 1}] = true, true
		default:
			for s := range b.v[q.character].States {
				gone[[2]int{q.character, s}] = s != q.state || gone[[2]int{q.character, s}]
			}
		}
		x.leads[i] = &branch{gone: gone, over: over, upTo: upTo, depth: x.depth + 1}
	}
	for _, m := range x.in {
		switch b.goes(x, q, x.mixed, b.all[m.specimen]) {
		case yesSide:
			x.leads[0].in = append(x.leads[0].in, m)
		case noSide:
			x.leads[1].in = append(x.leads[1].in, m)
		default:
			m.weight, m.share = m.weight/2, m.share/2
			x.leads[0].in = append(x.leads[0].in, m)
			x.leads[1].in = append(x.leads[1].in, m)
		}
	}
}

// number writes the couplets from x on, the first side before the second, and returns the number of x's own (0 for a
// leaf).
func (b builder) number(k *Key, x *branch, from int) int {
	if x.leads[0] == nil {
		return 0
	}
	c := Couplet{Number: len(k.Couplets) + 1, From: from, Limit: x.q.limit, Flies: b.flies(x.in)}
	switch x.q.character {
	case asksLength:
		c.Character = LengthCharacter
		if parts := b.parts(x.in); len(parts) == 1 {
			c.Part = parts[0]
		}
	case asksShade:
		c.Character = ShadeCharacter
	default:
		ch := b.v[x.q.character]
		c.Character, c.Needs, c.SeenIn = ch.Name, ch.Needs, ch.SeenIn
	}
	k.Couplets = append(k.Couplets, c)
	if i, found := slices.BinarySearch(k.Tools, c.Needs); !found {
		k.Tools = slices.Insert(k.Tools, i, c.Needs)
	}
	for i, to := range x.leads {
		lead := Lead{Next: b.number(k, to, c.Number)}
		if lead.Next == 0 {
			lead = b.end(to)
		}
		lead.States = b.held(x, to, i)
		k.Couplets[c.Number-1].Leads[i] = lead
	}
	return c.Number
}

// held lists the states that the specimens down one side may show.
func (b builder) held(x, to *branch, i int) []string {
	switch x.q.character {
	case asksLength:
		return nil
	case asksShade:
		one := []string{Pale, Dark}[x.q.state]
		if i == 0 {
			return []string{one}
		}
		var out []string
		for _, s := range []string{Pale, Mid, Dark} {
			if s != one && (s == Mid || !x.gone[[2]int{asksShade, slices.Index([]string{Pale, Dark}, s)}]) {
				out = append(out, s)
			}
		}
		return out
	}
	c := b.v[x.q.character]
	if i == 0 {
		return []string{c.States[x.q.state]}
	}
	var out []string
	for s, word := range c.States {
		if !to.gone[[2]int{x.q.character, s}] && slices.ContainsFunc(to.in, func(m member) bool {
			sp := b.all[m.specimen]
			return slices.Contains(sp.Fly.States[sp.Form][c.Name], word)
		}) {
			out = append(out, word)
		}
	}
	return out
}

// end is the lead to a leaf: each fly once.
func (b builder) end(x *branch) Lead {
	l := Lead{Cut: x.cut}
	for _, m := range x.in {
		if id := b.all[m.specimen].Fly.ID; !slices.Contains(l.Flies, id) {
			l.Flies = append(l.Flies, id)
		}
	}
	return l
}

func (b builder) measure(k *Key, root *branch, forms map[string]int) {
	steps, weight := map[string]float64{}, map[string]float64{}
	var ids []string
	for _, m := range root.in {
		id := b.all[m.specimen].Fly.ID
		if _, seen := weight[id]; !seen {
			ids = append(ids, id)
		}
		weight[id] += m.weight
	}
	root.walk(func(leaf *branch) {
		for _, m := range leaf.in {
			id := b.all[m.specimen].Fly.ID
			steps[id] += float64(m.share*float64(leaf.depth)) / float64(forms[id])
		}
	})
	var sum, weighted, total float64
	for _, id := range ids {
		sum += steps[id]
		weighted += float64(weight[id] * steps[id])
		total += weight[id]
	}
	if len(ids) > 0 {
		k.MeanSteps = sum / float64(len(ids))
		k.MeanStepsByChance = k.MeanSteps
	}
	if total > 0 {
		k.MeanStepsByChance = weighted / total
	}
}

func (x *branch) walk(leaf func(*branch)) {
	if x.leads[0] == nil {
		leaf(x)
		return
	}
	x.leads[0].walk(leaf)
	x.leads[1].walk(leaf)
}

// Under lists the flies that a couplet parts, each once, in the order of its ends.
func (k Key) Under(number int) (ids []string) {
	for _, l := range k.Couplets[number-1].Leads {
		ends := l.Flies
		if l.Next > 0 {
			ends = k.Under(l.Next)
		}
		for _, id := range ends {
			if !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	return ids
}
