package key

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// word makes a vocabulary entry of states seen with the naked eye.
func word(name string, states ...string) Character {
	return Character{Name: name, States: states}
}

// fly makes a taxon whose ID is its name; values go "character", "state".
func fly(name string, chance float64, values ...string) Taxon {
	t := Taxon{ID: name, Name: name, Chance: chance, Values: map[string]Value{}}
	for i := 0; i < len(values); i += 2 {
		v := t.Values[values[i]]
		v.States = append(v.States, values[i+1])
		t.Values[values[i]] = v
	}
	return t
}

// leaves lists the IDs at each end of a key, in printing order.
func leaves(k Key) (out [][]string) {
	if k.Start.Next == 0 {
		return [][]string{k.Start.Flies}
	}
	for _, c := range k.Couplets {
		for _, l := range c.Leads {
			if l.Next == 0 {
				out = append(out, l.Flies)
			}
		}
	}
	return out
}

func TestKeyOfNoneAndOne(t *testing.T) {
	v := Vocabulary{word("tails", "two", "three")}
	none := Build(v, nil, Defaults())
	assert.Equal(t, Key{}, none)
	one := Build(v, []Taxon{fly("a", 0.5, "tails", "two")}, Defaults())
	assert.Equal(t, Key{Start: Lead{Flies: []string{"a"}}}, one)
	twins := Build(v, []Taxon{fly("a", 0.5, "tails", "two"), fly("b", 0.5)}, Defaults())
	assert.Equal(t, Key{Start: Lead{Flies: []string{"a", "b"}}}, twins)
}

// Worked by hand. Weights with equal chances of 0.24 are 0.25 each. Tails
// (two against the rest) part 2 from 2: 1 bit, legs only 1 from 3. After "not
// two", d's tails are none and c's three, the first of which is asked.
func TestKeyWorkedByHand(t *testing.T) {
	v := Vocabulary{word("tails", "two", "three", "none"), word("legs", "pale", "dark")}
	v[1].Needs, v[1].SeenIn = HandLens, []Form{{"dun", "male"}}
	k := Build(v, []Taxon{
		fly("a", 0.24, "tails", "two", "legs", "pale"),
		fly("b", 0.24, "tails", "two", "legs", "dark"),
		fly("c", 0.24, "tails", "three", "legs", "dark"),
		fly("d", 0.24, "tails", "none", "legs", "dark"),
	}, Defaults())
	assert.Equal(t, Key{
		Start: Lead{Next: 1},
		Couplets: []Couplet{
			{Number: 1, Character: "tails", Leads: [2]Lead{
				{States: []string{"two"}, Next: 2},
				{States: []string{"three", "none"}, Next: 3}}},
			{Number: 2, From: 1, Character: "legs", Needs: HandLens, SeenIn: v[1].SeenIn, OnlyIn: "male", Leads: [2]Lead{
				{States: []string{"pale"}, Flies: []string{"a"}},
				{States: []string{"dark"}, Flies: []string{"b"}}}},
			{Number: 3, From: 1, Character: "tails", Leads: [2]Lead{
				{States: []string{"three"}, Flies: []string{"c"}},
				{States: []string{"none"}, Flies: []string{"d"}}}},
		},
		Tools: []Needs{NakedEye, HandLens}, MeanSteps: 2, MeanStepsByChance: 2,
	}, k)
}

// Three flies, b unknown for tails. Weights 0.5, 0.25, 0.25. Tails: b on both
// sides, gain H(0.5+0.125, …) - 0.25 = 0.954 - 0.25 = 0.704; that is all that
// parts a and c. Each branch then holds b and one more, which legs part.
// Steps: a 2, c 2, b half of 2 and half of 2.
func TestFlyGoesDownBothWays(t *testing.T) {
	v := Vocabulary{word("tails", "two", "three"), word("legs", "pale", "dark")}
	k := Build(v, []Taxon{
		fly("a", 0.49, "tails", "two", "legs", "pale"),
		fly("b", 0.24, "legs", "dark"),
		fly("c", 0.24, "tails", "three", "legs", "pale"),
	}, Defaults())
	// Legs against tails: H(0.75) = 0.811 > 0.704, so legs come first and b is done.
	require.Len(t, k.Couplets, 2)
	assert.Equal(t, "legs", k.Couplets[0].Character)
	assert.Equal(t, [][]string{{"b"}, {"a"}, {"c"}}, leaves(k))
	assert.InDelta(t, 5.0/3, k.MeanSteps, 1e-12)
	assert.InDelta(t, (0.49*2+0.24*1+0.24*2)/0.97, k.MeanStepsByChance, 1e-12)

	v[1].Needs = Microscope // 0.811 × 0.4: now tails come first
	k = Build(v, []Taxon{
		fly("a", 0.49, "tails", "two", "legs", "pale"),
		fly("b", 0.24, "legs", "dark"),
		fly("c", 0.24, "tails", "three", "legs", "pale"),
	}, Defaults())
	require.Len(t, k.Couplets, 3)
	assert.Equal(t, "tails", k.Couplets[0].Character)
	assert.Equal(t, [][]string{{"a"}, {"b"}, {"c"}, {"b"}}, leaves(k))
	assert.InDelta(t, 2, k.MeanSteps, 1e-12)
}

// By hand. The mark comes first: H(0.8 of 1.6) - 0.4 of 1.6 = 0.75. Then u,
// of 0.4, weighs 0.2 beside a and b of 0.3 each, so that eyes (0.3 from 0.5,
// 0.954 bits) beat legs (0.2 from 0.6, 0.811); with its whole weight legs (0.4
// from 0.6, 0.971) would beat eyes (0.3 from 0.7, 0.881).
func TestHalvedWeightsCount(t *testing.T) {
	v := Vocabulary{word("legs", "pale", "dark"), word("eyes", "plain", "turban"), word("mark", "p", "q")}
	k := Build(v, []Taxon{
		fly("a", 0.29, "mark", "p", "legs", "pale", "eyes", "turban"),
		fly("b", 0.29, "mark", "p", "legs", "pale", "eyes", "plain"),
		fly("c", 0.29, "mark", "q"),
		fly("d", 0.29, "mark", "q"),
		fly("u", 0.39, "legs", "dark", "eyes", "plain"),
	}, Defaults())
	require.Len(t, k.Couplets, 3)
	assert.Equal(t, "mark", k.Couplets[0].Character)
	assert.Equal(t, "eyes", k.Couplets[1].Character)
}

// A state that has been answered no longer stands on the side of the rest: "not
// two" leaves b with three tails only, so that three against none parts it
// from c for good.
func TestAnsweredStatesAreSettled(t *testing.T) {
	v := Vocabulary{word("tails", "two", "three", "none")}
	k := Build(v, []Taxon{
		fly("a", 0.9, "tails", "two"),
		fly("b", 0.1, "tails", "two", "tails", "three"),
		fly("c", 0.1, "tails", "none"),
	}, Defaults())
	assert.Equal(t, [][]string{{"a", "b"}, {"b"}, {"c"}}, leaves(k))
}

// Gains alike go by the vocabulary's order, then by the order of states.
func TestTies(t *testing.T) {
	flies := []Taxon{fly("x", 0.2, "second", "p", "first", "q"), fly("y", 0.2, "second", "q", "first", "p")}
	k := Build(Vocabulary{word("first", "p", "q"), word("second", "p", "q")}, flies, Defaults())
	assert.Equal(t, "first", k.Couplets[0].Character)
	assert.Equal(t, []string{"p"}, k.Couplets[0].Leads[0].States)
	assert.Equal(t, []string{"y"}, k.Couplets[0].Leads[0].Flies)
	k = Build(Vocabulary{word("second", "q", "p"), word("first", "p", "q")}, flies, Defaults())
	assert.Equal(t, "second", k.Couplets[0].Character)
	assert.Equal(t, []string{"q"}, k.Couplets[0].Leads[0].States)
}

// Lengths and colours never make a couplet.
func TestOnlyWordsMakeCouplets(t *testing.T) {
	v := Vocabulary{{Name: "length", Kind: Length, States: []string{"p", "q"}}}
	k := Build(v, []Taxon{fly("x", 0.2, "length", "p"), fly("y", 0.2, "length", "q")}, Defaults())
	assert.Empty(t, k.Couplets)
}

// With neither base nor chances no fly weighs anything; the key still parts them.
func TestWeightlessFlies(t *testing.T) {
	s := Defaults()
	s.Base = 0
	k := Build(Vocabulary{word("tails", "two", "three")}, []Taxon{
		fly("x", 0, "tails", "two"), fly("y", math.NaN(), "tails", "three")}, s)
	assert.Equal(t, [][]string{{"x"}, {"y"}}, leaves(k))
	assert.Equal(t, 1.0, k.MeanSteps)
	assert.Equal(t, 1.0, k.MeanStepsByChance)
}

// A key at its limit lists what is left and says so.
func TestKeyIsCut(t *testing.T) {
	v := Vocabulary{word("mark", "a", "b", "c", "d")}
	flies := []Taxon{fly("1", 0, "mark", "a"), fly("2", 0, "mark", "b"), fly("3", 0, "mark", "c"), fly("4", 0, "mark", "d")}
	s := Defaults()
	s.MostCouplets = 2
	k := Build(v, flies, s)
	require.Len(t, k.Couplets, 2)
	assert.True(t, k.Cut)
	cut := k.Couplets[1].Leads[1]
	assert.True(t, cut.Cut)
	assert.Equal(t, []string{"3", "4"}, cut.Flies)
	assert.False(t, k.Couplets[0].Leads[0].Cut)
	s.MostCouplets = 0
	k = Build(v, flies, s)
	assert.Equal(t, Lead{Flies: []string{"1", "2", "3", "4"}, Cut: true}, k.Start)
	s.MostCouplets = 3
	assert.False(t, Build(v, flies, s).Cut)
}

// families reads the 25 adult taxa (general entomology: Royal Entomological
// Society, national keys; many rows from memory) with the characters
// from wings to spurs. An empty cell is not known.
func families(t testing.TB, notApplicable bool) (Vocabulary, []Taxon) {
	head, table := rows(t, "../../testdata/checks/keys/families.csv")
	var v Vocabulary
	taxa := make([]Taxon, len(table))
	for i, r := range table {
		taxa[i] = fly(r["taxon"], 0.1)
	}
	for _, name := range head[slices.Index(head, "wings") : slices.Index(head, "spurs")+1] {
		c := Character{Name: name}
		for i, r := range table {
			s := r[name]
			if s == "" || s == "na" && !notApplicable {
				continue
			}
			if !slices.Contains(c.States, s) {
				c.States = append(c.States, s)
			}
			taxa[i].Values[name] = Value{States: []string{s}}
		}
		v = append(v, c)
	}
	return v, taxa
}

// Exactly one pair can't be separated, and one more character separates it:
// so too whether "na" is read as a state or as not known.
func TestKeyOfFamilies(t *testing.T) {
	for _, na := range []bool{true, false} {
		v, taxa := families(t, na)
		require.Len(t, taxa, 25)
		require.Len(t, v, 11)
		pairs := map[string]bool{}
		for i, a := range taxa {
			for _, b := range taxa[:i] {
				if _, verdict, _ := Separators(v, a, b); !verdict.Separable() {
					pairs[b.Name+"/"+a.Name] = true
				}
			}
		}
		assert.Equal(t, map[string]bool{"Perlidae/Perlodidae": true}, pairs)

		several := map[string]bool{}
		for _, l := range leaves(Build(v, taxa, Defaults())) {
			if len(l) > 1 {
				several[fmt.Sprint(l)] = true
			}
		}
		assert.Equal(t, map[string]bool{"[Perlidae Perlodidae]": true}, several)

		v = append(v, word("thoracic_gill_remnants", "yes", "no"))
		for _, x := range taxa {
			switch x.Name {
			case "Perlidae":
				x.Values["thoracic_gill_remnants"] = Value{States: []string{"yes"}}
			case "Perlodidae":
				x.Values["thoracic_gill_remnants"] = Value{States: []string{"no"}}
			}
		}
		k := Build(v, taxa, Defaults())
		for _, l := range leaves(k) {
			assert.Len(t, l, 1)
		}
		// No key of 25 with two-way couplets is shorter than log₂ 25 steps.
		assert.GreaterOrEqual(t, k.MeanSteps, math.Log2(25))
		assert.Less(t, k.MeanSteps, 6.0)
	}
}

// drawn is a random set: several states, unknown characters, all needs.
func drawn(t *rapid.T) (Vocabulary, []Taxon) {
	var v Vocabulary
	for i := range rapid.IntRange(0, 5).Draw(t, "characters") {
		v = append(v, Character{
			Name:   fmt.Sprint("c", i),
			States: []string{"p", "q", "r", "s"}[:rapid.IntRange(1, 4).Draw(t, "states")],
			Needs:  Needs(rapid.IntRange(0, 2).Draw(t, "needs")),
		})
	}
	var taxa []Taxon
	for i := range rapid.IntRange(0, 9).Draw(t, "flies") {
		x := fly(fmt.Sprint("f", i), rapid.Float64Range(0, 1).Draw(t, "chance"))
		for _, c := range v {
			for _, s := range c.States {
				if rapid.IntRange(0, 2).Draw(t, "has") == 0 {
					x.Values[c.Name] = Value{States: append(x.Values[c.Name].States, s)}
				}
			}
		}
		taxa = append(taxa, x)
	}
	return v, taxa
}

// A specimen of a fly has one of the states its account gives, and any state
// where the account gives none. Whichever it has, the key leads it to a list
// that names the fly.
func TestKeyLeadsEveryFlyToItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, taxa := drawn(t)
		k := Build(v, taxa, Defaults())
		if k.Cut {
			t.Fatal("cut")
		}
		for _, x := range taxa {
			specimen := map[string]string{}
			for _, c := range v {
				states := x.Values[c.Name].States
				if len(states) == 0 {
					states = c.States
				}
				specimen[c.Name] = rapid.SampledFrom(states).Draw(t, "specimen's "+c.Name)
			}
			at := k.Start
			for at.Next > 0 {
				c := k.Couplets[at.Next-1]
				if at = c.Leads[1]; specimen[c.Character] == c.Leads[0].States[0] {
					at = c.Leads[0]
				}
			}
			if !slices.Contains(at.Flies, x.ID) {
				t.Fatalf("%s ends at %v", x.ID, at.Flies)
			}
		}
	})
}

// What the numbers of a key owe each other.
func TestKeyIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, taxa := drawn(t)
		k := Build(v, taxa, Defaults())
		if fmt.Sprint(k) != fmt.Sprint(Build(v, taxa, Defaults())) {
			t.Fatal("not the same twice")
		}
		var tools []Needs
		below := make([]map[string]float64, len(k.Couplets)+1) // what share of each fly passes
		var steps, weighted, chances float64
		lead := func(l Lead) map[string]float64 {
			if l.Next > 0 {
				return below[l.Next]
			}
			m := map[string]float64{}
			for _, id := range l.Flies {
				m[id] = 1
			}
			return m
		}
		for i := len(k.Couplets) - 1; i >= 0; i-- {
			c := k.Couplets[i]
			if c.Number != i+1 || c.From > i || (c.From == 0) != (i == 0) {
				t.Fatalf("couplet %d comes from %d", c.Number, c.From)
			}
			if !slices.Contains(tools, c.Needs) {
				tools = append(tools, c.Needs)
			}
			here := map[string]float64{}
			for _, l := range c.Leads {
				if l.Next > 0 && (l.Next <= c.Number || k.Couplets[l.Next-1].From != c.Number) {
					t.Fatalf("couplet %d goes to %d", c.Number, l.Next)
				}
				if len(l.States) == 0 || l.Next == 0 && len(l.Flies) == 0 {
					t.Fatalf("couplet %d has an empty side", c.Number)
				}
				for id := range lead(l) {
					here[id] = 1
				}
			}
			below[i+1] = here
			for _, l := range c.Leads {
				if len(lead(l)) >= len(here) {
					t.Fatalf("couplet %d has a side no smaller than itself", c.Number)
				}
			}
		}
		slices.Sort(tools)
		if !slices.Equal(tools, k.Tools) {
			t.Fatalf("tools %v, want %v", k.Tools, tools)
		}
		// The mean number of steps is the mean weight that passes the couplets.
		for _, x := range taxa {
			var pass func(l Lead, share float64) float64
			pass = func(l Lead, share float64) float64 {
				if l.Next == 0 {
					return 0
				}
				var to []Lead
				for _, next := range k.Couplets[l.Next-1].Leads {
					if _, ok := lead(next)[x.ID]; ok {
						to = append(to, next)
					}
				}
				sum := share
				for _, next := range to {
					sum += pass(next, share/float64(len(to)))
				}
				return sum
			}
			n := pass(k.Start, 1)
			steps += n
			weighted += n * x.Chance
			chances += x.Chance
		}
		if n := float64(len(taxa)); n > 0 && math.Abs(steps/n-k.MeanSteps) > 1e-9 {
			t.Fatalf("mean steps %v, want %v", k.MeanSteps, steps/n)
		}
		if chances > 0 && math.Abs(weighted/chances-k.MeanStepsByChance) > 1e-9 {
			t.Fatalf("by chance %v, want %v", k.MeanStepsByChance, weighted/chances)
		}
	})
}

// Flies that stand together at the end of a key agree somewhere in every
// character known for both; where they don't, the lead says so, and both have
// several states, so that no single state parts them.
func TestLeavesCannotBeSeparated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, taxa := drawn(t)
		k := Build(v, taxa, Defaults())
		ends := []Lead{k.Start}
		for _, c := range k.Couplets {
			ends = append(ends, c.Leads[0], c.Leads[1])
		}
		for _, l := range ends {
			apart := false
			for i, a := range l.Flies {
				for _, b := range l.Flies[:i] {
					list, _, _ := Separators(v, find(taxa, a), find(taxa, b))
					for _, s := range list {
						apart = true
						if len(s.A.States) < 2 || len(s.B.States) < 2 {
							t.Fatalf("%s and %s are separated by %s", a, b, s.Character)
						}
					}
				}
			}
			if apart != l.Apart {
				t.Fatalf("%v: apart is %v", l.Flies, l.Apart)
			}
		}
	})
}

// Two states against two others: no one state parts them, and the lead says
// that they differ all the same.
func TestApart(t *testing.T) {
	v := Vocabulary{word("mark", "p", "q", "r", "s")}
	k := Build(v, []Taxon{
		fly("a", 0.1, "mark", "p", "mark", "q"), fly("b", 0.1, "mark", "r", "mark", "s")}, Defaults())
	assert.Equal(t, Lead{Flies: []string{"a", "b"}, Apart: true}, k.Start)
}

func find(taxa []Taxon, id string) Taxon {
	return taxa[slices.IndexFunc(taxa, func(x Taxon) bool { return x.ID == id })]
}

// invented makes n flies with m characters of four states, a share of them unknown.
func invented(n, m int, unknown float64) (Vocabulary, []Taxon) {
	r := rand.New(rand.NewPCG(1, 2))
	var v Vocabulary
	for c := range m {
		v = append(v, Character{Name: fmt.Sprint("c", c), States: []string{"p", "q", "r", "s"}, Needs: Needs(c % 3)})
	}
	var taxa []Taxon
	for i := range n {
		x := fly(fmt.Sprint("f", i), r.Float64())
		for _, c := range v {
			if r.Float64() >= unknown {
				x.Values[c.Name] = Value{States: []string{c.States[r.IntN(4)]}}
			}
		}
		taxa = append(taxa, x)
	}
	return v, taxa
}

func BenchmarkBuild500Flies40Characters(b *testing.B) {
	for _, unknown := range []float64{0, 0.1, 0.3, 0.6} {
		v, taxa := invented(500, 40, unknown)
		b.Run(fmt.Sprint("unknown ", unknown), func(b *testing.B) {
			var k Key
			for b.Loop() {
				k = Build(v, taxa, Defaults())
			}
			b.ReportMetric(float64(len(k.Couplets)), "couplets")
			b.ReportMetric(k.MeanSteps, "steps")
		})
	}
}

// By hand. The upper eye parts two from two (1 bit), the legs one from three (0.811): by gain alone the
// eye would come first, and a female could not get past it. Legs come first, and the eye last.
func TestWhatOneSexShowsIsAskedLast(t *testing.T) {
	v := Vocabulary{word("upper eye", "red", "brown"), word("legs", "pale", "dark")}
	v[0].SeenIn = []Form{{"dun", "male"}, {"spinner", "male"}}
	k := Build(v, []Taxon{
		fly("a", 0.24, "upper eye", "red", "legs", "pale"),
		fly("b", 0.24, "upper eye", "red", "legs", "dark"),
		fly("c", 0.24, "upper eye", "brown", "legs", "dark"),
		fly("d", 0.24, "upper eye", "brown", "legs", "dark"),
	}, Defaults())
	require.Len(t, k.Couplets, 2)
	assert.Equal(t, "legs", k.Couplets[0].Character)
	assert.Equal(t, "upper eye", k.Couplets[1].Character)
	assert.Equal(t, []string{"b", "c", "d"}, k.Under(2), "what a female may be")
	assert.Equal(t, []string{"a", "b", "c", "d"}, k.Under(1))
}

// Whatever the flies: below a couplet that one sex alone can answer stands no other, so that the other
// sex gets as far as it can.
func TestBelowOneSexNothingElse(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := Vocabulary{}
		for i := range rapid.IntRange(1, 5).Draw(rt, "characters") {
			c := word(fmt.Sprint("c", i), "x", "y", "z")
			if rapid.Bool().Draw(rt, "one sex") {
				c.SeenIn = []Form{{"dun", "male"}}
			}
			v = append(v, c)
		}
		var taxa []Taxon
		for i := range rapid.IntRange(2, 8).Draw(rt, "flies") {
			x := fly(fmt.Sprint("f", i), 0.1)
			for _, c := range v {
				if s := rapid.SliceOfNDistinct(rapid.SampledFrom(c.States), 0, 2, rapid.ID[string]).Draw(rt, "states"); len(s) > 0 {
					x.Values[c.Name] = Value{States: s}
				}
			}
			taxa = append(taxa, x)
		}
		k := Build(v, taxa, Defaults())
		for _, c := range k.Couplets {
			for from := c.From; from > 0; from = k.Couplets[from-1].From {
				if k.Couplets[from-1].OnlyIn != "" && c.OnlyIn == "" {
					rt.Fatalf("couplet %d (%s) stands below %d (%s)", c.Number, c.Character, from, k.Couplets[from-1].Character)
				}
			}
		}
	})
}
