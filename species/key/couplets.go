// The dichotomous key: numbered couplets that lead to each fly of a set, or to
// the flies that can't be separated from it.

package key

import "slices"

// Key is a key ready to be printed. An empty set, or one whose flies can't be
// separated at all, has no couplets, and Start lists the flies.
type Key struct {
	Start    Lead      // where to begin: couplet 1, or the flies
	Couplets []Couplet // number n at n-1; a lead always goes to a later number
	Tools    []Needs   // what the couplets need, easiest first, each once

	// MeanSteps is the number of couplets answered on the way to a fly, the
	// mean over flies; MeanStepsByChance is weighted by the flies' chances
	// (the same as MeanSteps if all are 0). A fly that goes down several ways
	// counts each by the share of it that goes there. Both are 0 for no flies.
	MeanSteps, MeanStepsByChance float64

	// Cut says that the limit on couplets was reached: the leads marked Cut
	// list flies that further couplets would have separated.
	Cut bool
}

// Couplet is one numbered question, n and n'.
type Couplet struct {
	Number    int
	From      int // the couplet that leads here; 0 for the first
	Character string
	Needs     Needs
	SeenIn    []Form
	OnlyIn    string  // the sex the character is confined to, or ""
	Leads     [2]Lead // n: one state; n': the rest
}

// Lead is one side of a couplet. States are the one state, or those of the
// rest that the flies down this way have. Next is the couplet to go to, or 0
// where Flies (IDs, in the order given) are the answer. More than one means
// that they can't be separated, except where Cut, or where Apart: some of them
// never agree in a character, but no couplet of one state against the rest
// parts them, because each has several of its states.
type Lead struct {
	States     []string
	Next       int
	Flies      []string
	Cut, Apart bool
}

// branch is a set of flies on the way, before couplets are numbered.
type branch struct {
	flies  []member
	shares []float64
	open   open
	depth  int
	split  split
	leads  [2]*branch // nil for a leaf
	cut    bool
}

// Build makes the key for a set of flies. At each couplet it takes the
// character and the state against the rest with the largest information gain
// (see Gain), each fly a class of its own, weighted by chance + base, times
// the ease of seeing the character. Ties go by the vocabulary's order, then by
// the order of states. A character that one sex alone shows is asked for only
// where nothing that both show splits the set: a fly of the other sex has to go
// both ways there. Below such a couplet none but its like can follow.
//
// A fly that has states on both sides, or none known, goes down both with half
// the weight it arrived with. A state that has been answered is settled: a fly
// with states a and b, once the answer is "not a", counts with b alone.
//
// Branches grow level by level, so that a key cut at the limit is cut evenly.
func Build(v Vocabulary, taxa []Taxon, set Settings) Key {
	t := tabulate(v, taxa)
	root := &branch{open: make(open, len(v))}
	for i, x := range taxa {
		root.flies = append(root.flies, member{i, x.chance() + set.Base})
		root.shares = append(root.shares, 1)
	}
	oneSex := func(c int) bool { return v[c].OnlyIn() != "" }
	var k Key
	couplets := 0
	for queue := []*branch{root}; len(queue) > 0; queue = queue[1:] {
		b := queue[0]
		if len(b.flies) < 2 {
			continue
		}
		q, ok := t.best(set, b.flies, b.open, oneSex)
		if !ok {
			q, ok = t.best(set, b.flies, b.open, nil)
		}
		if !ok {
			continue
		}
		if couplets == set.MostCouplets {
			b.cut, k.Cut = true, true
			continue
		}
		couplets++
		b.divide(t, q)
		queue = append(queue, b.leads[0], b.leads[1])
	}
	k.number(t, taxa, root, 0)
	k.Start = Lead{Next: min(1, couplets)}
	if couplets == 0 {
		k.Start = t.end(taxa, root)
	}
	k.measure(taxa, root)
	return k
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

func (b *branch) divide(t table, q split) {
	b.split = q
	for i := range b.leads {
		b.leads[i] = &branch{open: slices.Clone(b.open), depth: b.depth + 1}
		allowed := make([]bool, len(t.vocabulary[q.character].States))
		for s := range allowed {
			allowed[s] = b.open.allows(q.character, s) && (s == q.state) == (i == 0)
		}
		b.leads[i].open[q.character] = allowed
	}
	for i, m := range b.flies {
		switch t.goes(b.open, q, m.fly) {
		case yesSide:
			b.leads[0].add(m, b.shares[i])
		case noSide:
			b.leads[1].add(m, b.shares[i])
		default:
			m.weight /= 2
			b.leads[0].add(m, b.shares[i]/2)
			b.leads[1].add(m, b.shares[i]/2)
		}
	}
}

func (b *branch) add(m member, share float64) {
	b.flies = append(b.flies, m)
	b.shares = append(b.shares, share)
}

// number writes the couplets from b on, the first side before the second, and
// returns the number of b's own (0 for a leaf).
func (k *Key) number(t table, taxa []Taxon, b *branch, from int) int {
	if b.leads[0] == nil {
		return 0
	}
	c := t.vocabulary[b.split.character]
	k.Couplets = append(k.Couplets, Couplet{
		Number: len(k.Couplets) + 1, From: from,
		Character: c.Name, Needs: c.Needs, SeenIn: c.SeenIn, OnlyIn: c.OnlyIn(),
	})
	if i, found := slices.BinarySearch(k.Tools, c.Needs); !found {
		k.Tools = slices.Insert(k.Tools, i, c.Needs)
	}
	n := len(k.Couplets)
	for i, to := range b.leads {
		lead := Lead{Next: k.number(t, taxa, to, n)}
		if lead.Next == 0 {
			lead = t.end(taxa, to)
		}
		lead.States = t.held(to, b.split.character)
		k.Couplets[n-1].Leads[i] = lead
	}
	return n
}

// held lists the states of a character that the flies of a branch can still have.
func (t table) held(b *branch, c int) []string {
	var out []string
	for s, word := range t.vocabulary[c].States {
		if b.open.allows(c, s) && slices.ContainsFunc(b.flies, func(m member) bool {
			return slices.Contains(t.states[m.fly][c], s)
		}) {
			out = append(out, word)
		}
	}
	return out
}

// end is the lead to a leaf.
func (t table) end(taxa []Taxon, b *branch) Lead {
	l := Lead{Cut: b.cut, Apart: !b.cut && t.apart(b)}
	for _, m := range b.flies {
		l.Flies = append(l.Flies, taxa[m.fly].ID)
	}
	return l
}

// apart reports whether two flies of a branch never agree in some character.
func (t table) apart(b *branch) bool {
	for i, m := range b.flies {
		for _, n := range b.flies[:i] {
			for c := range t.vocabulary {
				x, y := t.states[m.fly][c], t.states[n.fly][c]
				if len(x) > 0 && len(y) > 0 && !slices.ContainsFunc(x, func(s int) bool { return slices.Contains(y, s) }) {
					return true
				}
			}
		}
	}
	return false
}

func (k *Key) measure(taxa []Taxon, root *branch) {
	if len(taxa) == 0 {
		return
	}
	steps := make([]float64, len(taxa))
	root.walk(func(leaf *branch) {
		for i, m := range leaf.flies {
			steps[m.fly] += float64(leaf.shares[i] * float64(leaf.depth))
		}
	})
	var sum, weighted, chances float64
	for i, x := range taxa {
		sum += steps[i]
		weighted += float64(x.chance() * steps[i])
		chances += x.chance()
	}
	k.MeanSteps = sum / float64(len(taxa))
	k.MeanStepsByChance = k.MeanSteps
	if chances > 0 {
		k.MeanStepsByChance = weighted / chances
	}
}

func (b *branch) walk(leaf func(*branch)) {
	if b.leads[0] == nil {
		leaf(b)
		return
	}
	b.leads[0].walk(leaf)
	b.leads[1].walk(leaf)
}
