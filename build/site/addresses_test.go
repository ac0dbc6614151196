package site

import (
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestAddressesComeFromFileNames(t *testing.T) {
	reg, conflicts := Allocate([]string{"index.html", "rivers/index.html"}, []Source{
		{Name: "species/Large Dark Olive.md"},
		{Name: "rivers/Thessél.yaml"},
		{Name: "dressings/Dark Upright"},
		{Name: "notes/First Aid/on the bank.md"},
		{Name: "notes/v1.2.md"},
		{Name: "species/Тёмная подёнка.md"},
	})
	require.Empty(t, conflicts)
	for _, c := range []struct{ file, want string }{
		{"species/Large Dark Olive.md", "species/large-dark-olive.html"},
		{"rivers/Thessél.yaml", "rivers/thessel.html"},
		{"dressings/Dark Upright", "dressings/dark-upright.html"},
		{"notes/First Aid/on the bank.md", "notes/first-aid/on-the-bank.html"},
		{"notes/v1.2.md", "notes/v1-2.html"},
	} {
		got, ok := reg.Of(c.file)
		assert.True(t, ok, c.file)
		assert.Equal(t, c.want, got)
	}
	cyrillic, ok := reg.Of("species/Тёмная подёнка.md")
	assert.True(t, ok)
	assert.Regexp(t, `^species/[a-z-]+\.html$`, cyrillic)
	_, ok = reg.Of("species/none.md")
	assert.False(t, ok)
}

func TestAddressConflicts(t *testing.T) {
	long := strings.Repeat("long", 60)
	for name, c := range map[string]struct {
		sources []Source
		want    []Conflict
	}{
		"same words": {
			[]Source{{Name: "species/Café.md"}, {Name: "species/CAFE.md"}},
			[]Conflict{{A: "species/CAFE.md", B: "species/Café.md", Address: "species/cafe.html", Why: Taken}},
		},
		"same words, another ending": {
			[]Source{{Name: "rivers/a.yml"}, {Name: "rivers/a.yaml"}},
			[]Conflict{{A: "rivers/a.yaml", B: "rivers/a.yml", Address: "rivers/a.html", Why: Taken}},
		},
		"nothing left": {
			[]Source{{Name: "species/🦟.md"}},
			[]Conflict{{B: "species/🦟.md", Address: "species/.html", Why: Empty}},
		},
		"too long": {
			[]Source{{Name: "species/" + long + ".md"}},
			[]Conflict{{B: "species/" + long + ".md", Address: "species/" + long + ".html", Why: TooLong}},
		},
		"a page every site has": {
			[]Source{{Name: "notes/Key.md"}},
			[]Conflict{{B: "notes/Key.md", Address: "notes/key.html", Why: Fixed}},
		},
		"an old name that is a page": {
			[]Source{{Name: "species/a.md", Was: []string{"B"}}, {Name: "species/b.md"}},
			[]Conflict{{A: "species/b.md", B: "species/a.md", Address: "species/b.html", Old: "B", Why: Taken}},
		},
		"an old name of two": {
			[]Source{{Name: "species/b.md", Was: []string{"species/old.md"}}, {Name: "species/a.md", Was: []string{"old"}}},
			[]Conflict{{A: "species/a.md", B: "species/b.md", Address: "species/old.html", Old: "species/old.md", Why: Taken}},
		},
		"an old name of nothing": {
			[]Source{{Name: "species/a.md", Was: []string{" "}}},
			[]Conflict{{B: "species/a.md", Address: "species/.html", Old: " ", Why: Empty}},
		},
	} {
		t.Run(name, func(t *testing.T) {
			_, got := Allocate([]string{"notes/KEY.html"}, c.sources)
			assert.Equal(t, c.want, got)
		})
	}
}

func TestOldAddresses(t *testing.T) {
	reg, conflicts := Allocate(nil, []Source{
		// Listed twice, and a name it has again: neither is a conflict.
		{Name: "species/b.md", Was: []string{"a name", "species/A Name.md", "B.md", "notes/b.html"}},
	})
	assert.Empty(t, conflicts)
	assert.Equal(t, []Redirect{{"notes/b.html", "species/b.html"}, {"species/a-name.html", "species/b.html"}}, reg.Redirects())
}

func TestAllocateIgnoresOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"a", "A", "á", "b", "B b", "b-b", "", "!"})
		seen := map[string]bool{}
		var sources []Source
		for range rapid.IntRange(0, 6).Draw(t, "n") {
			s := Source{Name: "species/" + word.Draw(t, "file") + ".md", Was: rapid.SliceOfN(word, 0, 2).Draw(t, "was")}
			if !seen[s.Name] {
				seen[s.Name] = true
				sources = append(sources, s)
			}
		}
		reg, conflicts := Allocate([]string{"species/index.html"}, sources)
		shuffled := append([]Source(nil), sources...)
		rand.New(rand.NewSource(1)).Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		again, same := Allocate([]string{"species/index.html"}, shuffled)
		assert.Equal(t, reg, again)
		assert.Equal(t, conflicts, same)

		// No two pages or redirects ever share an address.
		taken := map[string]bool{}
		for _, a := range reg.of {
			assert.False(t, taken[a])
			taken[a] = true
		}
		for _, r := range reg.Redirects() {
			assert.False(t, taken[r.Old])
			taken[r.Old] = true
		}
	})
}
