package key

import (
	"math"
	"slices"
	"testing"

	"guidegen/species/colour"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// By hand: Σmin = 0.1 + 0.2, the smaller sum is 0.3 + 0.3 = 0.6.
func TestOverlap(t *testing.T) {
	assert.InDelta(t, 0.5, Overlap([]float64{0.1, 0.4, 0.5, 0}, []float64{0.3, 0.2, 0, 0.1}), 1e-12)
	assert.InDelta(t, 1, Overlap([]float64{0, 0.2, 0}, []float64{0.5, 0.5, 0.5}), 1e-12, "a short season within a long one")
	assert.Zero(t, Overlap([]float64{1, 0}, []float64{0, 1}))
	assert.Zero(t, Overlap([]float64{0, 0}, []float64{1, 1}), "nothing to overlap")
	assert.Zero(t, Overlap(nil, nil))
}

// blues are three of the published pairs' colours: the first differs from the
// second by 2.0425 and from the third by 3.4412 (Sharma, Wu & Dalal 2005,
// Color Res. Appl. 30:21–30, pairs 1 and 3).
var blues = []colour.Lab{
	{L: 50, A: 0, B: -82.7485}, {L: 50, A: 2.6772, B: -79.7751}, {L: 50, A: 2.8361, B: -74.0200}}

// gower is a guide of three flies for Gower's similarity by hand.
func gower() (Vocabulary, []Taxon) {
	v := Vocabulary{
		word("tails", "two", "three"), word("hind wing", "none", "tiny"), word("spurs", "one", "two"),
		{Name: "length", Kind: Length}, {Name: "body", Kind: Colour}}
	a := fly("a", 0, "tails", "two", "hind wing", "tiny")
	b := fly("b", 0, "tails", "two", "tails", "three", "hind wing", "none", "spurs", "one")
	c := fly("c", 0, "tails", "three", "body", "blue")
	a.Values["length"] = Value{Size: &Size{Low: 7, High: 9, Median: 8.9}} // middle 8
	b.Values["length"] = Value{Size: &Size{Low: 5, High: 6}}              // middle 5.5
	c.Values["length"] = Value{Size: &Size{Low: 14, High: 17}}            // middle 15.5
	a.Values["body"] = Value{States: []string{"blue"}, Lab: &blues[0]}
	b.Values["body"] = Value{Lab: &blues[1]}
	d := fly("d", 0)
	d.Values["body"] = Value{Lab: &blues[2]}
	return v, []Taxon{a, b, c, d}
}

// By hand. Ranges: length 15.5 - 5.5 = 10; body 3.4412 (published).
// a and b: tails meet 1; hind wing 0; spurs known for one only, left out;
// length 1 - 2.5/10 = 0.75; body 1 - 2.0425/3.4412 = 0.40646.
// Sum 2.15646 over 4. a and c: tails 0, length 1 - 7.5/10, body by words 1.
func TestSimilarityWorkedByHand(t *testing.T) {
	v, taxa := gower()
	r := RangesOf(v, taxa)
	assert.InDelta(t, 10, r["length"], 1e-12)
	assert.InDelta(t, 3.4412, r["body"], 1e-4)
	s, n := Similarity(v, r, taxa[0], taxa[1])
	assert.Equal(t, 4, n)
	assert.InDelta(t, 2.15646/4, s, 1e-4)
	s, n = Similarity(v, r, taxa[0], taxa[2])
	assert.Equal(t, 3, n)
	assert.InDelta(t, 1.25/3, s, 1e-12)
	s, n = Similarity(v, r, taxa[2], taxa[3])
	assert.Zero(t, n, "nothing known for both")
	assert.Zero(t, s)
	// All alike in a length that doesn't vary; nothing like in one from outside.
	s, _ = Similarity(v, Ranges{}, taxa[0], taxa[0])
	assert.Equal(t, 1.0, s)
	s, _ = Similarity(Vocabulary{v[3]}, Ranges{"length": 1}, taxa[0], taxa[2])
	assert.Zero(t, s)
}

func TestSimilarityIsASimilarity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, taxa := drawn(t)
		r := RangesOf(v, taxa)
		for i, a := range taxa {
			if s, n := Similarity(v, r, a, a); n > 0 && s != 1 {
				t.Fatalf("to itself %v", s)
			}
			for _, b := range taxa[:i] {
				s, n := Similarity(v, r, a, b)
				back, m := Similarity(v, r, b, a)
				if s != back || n != m || s < 0 || s > 1 {
					t.Fatalf("%v over %d, back %v over %d", s, n, back, m)
				}
				list, verdict, _ := Separators(v, a, b)
				if (n == 0) != (verdict == NothingKnown) || (n > 0 && s == 1) != (verdict == NotSeparable) || (len(list) > 0) == (verdict >= NotSeparable) {
					t.Fatalf("similarity %v over %d, verdict %v, %d separators", s, n, verdict, len(list))
				}
			}
		}
	})
}

func TestSeparators(t *testing.T) {
	eyes := Character{Name: "eyes", States: []string{"plain", "turban"}, SeenIn: []Form{{"dun", "male"}, {"spinner", "male"}}}
	eggs := Character{Name: "egg plate", States: []string{"round", "split"}, SeenIn: []Form{{"dun", "female"}}, Needs: HandLens}
	veins := Character{Name: "veins", States: []string{"few", "many"}, Needs: HandLens}
	claspers := Character{Name: "claspers", States: []string{"long", "short"}, Needs: Microscope}
	tails := word("tails", "two", "three")
	v := Vocabulary{claspers, veins, eggs, eyes, tails, {Name: "length", Kind: Length}, {Name: "body", Kind: Colour}}
	long := func(x Taxon, low, high float64) Taxon {
		x.Values["length"] = Value{Size: &Size{Low: low, High: high}}
		return x
	}
	for _, c := range []struct {
		name    string
		a, b    Taxon
		list    []string
		verdict Verdict
		sex     string
	}{
		{"nothing known", fly("a", 0), fly("b", 0, "tails", "two"), nil, NothingKnown, ""},
		{"nothing separates", fly("a", 0, "tails", "two"), fly("b", 0, "tails", "two", "tails", "three"), nil, NotSeparable, ""},
		{"microscope alone", fly("a", 0, "claspers", "long", "tails", "two"), fly("b", 0, "claspers", "short", "tails", "two"), []string{"claspers"}, OnlyMicroscope, ""},
		{"males alone", fly("a", 0, "claspers", "long", "eyes", "plain"), fly("b", 0, "claspers", "short", "eyes", "turban"), []string{"eyes", "claspers"}, OneSexInTheHand, "male"},
		{"each sex by its own", fly("a", 0, "egg plate", "round", "eyes", "plain"), fly("b", 0, "egg plate", "split", "eyes", "turban"), []string{"eyes", "egg plate"}, InTheHand, ""},
		{"easiest first", fly("a", 0, "claspers", "long", "veins", "few", "tails", "two", "eyes", "plain"), fly("b", 0, "claspers", "short", "veins", "many", "tails", "three", "eyes", "turban"), []string{"eyes", "tails", "veins", "claspers"}, InTheHand, ""},
		{"lengths apart", long(fly("a", 0), 4, 6), long(fly("b", 0), 7, 9), []string{"length"}, InTheHand, ""},
		{"lengths touch", long(fly("a", 0), 4, 7), long(fly("b", 0), 7, 9), nil, NotSeparable, ""},
		{"a colour never separates", fly("a", 0, "body", "olive"), fly("b", 0, "body", "brown"), nil, NotSeparable, ""},
	} {
		list, verdict, sex := Separators(v, c.a, c.b)
		var got []string
		for _, s := range list {
			got = append(got, s.Character)
		}
		assert.Equal(t, c.list, got, c.name)
		assert.Equal(t, c.verdict, verdict, c.name)
		assert.Equal(t, c.sex, sex, c.name)
		assert.Equal(t, c.verdict == InTheHand || c.verdict == OneSexInTheHand, verdict.Separable(), c.name)
	}
}

func TestLookAlikes(t *testing.T) {
	v := Vocabulary{word("tails", "two", "three"), word("wings", "clear", "dull")}
	at := func(x Taxon, curve ...float64) Season { return Season{x, curve} }
	dun := at(fly("Olive", 0, "tails", "two", "wings", "dull"), 0.5, 0.5, 0, 0)
	others := []Season{
		at(fly("Winter", 0, "tails", "two", "wings", "dull"), 0, 0, 0.5, 0.5), // never together
		at(fly("Unknown", 0), 0.5, 0.5, 0, 0),
		at(fly("Zebra", 0, "tails", "two", "wings", "dull"), 0.2, 0, 0.8, 0), // 0.2 of 1: just enough
		at(fly("Short", 0, "tails", "two", "wings", "dull"), 0.19, 0, 0.81, 0),
		at(fly("Half", 0, "tails", "two", "wings", "clear"), 0.5, 0, 0, 0),
		at(fly("Amber", 0, "tails", "two"), 0.5, 0.5, 0, 0),
		at(fly("Olive", 0, "tails", "two"), 0.5, 0.5, 0, 0), // itself
	}
	got, more := LookAlikes(v, Ranges{}, dun, others, LeastOverlap, 4, nil)
	require.Len(t, got, 4)
	assert.Zero(t, more)
	var names []string
	for _, l := range got {
		names = append(names, l.Name)
	}
	assert.Equal(t, []string{"Amber", "Zebra", "Half", "Unknown"}, names)
	assert.InDelta(t, 0.2, got[1].Overlap, 1e-12)
	assert.Equal(t, []float64{1, 1, 0.5, 0}, []float64{got[0].Similarity, got[1].Similarity, got[2].Similarity, got[3].Similarity})
	assert.Equal(t, []int{1, 2, 2, 0}, []int{got[0].Compared, got[1].Compared, got[2].Compared, got[3].Compared})
	assert.Equal(t, []Verdict{NotSeparable, NotSeparable, InTheHand, NothingKnown}, []Verdict{got[0].Verdict, got[1].Verdict, got[2].Verdict, got[3].Verdict})
	assert.Equal(t, Value{States: []string{"dull"}}, got[2].Separators[0].A)

	for _, c := range []struct {
		most  int
		named map[string]bool
		names []string
	}{
		{1, nil, []string{"Amber"}},
		{2, map[string]bool{"Unknown": true, "Amber": true}, []string{"Amber", "Zebra", "Unknown"}},
		{1, map[string]bool{"Winter": true}, []string{"Amber"}}, // named, but never together
		{9, nil, names},
	} {
		few, more := LookAlikes(v, Ranges{}, dun, others, LeastOverlap, c.most, c.named)
		var listed []string
		for _, l := range few {
			listed = append(listed, l.Name)
			assert.Equal(t, c.named[l.ID], l.Named)
			i := slices.Index(names, l.Name)
			l.Named = false
			assert.Equal(t, got[i], l, "a limit changes no look-alike")
		}
		assert.Equal(t, c.names, listed)
		assert.Equal(t, len(names)-len(listed), more)
	}
}

func TestCompare(t *testing.T) {
	v := Vocabulary{
		word("tails", "two", "three"), word("wings", "dull", "clear"), word("eyes", "plain", "turban"), word("spurs", "one", "two"),
		{Name: "length", Kind: Length}, {Name: "body", Kind: Colour}, {Name: "wing colour", Kind: Colour}, {Name: "legs", Kind: Colour}}
	dun := fly("dun", 0, "tails", "two", "wings", "dull", "body", "dark olive", "legs", "grey")
	spinner := fly("spinner", 0, "tails", "two", "wings", "clear", "eyes", "turban", "body", "brown")
	dun.Values["length"] = Value{Size: &Size{Low: 7.5, High: 9.5, Median: 8}}
	spinner.Values["length"] = Value{Size: &Size{Low: 7, High: 8.6}} // middle 7.8
	dun.Values["wing colour"] = Value{Lab: &blues[0]}
	spinner.Values["wing colour"] = Value{Lab: &blues[1]}
	got := Compare(v, dun, spinner)
	var names []string
	for _, r := range got {
		names = append(names, r.Character)
	}
	// Those that differ first; spurs are known for neither.
	assert.Equal(t, []string{"wings", "body", "wing colour", "tails", "eyes", "length", "legs"}, names)
	for i, r := range got {
		assert.Equal(t, i < 3, r.Differs, r.Character)
	}
	assert.InDelta(t, 0.975, got[5].Ratio, 1e-12) // 7.8 / 8
	assert.InDelta(t, 2.0425, got[2].DeltaE, 1e-4)
	assert.True(t, got[2].HasDeltaE)
	assert.False(t, got[1].HasDeltaE)
	assert.False(t, got[4].A.Known())
	assert.Equal(t, []string{"turban"}, got[4].B.States)

	spinner.Values["length"] = Value{Size: &Size{Low: 9.6, High: 10}}
	spinner.Values["wing colour"] = Value{Lab: &blues[0]}
	got = Compare(Vocabulary{v[6], v[4]}, dun, spinner)
	assert.Equal(t, "length", got[0].Character, "ranges that don't meet differ")
	assert.False(t, got[1].Differs, "colours that no tyer could tell apart don't")
	assert.True(t, got[1].HasDeltaE)
	assert.Zero(t, got[1].DeltaE)
}

func TestVocabulary(t *testing.T) {
	v := Vocabulary{
		{Name: "eyes", SeenIn: []Form{{"dun", "male"}, {"spinner", "male"}, {"nymph", ""}}},
		{Name: "gills", SeenIn: []Form{{"nymph", ""}}},
		{Name: "any"},
		{Name: "male", SeenIn: []Form{{"", "male"}}},
		{Name: "either", SeenIn: []Form{{"dun", "male"}, {"dun", "female"}}},
	}
	assert.Empty(t, v[0].OnlyIn())
	dun := v.In("dun")
	var names, only []string
	for _, c := range dun {
		names, only = append(names, c.Name), append(only, c.OnlyIn())
	}
	assert.Equal(t, []string{"eyes", "any", "male", "either"}, names)
	assert.Equal(t, []string{"male", "", "male", ""}, only)
	assert.Len(t, v[0].SeenIn, 3, "the vocabulary itself is untouched")

	for _, n := range []Needs{NakedEye, HandLens, Microscope} {
		text, err := n.MarshalText()
		require.NoError(t, err)
		var back Needs
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, n, back)
	}
	var n Needs
	assert.ErrorContains(t, n.UnmarshalText([]byte("telescope")), "telescope")
	assert.Equal(t, "Needs(7)", Needs(7).String())
	assert.Zero(t, Taxon{Chance: math.Inf(1)}.chance())
}

func TestTheOrderOfFliesDecidesNoLookAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, taxa := drawn(t)
		if len(taxa) == 0 {
			return
		}
		var all []Season
		for _, x := range taxa {
			all = append(all, Season{x, []float64{0.5, 0.5}})
		}
		most, named := rapid.IntRange(1, 5).Draw(t, "most"), map[string]bool{taxa[len(taxa)-1].ID: true}
		list, more := LookAlikes(v, RangesOf(v, taxa), all[0], all, LeastOverlap, most, named)
		again, left := LookAlikes(v, RangesOf(v, taxa), all[0], rapid.Permutation(all).Draw(t, "order"), LeastOverlap, most, named)
		if more != left || !assert.ObjectsAreEqual(list, again) {
			t.Fatalf("%v and %d more, in another order %v and %d", list, more, again, left)
		}
		if n := len(list); len(taxa) != 1+n+more || n > most+1 || n == most+1 && !list[n-1].Named {
			t.Fatalf("%d of %d listed, %d more", n, len(taxa), more)
		}
	})
}
