package key

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
	"guidegen/species/colour"
)

var (
	dunMale, dunFemale = Form{"dun", "male"}, Form{"dun", "female"}
	adultMale          = Form{"adult", "male"}
)

// grey is a colour of a lightness; two of them differ by CIEDE2000, which for greys near L* 50 is the difference.
func grey(l float64) Tint { return Tint{Words: "grey", Lab: colour.Lab{L: l}} }

// fly is a fly in the given forms, of which nothing is known yet.
func fly(id, group string, forms ...Form) *Fly {
	f := &Fly{ID: id, Name: id, Group: group, Forms: forms, States: map[Form]map[string][]string{}, Memory: map[Form]map[string]bool{}, Colours: map[Form]map[string]Tint{}}
	for _, x := range forms {
		f.States[x], f.Memory[x], f.Colours[x] = map[string][]string{}, map[string]bool{}, map[string]Tint{}
	}
	return f
}

func (f *Fly) with(character string, states ...string) *Fly {
	for _, x := range f.Forms {
		f.States[x][character] = states
	}
	return f
}

func (f *Fly) tinted(part string, t Tint) *Fly {
	for _, x := range f.Forms {
		f.Colours[x][part] = t
	}
	return f
}

// inMay is a fly with one flight, of one length.
func inMay(f *Fly, low, high float64) Season {
	lengths := map[Form][]Measure{}
	for _, x := range f.Forms {
		if high > 0 {
			lengths[x] = []Measure{{Low: low, High: high, Part: "body"}}
		}
	}
	may := Run{calendar.DayOf(5, 1), calendar.DayOf(5, 31)}
	return Season{Fly: f, Flights: []Flight{{Name: "only", Moved: may, Account: may, LengthsByForm: lengths}}}
}

var looks = Vocabulary{
	{Name: "wing posture", Role: Posture, States: []string{"upright", "roof", "flat"}},
	{Name: "pairs of wings", Role: Pairs, States: []string{"one", "two"}},
	{Name: "tails", Role: Tails, States: []string{"two", "three"}},
	{Name: "hind wing", Needs: HandLens, States: []string{"tiny", "none"}},
}

// The rules' worked example: two duns of one group of four flies, 0.605.
func TestLikenessWorkedByHand(t *testing.T) {
	a := fly("a", "upwinged", dunMale, dunFemale).with("tails", "two").with("hind wing", "tiny").tinted(Body, grey(45)).tinted(Wing, grey(30))
	b := fly("b", "upwinged", dunMale, dunFemale).with("tails", "two").with("hind wing", "none").tinted(Body, grey(55)).tinted(Wing, grey(75))
	g := NewGuide(looks, []*Fly{a, b, fly("c", "upwinged", dunMale, dunFemale).with("tails", "two"), fly("d", "upwinged", dunMale, dunFemale).with("tails", "three")})
	c := g.compare(inMay(a, 7, 9), inMay(b, 9, 11), DefaultAlike())
	d, ok := delta(a, b, dunMale, Body)
	require.True(t, ok)
	body := min(1, (25-d)/20)
	assert.InDelta(t, 0.75, body, 0.02, "ΔE %v", d)
	// length 2 × 0.75; colour 2 × (3 body + 0)/4; tails 0.25 × 1; hind wing 0.5 × 0
	assert.InDelta(t, (1.5+2*(3*body)/4+0.25)/4.75, c.likeness(), 1e-9)
	assert.InDelta(t, 0.605, c.likeness(), 0.01)
}

func TestOverlap(t *testing.T) {
	assert.Equal(t, 0.5, Overlap([]float64{1, 1, 0}, []float64{0, 1, 1}))
	assert.Equal(t, 1.0, Overlap([]float64{1, 1}, []float64{0, 0.5}))
	assert.Zero(t, Overlap([]float64{0, 0}, []float64{1, 1}))
	assert.Zero(t, Overlap(nil, nil))
}

// Two flights meet where they overlap or lie at most 15 days apart, by moved or by the accounts' own dates.
func TestFlightsMeet(t *testing.T) {
	at := func(from, to int) Run { return Run{calendar.Day(from), calendar.Day(to)} }
	for _, c := range []struct {
		what             string
		a, b             Flight
		meet             bool
		nearest, compare int
	}{
		{"overlap", Flight{Moved: at(100, 130), Account: at(100, 130)}, Flight{Moved: at(130, 160), Account: at(130, 160)}, true, 0, 1},
		{"15 days", Flight{Moved: at(100, 130), Account: at(100, 130)}, Flight{Moved: at(145, 160), Account: at(145, 160)}, true, 15, 1},
		{"16 days", Flight{Moved: at(100, 130), Account: at(100, 130)}, Flight{Moved: at(146, 160), Account: at(146, 160)}, false, 16, 1},
		{"by the account alone", Flight{Moved: at(100, 110), Account: at(100, 130)}, Flight{Moved: at(160, 170), Account: at(140, 150)}, true, 10, 1},
		{"by moved dates alone", Flight{Moved: at(100, 130), Account: at(100, 110)}, Flight{Moved: at(140, 150), Account: at(160, 170)}, true, 10, 1},
		{"across New Year", Flight{Moved: at(350, 360), Account: at(350, 360)}, Flight{Moved: at(5, 20), Account: at(5, 20)}, true, 10, 1},
		{"one inside the other", Flight{Moved: at(100, 200), Account: at(100, 200)}, Flight{Moved: at(150, 160), Account: at(150, 160)}, true, 0, 1},
		{"without dates", Flight{}, Flight{Moved: at(5, 20), Account: at(5, 20)}, false, 182, 1},
	} {
		for _, swap := range []bool{false, true} {
			a, b := Season{Flights: []Flight{c.a}}, Season{Flights: []Flight{c.b}}
			if swap {
				a, b = b, a
			}
			l, meet, nearest := pairs(a, b, DefaultAlike())
			assert.Equal(t, c.meet, meet, c.what)
			assert.Equal(t, c.nearest, nearest, c.what)
			assert.Len(t, l, c.compare, c.what)
		}
	}
}

func TestToldAtAGlance(t *testing.T) {
	dun := func() *Fly { return fly("a", "upwinged", dunMale, dunFemale) }
	for _, c := range []struct {
		what string
		a, b Season
		want bool
	}{
		{"nothing known", inMay(dun(), 0, 0), inMay(dun(), 0, 0), false},
		{"no form in common", inMay(dun(), 8, 8), inMay(fly("b", "sedge", adultMale), 8, 8), true},
		{"another posture", inMay(dun().with("wing posture", "upright"), 8, 8), inMay(dun().with("wing posture", "roof"), 8, 8), true},
		{"posture known of one", inMay(dun().with("wing posture", "upright"), 8, 8), inMay(dun(), 8, 8), false},
		{"several postures", inMay(dun().with("wing posture", "upright", "roof"), 8, 8), inMay(dun().with("wing posture", "roof"), 8, 8), false},
		{"another number of wings", inMay(dun().with("pairs of wings", "one"), 8, 8), inMay(dun().with("pairs of wings", "two"), 8, 8), true},
		{"another colour", inMay(dun().tinted(Body, grey(20)), 8, 8), inMay(dun().tinted(Body, grey(80)), 8, 8), true},
		{"near in colour", inMay(dun().tinted(Body, grey(50)), 8, 8), inMay(dun().tinted(Body, grey(60)), 8, 8), false},
		{"half as long again", inMay(dun(), 6, 6), inMay(dun(), 9, 9), true},
		{"nearly", inMay(dun(), 6, 6), inMay(dun(), 8.9, 8.9), false},
	} {
		g := NewGuide(looks, []*Fly{c.a.Fly, c.b.Fly})
		assert.Equal(t, c.want, g.compare(c.a, c.b, DefaultAlike()).atAGlance(), c.what)
		assert.Equal(t, c.want, g.compare(c.b, c.a, DefaultAlike()).atAGlance(), c.what)
	}
	// Far off in one form alone is no glance.
	a, b := dun(), dun()
	a.Colours[dunMale][Body], b.Colours[dunMale][Body] = grey(10), grey(90)
	a.Colours[dunFemale][Body], b.Colours[dunFemale][Body] = grey(50), grey(50)
	assert.False(t, NewGuide(looks, nil).compare(inMay(a, 0, 0), inMay(b, 0, 0), DefaultAlike()).atAGlance())
}

func TestLengthsSeparateOrHelp(t *testing.T) {
	for _, c := range []struct {
		a, b             [2]float64
		separates, helps bool
	}{
		{[2]float64{6, 7}, [2]float64{7.5, 9}, true, false},
		{[2]float64{6, 7}, [2]float64{7.4, 9}, false, true},
		{[2]float64{6, 8}, [2]float64{7, 9}, false, true},    // share 1 of 2: half
		{[2]float64{6, 8}, [2]float64{6.9, 9}, false, false}, // share 1.1
		{[2]float64{6, 8}, [2]float64{6, 8}, false, false},
		{[2]float64{6, 8}, [2]float64{0, 0}, false, false},
	} {
		a, b := inMay(fly("a", "upwinged", dunMale), c.a[0], c.a[1]), inMay(fly("b", "upwinged", dunMale), c.b[0], c.b[1])
		sep, help := NewGuide(looks, nil).compare(a, b, DefaultAlike()).byLength()
		assert.Equal(t, c.separates, len(sep) == 1, "%v", c)
		assert.Equal(t, c.helps, len(help) == 1, "%v", c)
	}
	// Measured otherwise nothing is compared; in one flight alone that is said.
	a, b := inMay(fly("a", "upwinged", dunMale), 6, 7), inMay(fly("b", "upwinged", dunMale), 9, 10)
	b.Flights[0].LengthsByForm[dunMale][0].Part = "overall"
	sep, _ := NewGuide(looks, nil).compare(a, b, DefaultAlike()).byLength()
	assert.Empty(t, sep)
	two := inMay(fly("a", "upwinged", dunMale), 6, 7)
	second := two.Flights[0]
	second.Name, second.LengthsByForm = "second", map[Form][]Measure{dunMale: {{Low: 9, High: 10, Part: "body"}}}
	two.Flights = append(two.Flights, second)
	sep, _ = NewGuide(looks, nil).compare(two, inMay(fly("b", "upwinged", dunMale), 9, 10), DefaultAlike()).byLength()
	require.Len(t, sep, 1)
	assert.Equal(t, "only", sep[0].Flight)
}

func TestVerdicts(t *testing.T) {
	spinMale, spinFemale := Form{"spinner", "male"}, Form{"spinner", "female"}
	all := []Form{dunMale, dunFemale, spinMale, spinFemale}
	one := func(needs Needs, forms ...Form) Separator { return Separator{Needs: needs, Forms: forms} }
	helps := []Separator{one(NakedEye, all...)}
	for _, c := range []struct {
		what        string
		forms       []Form
		sep, helps  []Separator
		known       int
		want        Verdict
		wantCovered int
	}{
		{"no form in common", nil, nil, nil, 9, AnotherKind, 0},
		{"every form", all, []Separator{one(NakedEye, all[:2]...), one(HandLens, all[2:]...)}, nil, 9, InTheHand, 0},
		{"three of four", all, []Separator{one(NakedEye, all[:3]...)}, nil, 9, InTheHandBut, 3},
		{"half", all, []Separator{one(NakedEye, all[:2]...)}, nil, 9, SomeForms, 2},
		{"under a microscope alone", all, []Separator{one(Microscope, all...)}, nil, 9, OnlyHelp, 0},
		{"in one flight alone", all, []Separator{{Forms: all, Flight: "spring"}}, nil, 9, OnlyHelp, 0},
		{"helps", all, nil, helps, 9, OnlyHelp, 0},
		{"nothing", all, nil, nil, 9, NotInTheHand, 0},
		{"too little known", all, nil, helps, 3, NotEnough, 0},
		{"little known, but it separates", all, []Separator{one(NakedEye, all...)}, nil, 1, InTheHand, 0},
	} {
		a, b := fly("a", "upwinged", c.forms...), fly("b", "upwinged", c.forms...)
		var v Vocabulary
		for i := range c.known {
			name := string(rune('a' + i))
			v = append(v, Character{Name: name, States: []string{"x"}})
			a.with(name, "x")
			b.with(name, "x")
		}
		k := NewGuide(v, nil).compare(inMay(a, 0, 0), inMay(b, 0, 0), DefaultAlike())
		got, covered := k.verdict(c.sep, c.helps)
		assert.Equal(t, c.want, got, c.what)
		assert.Len(t, covered, c.wantCovered, c.what)
	}
}

// Separators come by need, what rests on memory after what doesn't, then length, colour and the vocabulary's order.
func TestOrderOfSeparators(t *testing.T) {
	v := append(Vocabulary{{Name: "first", States: []string{"p", "q"}}}, looks...)
	a := fly("a", "upwinged", dunMale).with("first", "p").with("tails", "two").with("hind wing", "tiny").tinted(Body, grey(20))
	b := fly("b", "upwinged", dunMale).with("first", "q").with("tails", "three").with("hind wing", "none").tinted(Body, grey(60))
	a.Memory[dunMale]["first"] = true
	sep, _ := NewGuide(v, []*Fly{a, b}).compare(inMay(a, 6, 7), inMay(b, 9, 10), DefaultAlike()).separators()
	var names []string
	for _, s := range sep {
		names = append(names, s.Character)
	}
	assert.Equal(t, []string{LengthCharacter, ShadeCharacter, "tails", "first", "hind wing"}, names)
	assert.Equal(t, []string{"two"}, sep[2].A.States)
}

func TestWhoIsALookAlike(t *testing.T) {
	twin := func(id string) *Fly {
		return fly(id, "upwinged", dunMale).with("wing posture", "upright").tinted(Body, grey(50))
	}
	me := inMay(twin("me"), 8, 9)
	like, liker := inMay(twin("like"), 9, 10), inMay(twin("liker"), 8, 9)
	off := inMay(twin("off"), 8, 9)
	off.Flights[0].Moved, off.Flights[0].Account = Run{200, 220}, Run{200, 220}
	roofed := inMay(fly("roofed", "upwinged", dunMale).with("wing posture", "roof").tinted(Body, grey(50)), 8, 9)
	stranger := inMay(fly("stranger", "sedge", dunMale).with("wing posture", "upright").tinted(Body, grey(50)), 8, 9)
	warned := inMay(fly("warned", "sedge", dunMale).with("wing posture", "roof"), 20, 25)
	later := off
	later.Fly = twin("later")
	me.Names = map[string]bool{"warned": true, "later": true}
	warning := inMay(twin("warning"), 12, 13)
	warning.Names = map[string]bool{"me": true}
	others := []Season{me, like, liker, off, roofed, stranger, warned, later, warning}
	var flies []*Fly
	for _, o := range others {
		flies = append(flies, o.Fly)
	}
	names := func(set AlikeSettings, others []Season) (l []string, more int) {
		list, more := NewGuide(looks, flies).LookAlikes(me, others, set)
		for _, x := range list {
			l = append(l, x.ID)
		}
		return l, more
	}
	got, more := names(DefaultAlike(), others)
	assert.Equal(t, []string{"warning", "warned", "liker", "like", "later"}, got,
		"named that meet, of like build first; the likest; a named one that isn't on the wing together")
	assert.Zero(t, more)
	few := DefaultAlike()
	few.Most = 1
	got, more = names(few, others)
	assert.Equal(t, []string{"warning", "warned", "liker", "later"}, got)
	assert.Equal(t, 1, more)
	rapid.Check(t, func(t *rapid.T) {
		mixed := rapid.Permutation(others).Draw(t, "order")
		l, _ := names(DefaultAlike(), mixed)
		assert.Equal(t, []string{"warning", "warned", "liker", "like", "later"}, l, "the order of flies decides nothing")
	})
}
