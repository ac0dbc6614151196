package hook

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content/measure"
)

func size(t require.TestingT, s string) Size {
	n, err := ParseSize(s)
	require.NoError(t, err, s)
	return n
}

func TestSizesOrderByRealSize(t *testing.T) {
	// Common practice, no source: the order of every maker's catalogue.
	order := []string{"40", "32", "24", "22", "20", "18", "16", "15", "14", "13", "12", "10", "9", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "10/0", "20/0"}
	var sizes []Size
	for _, s := range order {
		n := size(t, s)
		assert.Equal(t, s, n.String())
		assert.Positive(t, int(n))
		sizes = append(sizes, n)
	}
	assert.True(t, slices.IsSortedFunc(sizes, Compare))
	slices.SortFunc(sizes, PrintOrder)
	assert.Equal(t, "20/0", sizes[0].String())
	assert.Empty(t, Size(0).String())
}

func TestSteps(t *testing.T) {
	for _, c := range []struct {
		size, from string
		count      float64
		words      string
	}{
		{"14", "16", 1, "one step larger"}, // the worked example of the guide's rules: book 14, suggested 16
		{"16", "14", -1, "one step smaller"},
		{"14", "14", 0, "the same size"},
		{"13", "14", .5, "half a step larger"},
		{"15", "12", -1.5, "1½ steps smaller"},
		{"1", "2", 1, "one step larger"},
		{"1/0", "1", 1, "one step larger"},
		{"2/0", "4", 4, "4 steps larger"},
		{"3", "2", -.5, "half a step smaller"},
		{"20", "14", -3, "3 steps smaller"},
	} {
		d := size(t, c.size).From(size(t, c.from))
		assert.Equal(t, c.count, d.Count(), c)
		assert.Equal(t, c.words, d.String(), c)
	}
	assert.Equal(t, 1.0, size(t, "14").Step()-size(t, "16").Step())
}

func TestParse(t *testing.T) {
	for text, want := range map[string]string{
		"14": "14", "1/0": "1/0", " size 14 ": "14", "14-18": "14–18", "14 to 18": "14–18", "18–14": "14–18", "14, 16": "14, 16", "14 and 16": "14, 16",
		"16, 14, 14": "14, 16", "10, 14-18": "10, 14–18", "1/0-4": "1/0–4", "2/0 to 1/0": "2/0, 1/0", "13-17": "13–17", "sizes 12; 16": "12, 16", "13": "13",
	} {
		l, err := ParseSizes(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, List(l), text)
	}
	texts := func(s string) (out []string) {
		r, err := ParseRange(s)
		require.NoError(t, err)
		for _, n := range r.Sizes() {
			out = append(out, n.String())
		}
		return out
	}
	assert.Equal(t, []string{"14", "16", "18"}, texts("14-18"))
	assert.Equal(t, []string{"13", "15", "17"}, texts("13-17"))
	assert.Equal(t, []string{"13", "14", "16", "18"}, texts("13-18"))
	assert.Equal(t, []string{"1/0", "1", "2", "4"}, texts("1/0-4"))
	assert.Equal(t, []string{"1", "2", "4", "5"}, texts("5-1"))
	r, err := ParseRange("18 to 14")
	require.NoError(t, err)
	assert.Equal(t, Range{size(t, "18"), size(t, "14")}, r)
	assert.Equal(t, "14–18", r.String())
}

func TestRefused(t *testing.T) {
	for text, want := range map[string][2]string{
		"00": {"old scale", "today's"}, "000": {"old scale", ""}, "0": {"old scale", ""}, "0/1": {"a hook size", "1/0"}, "014": {"nought", "write 14"},
		"14/16": {"two sizes or one", "14, 16"}, "14.5": {"a hook size", "14, or 1/0"}, "41": {"a hook size", "40"}, "21/0": {"a hook size", "20/0"},
		"0/0": {"a hook size", ""}, "-14": {"a hook size", ""}, "14-": {"a hook size", ""}, "": {"a hook size", ""}, "fourteen": {"a hook size", ""},
		"14-16-18": {"two ends", ""}, "14,,16": {"a hook size", ""}, "14 16": {"a hook size", ""}, "99999999999999999999": {"a hook size", ""}, "14 XL": {"a hook size", ""},
	} {
		_, err := ParseSizes(text)
		var e *Error
		require.ErrorAs(t, err, &e, text)
		assert.Equal(t, text, e.Found)
		assert.Contains(t, e.Reason, want[0], text)
		assert.Contains(t, e.Want, want[1], text)
	}
}

// shanks is the worked example of the guide's rules on sizes, with a curved
// hook beside it.
func shanks(t require.TestingT) Table {
	var l Table
	for s, mm := range map[string]measure.Millimetres{"12": 9.5, "14": 8.4, "16": 7.3, "18": 6.2, "20": 5.1} {
		l = append(l, Measured{Model: "Plain dry", Size: size(t, s), Shank: mm})
	}
	return append(l, Measured{Model: "Grub", Size: size(t, "14"), Gape: 4.9, Curved: true})
}

func TestSuggest(t *testing.T) {
	table := shanks(t)
	lengths := []float64{7.2, 7.4, 7.5, 7.5, 7.6, 7.8}
	median := measure.Millimetres((lengths[2] + lengths[3]) / 2)
	got := table.Suggest(median, "dun", "upwinged")
	require.Len(t, got, 1, "a curved hook gets no suggestion")
	assert.Equal(t, Suggestion{"Plain dry", Within, size(t, "16"), 7.3}, got[0])
	assert.Equal(t, "one step larger", size(t, "14").From(got[0].Size).String())

	for _, c := range []struct {
		mm     measure.Millimetres
		size   string
		beyond Beyond
	}{
		{7.3, "16", Within}, {7.85, "16", Within}, {7.9, "14", Within}, {5.65, "20", Within}, {8.95, "14", Within},
		{4.55, "20", Within}, {4.5499, "", SmallerThanTable}, {10.05, "12", Within}, {10.0501, "", LargerThanTable}, {.5, "", SmallerThanTable}, {25, "", LargerThanTable},
		{7.85 + 1e-12, "16", Within}, // nearer than 1e-9 to a tie is a tie
	} {
		s, ok := table.SuggestIn("Plain dry", c.mm)
		require.True(t, ok)
		assert.Equal(t, c.size, s.Size.String(), "%v mm", c.mm)
		assert.Equal(t, c.beyond, s.Beyond, "%v mm", c.mm)
	}
	_, ok := table.SuggestIn("Grub", 8)
	assert.False(t, ok)
	_, ok = table.SuggestIn("No such", 8)
	assert.False(t, ok)

	mm, ok := table.Shank("Plain dry", size(t, "18"))
	assert.True(t, ok)
	assert.Equal(t, measure.Millimetres(6.2), mm)
	_, ok = table.Shank("Grub", size(t, "14"))
	assert.False(t, ok)
}

func TestOneRowAndRepeatedRows(t *testing.T) {
	one := Table{{Model: "Long", Size: size(t, "10"), Shank: 12}}
	s, _ := one.SuggestIn("Long", 12)
	assert.Equal(t, "10", s.Size.String())
	s, _ = one.SuggestIn("Long", 11.9)
	assert.Equal(t, SmallerThanTable, s.Beyond)
	s, _ = one.SuggestIn("Long", 12.1)
	assert.Equal(t, LargerThanTable, s.Beyond)

	twice := Table{{Model: "Wet", Size: size(t, "14"), Shank: 8}, {Model: "Wet", Size: size(t, "16"), Shank: 7}, {Model: "Wet", Size: size(t, "16"), Shank: 7.2}}
	s, _ = twice.SuggestIn("Wet", 6.7)
	assert.Equal(t, "16", s.Size.String(), "the last step is from 14 to 16, not between two hooks of one size")
	assert.InDelta(t, 7.1, float64(s.Shank), 1e-9)
}

// The suggestion is never further from the length than any other row, the
// order of rows is irrelevant, and a longer fly never gets a smaller hook.
func TestSuggestionProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		table := shanks(rt)
		mm := float64(rapid.IntRange(3000, 12000).Draw(rt, "µm")) / 1000
		longer := mm + float64(rapid.IntRange(0, 3000).Draw(rt, "more"))/1000
		s, _ := table.SuggestIn("Plain dry", measure.Millimetres(mm))
		l, _ := table.SuggestIn("Plain dry", measure.Millimetres(longer))
		if l.Beyond < s.Beyond || l.Beyond == Within && s.Beyond == Within && l.Size < s.Size {
			rt.Fatalf("%v mm: %v; %v mm: %v", mm, s, longer, l)
		}
		if s.Beyond == Within {
			for _, h := range table {
				if !h.Curved && math.Abs(float64(h.Shank)-mm) < math.Abs(float64(s.Shank)-mm)-1e-9 {
					rt.Fatalf("%v mm: %v is nearer than %v", mm, h, s)
				}
			}
		}
		mixed := rapid.Permutation(table).Draw(rt, "order")
		if again, _ := Table(mixed).SuggestIn("Plain dry", measure.Millimetres(mm)); again != s {
			rt.Fatalf("order decides: %v, %v", s, again)
		}
	})
}

func TestListReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.IntRange(int(numbered(finest)), int(naught(ocean))), 1, 12).Draw(t, "sizes")
		var l []Size
		for _, s := range sizes {
			if n := Size(s); n != size1+1 { // there is no size between 1 and 1/0
				l = append(l, n)
			}
		}
		l = slices.DeleteFunc(l, func(s Size) bool { return s > size2 && s.Odd() })
		if len(l) == 0 {
			return
		}
		slices.SortFunc(l, PrintOrder)
		l = slices.Compact(l)
		back, err := ParseSizes(List(l))
		if err != nil || !slices.Equal(back, l) {
			t.Fatalf("%s: %v, %v", List(l), back, err)
		}
	})
}

func FuzzParseSizes(f *testing.F) {
	for _, s := range []string{"14", "1/0", "14-18", "14, 16", "00", "20/0-40", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := ParseSizes(s)
		var e *Error
		switch {
		case err != nil:
			if !errors.As(err, &e) || e.Found != s || e.Reason == "" {
				t.Fatalf("%q: an incomplete refusal: %v", s, err)
			}
		case len(l) == 0 || !slices.IsSortedFunc(l, PrintOrder) || l[len(l)-1] <= 0:
			t.Fatalf("%q gave %v", s, l)
		}
	})
}

// Which models are listed: those that serve the stage or the group, from their least body on, in the table's order.
func TestModelsServe(t *testing.T) {
	model := func(name string, from float64, forWhat ...string) Table {
		return Table{{Model: name, Size: size(t, "12"), Shank: 9.5, For: forWhat, FromMM: from}, {Model: name, Size: size(t, "14"), Shank: 8.4}}
	}
	table := append(append(append(model("Z all", 0), model("Y dry", 0, "dun", "spinner", "adult")...), model("X long", 9, "sedge", "stonefly")...), model("A wet", 0, "nymph", "pupa")...)
	for _, c := range []struct {
		stage, group string
		body         measure.Millimetres
		want         []string
	}{
		{"dun", "upwinged", 9, []string{"Z all", "Y dry"}},
		{"nymph", "upwinged", 9, []string{"Z all", "A wet"}},
		{"adult", "sedge", 9, []string{"Z all", "Y dry", "X long"}},
		{"adult", "sedge", 8.99, []string{"Z all", "Y dry"}},
		{"pupa", "sedge", 9, []string{"Z all", "X long", "A wet"}},
		{"larva", "midge", 9, []string{"Z all"}},
	} {
		var got []string
		for _, s := range table.Suggest(c.body, c.stage, c.group) {
			got = append(got, s.Model)
		}
		assert.Equal(t, c.want, got, "%s of %s, %v mm", c.stage, c.group, c.body)
	}
}
