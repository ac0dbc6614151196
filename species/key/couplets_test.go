package key

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func word(name string, states ...string) Character { return Character{Name: name, States: states} }

// in are flies as specimens, each form with a length and equal chances.
func in(flies []*Fly, lengths map[string][2]float64) (out []Specimen) {
	for _, f := range flies {
		for _, form := range f.Forms {
			s := Specimen{Fly: f, Form: form, Chance: 0.5}
			if l, ok := lengths[f.ID]; ok {
				s.Length = Measure{Low: l[0], High: l[1], Part: "body"}
			}
			out = append(out, s)
		}
	}
	return out
}

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

// The rules' worked example: flies of 5–6, 7.5–9 and 5.5–8.5 mm are asked at 6.5.
func TestLengthCoupletWorkedByHand(t *testing.T) {
	flies := []*Fly{fly("a", "g", dunMale), fly("b", "g", dunMale), fly("c", "g", dunMale)}
	set := in(flies, map[string][2]float64{"a": {5, 6}, "b": {7.5, 9}, "c": {5.5, 8.5}})
	k := NewGuide(nil, flies).Build(set, Defaults())
	require.NotEmpty(t, k.Couplets)
	assert.Equal(t, LengthCharacter, k.Couplets[0].Character)
	assert.Equal(t, 6.5, k.Couplets[0].Limit)
	b := builder{all: set, set: Defaults()}
	root := &branch{gone: map[[2]int]bool{}, in: []member{{0, 1, 1}, {1, 1, 1}, {2, 1, 1}}}
	for limit, want := range map[float64][]side{6: {bothSides, noSide, bothSides}, 6.5: {yesSide, noSide, bothSides}, 7: {yesSide, noSide, bothSides}, 7.5: {yesSide, bothSides, bothSides}, 9: {yesSide, bothSides, yesSide}} {
		for i, w := range want {
			assert.Equal(t, w, b.goes(root, question{character: asksLength, limit: limit}, false, set[i]), "%v at %v", set[i].Fly.ID, limit)
		}
	}
	// Where body and overall are both in play, a tenth of the limit goes both ways.
	assert.Equal(t, bothSides, b.goes(root, question{character: asksLength, limit: 6.5}, true, set[0]), "6 is within 0.65 of 6.5")
	set[1].Length.Part = "overall"
	assert.True(t, b.mixed(root.in))
	// What is to be measured is said where all in play are measured alike.
	for want, parts := range map[string][3]string{"overall": {"overall", "overall", "overall"}, "body": {"body", "body", "body"}, "": {"overall", "body", "body"}} {
		for i, part := range parts {
			set[i].Length.Part = part
		}
		couplets := NewGuide(nil, flies).Build(set, Defaults()).Couplets
		require.NotEmpty(t, couplets, want)
		assert.Equal(t, want, couplets[0].Part)
	}
}

// Pale from L* 60, dark below 30; within 4 of a limit, or not known, both ways.
func TestShadeCouplets(t *testing.T) {
	b := builder{set: Defaults()}
	root := &branch{gone: map[[2]int]bool{}}
	for _, c := range []struct {
		l          float64
		pale, dark side
	}{{70, yesSide, noSide}, {64, bothSides, noSide}, {64.1, yesSide, noSide}, {56, bothSides, noSide}, {55.9, noSide, noSide}, {45, noSide, noSide}, {34, noSide, bothSides}, {26, noSide, bothSides}, {25.9, noSide, yesSide}} {
		s := Specimen{Fly: fly("a", "g", dunMale).tinted(Body, grey(c.l)), Form: dunMale}
		assert.Equal(t, c.pale, b.goes(root, question{character: asksShade, state: 0}, false, s), "pale at %v", c.l)
		assert.Equal(t, c.dark, b.goes(root, question{character: asksShade, state: 1}, false, s), "dark at %v", c.l)
	}
	assert.Equal(t, bothSides, b.goes(root, question{character: asksShade}, false, Specimen{Fly: fly("a", "g", dunMale), Form: dunMale}))
	flies := []*Fly{fly("p", "g", dunMale).tinted(Body, grey(80)), fly("m", "g", dunMale).tinted(Body, grey(45)), fly("d", "g", dunMale).tinted(Body, grey(10))}
	k := NewGuide(nil, flies).Build(in(flies, nil), Defaults())
	require.Len(t, k.Couplets, 2)
	assert.Equal(t, []string{Pale}, k.Couplets[0].Leads[0].States)
	assert.Equal(t, []string{Mid, Dark}, k.Couplets[0].Leads[1].States)
	assert.Equal(t, []string{Mid}, k.Couplets[1].Leads[1].States)
}

// A feature is asked only where every specimen in play can show it.
func TestOnlyWhatAllCanShowIsAsked(t *testing.T) {
	eyes := Character{Name: "eyes", States: []string{"big", "small"}, SeenIn: []Form{{"", "male"}}}
	wings := word("wings", "clear", "dull")
	a := fly("a", "g", dunMale, dunFemale).with("eyes", "big").with("wings", "clear")
	b := fly("b", "g", dunMale, dunFemale).with("eyes", "small").with("wings", "dull")
	c := fly("c", "h", dunMale, dunFemale).with("wings", "dull")
	k := NewGuide(Vocabulary{eyes, wings}, []*Fly{a, b}).Build(in([]*Fly{a, b}, nil), Defaults())
	require.Len(t, k.Couplets, 1)
	assert.Equal(t, "wings", k.Couplets[0].Character, "females don't show the eyes")
	only := Character{Name: "only", States: []string{"x", "y"}}
	a.with("only", "x")
	b.with("only", "y")
	g := NewGuide(Vocabulary{only}, []*Fly{a, b, c})
	assert.Equal(t, []string{"g"}, g.Vocabulary[0].Groups, "the group of which some fly has a state")
	assert.Len(t, g.Build(in([]*Fly{a, b}, nil), Defaults()).Couplets, 1)
	assert.Empty(t, g.Build(in([]*Fly{a, b, c}, nil), Defaults()).Couplets, "c's group doesn't have it")
}

// The naked eye goes before the lens unless the lens tells four times as much; the microscope only where neither tells.
func TestEasierWaysOfSeeingGoFirst(t *testing.T) {
	build := func(chars Vocabulary, states map[string][]string) Key {
		var flies []*Fly
		for i := range 8 {
			f := fly(fmt.Sprint("f", i), "g", dunMale)
			for name, s := range states {
				f.with(name, s[i%len(s)])
			}
			flies = append(flies, f)
		}
		return NewGuide(chars, flies).Build(in(flies, nil), Defaults())
	}
	half, one := []string{"x", "y"}, []string{"x", "y", "y", "y", "y", "y", "y", "y"} // gains of 1 and 0.54 bits
	eye, lens, micro := word("eye", "x", "y"), word("lens", "x", "y"), word("micro", "x", "y")
	lens.Needs, micro.Needs = HandLens, Microscope
	first := func(k Key) string { return k.Couplets[0].Character }
	assert.Equal(t, "eye", first(build(Vocabulary{lens, eye}, map[string][]string{"eye": one, "lens": half})), "0.54 of 1 is more than a quarter")
	assert.Equal(t, "eye", first(build(Vocabulary{micro, eye}, map[string][]string{"eye": one, "micro": half})))
	assert.Equal(t, "micro", first(build(Vocabulary{micro, eye}, map[string][]string{"eye": {"x"}, "micro": half})))
	set := Defaults()
	set.Easy = 0.6
	var flies []*Fly
	for i := range 8 {
		flies = append(flies, fly(fmt.Sprint("f", i), "g", dunMale).with("eye", one[i]).with("lens", half[i%2]))
	}
	assert.Equal(t, "lens", NewGuide(Vocabulary{eye, lens}, flies).Build(in(flies, nil), set).Couplets[0].Character)
}

// Of splits nearly as good the order of looking decides; what rests on memory alone counts for less.
func TestTheOrderOfLooking(t *testing.T) {
	wings, other := word("zz", "x", "y"), word("aa", "x", "y")
	wings.Role = Posture
	a, b := fly("a", "g", dunMale).with("zz", "x").with("aa", "x"), fly("b", "g", dunMale).with("zz", "y").with("aa", "y")
	first := func(set Settings) string {
		return NewGuide(Vocabulary{other, wings}, []*Fly{a, b}).Build(in([]*Fly{a, b}, nil), set).Couplets[0].Character
	}
	assert.Equal(t, "zz", first(Defaults()))
	a.Memory[dunMale]["zz"], b.Memory[dunMale]["zz"] = true, true
	assert.Equal(t, "zz", first(Defaults()), "0.8 of the best is still within three quarters")
	set := Defaults()
	set.Memory = 0.3
	assert.Equal(t, "aa", first(set))
}

// A specimen with nothing known, or with states on both sides, goes both ways with half its weight; a state that was
// answered no is no longer among the rest.
func TestBothWays(t *testing.T) {
	c := word("c", "p", "q", "r")
	a, b, both, none := fly("a", "g", dunMale).with("c", "p"), fly("b", "g", dunMale).with("c", "q"), fly("both", "g", dunMale).with("c", "p", "q"), fly("none", "g", dunMale)
	flies := []*Fly{a, b, both, none}
	k := NewGuide(Vocabulary{c}, flies).Build(in(flies, nil), Defaults())
	for _, id := range []string{"both", "none"} {
		n := 0
		for _, l := range leaves(k) {
			if slices.Contains(l, id) {
				n++
			}
		}
		assert.GreaterOrEqual(t, n, 2, id)
	}
	assert.Equal(t, 4, k.Couplets[0].Flies)
	// By hand: of three flies one goes both ways, half on either side: log₂ 3 - H(2/3, 1/3).
	w := builder{v: Vocabulary{c}, all: []Specimen{{Fly: a, Form: dunMale}, {Fly: b, Form: dunMale}, {Fly: both, Form: dunMale}}, set: Defaults()}
	got, ok := w.worth(&branch{in: []member{{0, 1, 1}, {1, 1, 1}, {2, 1, 1}}}, question{character: 0, state: 0}, NakedEye, false)
	assert.True(t, ok)
	assert.InDelta(t, 2.0/3, got.gain, 1e-9)
	x := &branch{gone: map[[2]int]bool{{0, 0}: true}}
	assert.Equal(t, yesSide, builder{v: Vocabulary{c}}.goes(x, question{character: 0, state: 1}, false, Specimen{Fly: both, Form: dunMale}))
}

// Where no question makes both sides smaller, one that tells a part of a fly's specimens for sure is asked: lengths too
// near each other for one limit are asked at two, and a feature that only some specimens of a fly have is asked. Nothing
// known is no ground for asking so.
func TestOneSideMayKeepAll(t *testing.T) {
	a, b := fly("a", "g", dunMale).with("c", "p"), fly("b", "g", dunMale).with("c", "p", "q")
	flies := []*Fly{a, b}
	k := NewGuide(nil, flies).Build(in(flies, map[string][2]float64{"a": {5, 7}, "b": {7.5, 9}}), Defaults())
	require.Len(t, k.Couplets, 2)
	assert.Equal(t, []float64{7, 7.5}, []float64{k.Couplets[0].Limit, k.Couplets[1].Limit})
	assert.Equal(t, [][]string{{"a"}, {"a", "b"}, {"b"}}, leaves(k))
	k = NewGuide(nil, flies).Build(in(flies, map[string][2]float64{"a": {5, 6.2}, "b": {6.3, 8}}), Defaults())
	require.Len(t, k.Couplets, 2, "no limit is asked twice")
	assert.ElementsMatch(t, []float64{5.5, 7}, []float64{k.Couplets[0].Limit, k.Couplets[1].Limit}, "the nearest to the other fly's lengths")
	v := Vocabulary{word("c", "p", "q")}
	assert.Equal(t, [][]string{{"a", "b"}, {"b"}}, leaves(NewGuide(v, flies).Build(in(flies, nil), Defaults())))
	delete(b.States[dunMale], "c")
	assert.Empty(t, NewGuide(v, flies).Build(in(flies, nil), Defaults()).Couplets)
}

func TestKeyOfNoneAndOne(t *testing.T) {
	assert.Equal(t, Key{}, NewGuide(nil, nil).Build(nil, Defaults()))
	a := fly("a", "g", dunMale, dunFemale).with("c", "p")
	a.States[dunFemale]["c"] = []string{"q"}
	k := NewGuide(Vocabulary{word("c", "p", "q")}, []*Fly{a}).Build(in([]*Fly{a}, nil), Defaults())
	assert.Empty(t, k.Couplets, "one fly, in whatever forms, is done")
	assert.Equal(t, []string{"a"}, k.Start.Flies)
	set := in([]*Fly{a}, nil)
	set[0].LeftOut = true
	assert.Equal(t, []string{"a"}, NewGuide(nil, nil).Build(set, Defaults()).LeftOut)
}

// families reads 25 adult taxa (general entomology: Royal Entomological Society, national keys; many rows from memory)
// with the characters from wings to spurs. An empty cell is not known.
func families(t testing.TB, notApplicable bool) (Vocabulary, []*Fly) {
	head, table := rows(t, "../../testdata/checks/keys/families.csv")
	var v Vocabulary
	var flies []*Fly
	for _, r := range table {
		flies = append(flies, fly(r["taxon"], "all", adultMale))
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
			flies[i].with(name, s)
		}
		v = append(v, c)
	}
	return v, flies
}

// Exactly one pair can't be separated, and one more character separates it: so too whether "na" is read as a state or
// as not known.
func TestKeyOfFamilies(t *testing.T) {
	for _, na := range []bool{true, false} {
		v, flies := families(t, na)
		require.Len(t, flies, 25)
		require.Len(t, v, 11)
		several := map[string]bool{}
		for _, l := range leaves(NewGuide(v, flies).Build(in(flies, nil), Defaults())) {
			if len(l) > 1 {
				several[fmt.Sprint(l)] = true
			}
		}
		assert.Equal(t, map[string]bool{"[Perlidae Perlodidae]": true}, several)
		v = append(v, word("thoracic_gill_remnants", "yes", "no"))
		for _, f := range flies {
			switch f.Name {
			case "Perlidae":
				f.with("thoracic_gill_remnants", "yes")
			case "Perlodidae":
				f.with("thoracic_gill_remnants", "no")
			}
		}
		k := NewGuide(v, flies).Build(in(flies, nil), Defaults())
		for _, l := range leaves(k) {
			assert.Len(t, l, 1)
		}
		// No key of 25 with two-way couplets is shorter than log₂ 25 steps.
		assert.GreaterOrEqual(t, k.MeanSteps, math.Log2(25))
		assert.Less(t, k.MeanSteps, 7.0)
	}
}

// drawn is a random set: several states, unknown characters, all needs, lengths and shades.
func drawn(t *rapid.T) (Vocabulary, []*Fly, []Specimen) {
	var v Vocabulary
	for i := range rapid.IntRange(0, 5).Draw(t, "characters") {
		v = append(v, Character{Name: fmt.Sprint("c", i), States: []string{"p", "q", "r", "s"}[:rapid.IntRange(1, 4).Draw(t, "states")],
			Needs: Needs(rapid.IntRange(0, 2).Draw(t, "needs")), Role: Role(rapid.IntRange(0, 4).Draw(t, "role"))})
	}
	var flies []*Fly
	lengths := map[string][2]float64{}
	for i := range rapid.IntRange(0, 9).Draw(t, "flies") {
		f := fly(fmt.Sprint("f", i), "g", dunMale, dunFemale)
		for _, form := range f.Forms {
			for _, c := range v {
				for _, s := range c.States {
					if rapid.IntRange(0, 2).Draw(t, "has") == 0 {
						f.States[form][c.Name] = append(f.States[form][c.Name], s)
					}
				}
			}
			if rapid.Bool().Draw(t, "coloured") {
				f.Colours[form][Body] = grey(rapid.Float64Range(0, 100).Draw(t, "L"))
			}
		}
		if low := rapid.Float64Range(0, 12).Draw(t, "low"); low > 2 {
			lengths[f.ID] = [2]float64{low, low + rapid.Float64Range(0, 3).Draw(t, "more")}
		}
		flies = append(flies, f)
	}
	return v, flies, in(flies, lengths)
}

// A specimen has one of the states its account gives, any where it gives none, a length in its range and its own shade.
// Whichever, true answers lead it to a list that names its fly, and every couplet on the way can be answered truly.
func TestKeyLeadsEverySpecimenToItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, flies, set := drawn(t)
		k := NewGuide(v, flies).Build(set, Defaults())
		for _, s := range set {
			lead := k.Start
			for lead.Next > 0 {
				c := k.Couplets[lead.Next-1]
				lead = c.Leads[rapid.SampledFrom(truly(c, s, t)).Draw(t, "side")]
			}
			if !slices.Contains(lead.Flies, s.Fly.ID) {
				t.Fatalf("%s %v arrives at %v", s.Fly.ID, s.Form, lead.Flies)
			}
		}
		if k.MeanSteps < 0 || k.MeanSteps > float64(len(k.Couplets)) {
			t.Fatalf("mean steps %v of %d couplets", k.MeanSteps, len(k.Couplets))
		}
	})
}

// truly are the sides of a couplet that are true of a specimen.
func truly(c Couplet, s Specimen, t *rapid.T) (sides []int) {
	switch c.Character {
	case LengthCharacter:
		l := s.Length
		if l.High == 0 || l.Low <= c.Limit {
			sides = append(sides, 0)
		}
		if l.High == 0 || l.High > c.Limit {
			sides = append(sides, 1)
		}
		return sides
	case ShadeCharacter:
		tint, ok := s.Fly.Colours[s.Form][Body]
		shade := Mid
		switch {
		case tint.Lab.L >= 60:
			shade = Pale
		case tint.Lab.L < 30:
			shade = Dark
		}
		for i, l := range c.Leads {
			if !ok || slices.Contains(l.States, shade) {
				sides = append(sides, i)
			}
		}
		return sides
	}
	known := s.Fly.States[s.Form][c.Character]
	for i, l := range c.Leads {
		if len(known) == 0 || meet(l.States, known) {
			sides = append(sides, i)
		}
	}
	return sides
}

// The order of specimens decides nothing but the order of names at an end.
func TestTheOrderOfSpecimensDecidesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, flies, set := drawn(t)
		shape := func(set []Specimen) string {
			text := ""
			for _, c := range NewGuide(v, flies).Build(set, Defaults()).Couplets {
				text += fmt.Sprint(c.Number, c.From, c.Character, c.Limit, c.Flies, c.Leads[0].States, c.Leads[1].States, c.Leads[0].Next, c.Leads[1].Next, ";")
			}
			return text
		}
		if a, b := shape(set), shape(rapid.Permutation(set).Draw(t, "order")); a != b {
			t.Fatalf("%s\n%s", a, b)
		}
	})
}

func TestKeyIsCut(t *testing.T) {
	v, flies := families(t, true)
	set := Defaults()
	set.MostCouplets = 3
	k := NewGuide(v, flies).Build(in(flies, nil), set)
	assert.True(t, k.Cut)
	assert.Len(t, k.Couplets, 3)
}
