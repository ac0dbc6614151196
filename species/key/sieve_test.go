package key

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The table of cases that the site's script has to pass as well.
func TestSieveCases(t *testing.T) {
	text, err := os.ReadFile("../../testdata/sieve-cases.json")
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			Name       string
			Characters Vocabulary
			Flies      []struct {
				ID, Name string
				Chance   float64
				States   map[string][]string
			}
			Ticks Ticks
			Order []struct {
				ID                string
				Disagrees, Agrees int
			}
			Next string
		}
	}
	require.NoError(t, json.Unmarshal(text, &file))
	require.Len(t, file.Cases, 20)
	for _, c := range file.Cases {
		var taxa []Taxon
		names := map[string]string{}
		for _, f := range c.Flies {
			x := Taxon{ID: f.ID, Name: f.Name, Chance: f.Chance, Values: map[string]Value{}}
			for ch, states := range f.States {
				x.Values[ch] = Value{States: states}
			}
			taxa, names[f.ID] = append(taxa, x), f.Name
		}
		var want []Standing
		for _, o := range c.Order {
			want = append(want, Standing{o.ID, names[o.ID], o.Disagrees, o.Agrees})
		}
		order, next := Sieve(c.Characters, taxa, c.Ticks, Defaults())
		assert.Equal(t, want, order, c.Name)
		assert.Equal(t, c.Next, next, c.Name)
	}
}

// No fly vanishes; a fly that gives its own states never disagrees with them,
// and what is not known is never a disagreement.
func TestSieveKeepsEveryFly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, taxa := drawn(t)
		if len(taxa) == 0 || len(v) == 0 {
			return
		}
		mine := rapid.SampledFrom(taxa).Draw(t, "fly in the hand")
		ticks := Ticks{}
		for _, c := range v {
			if rapid.Bool().Draw(t, "ticked") {
				states := mine.Values[c.Name].States
				if len(states) == 0 {
					states = c.States
				}
				ticks[c.Name] = []string{rapid.SampledFrom(states).Draw(t, "tick")}
			}
		}
		order, next := Sieve(v, taxa, ticks, Defaults())
		if len(order) != len(taxa) {
			t.Fatalf("%d of %d flies", len(order), len(taxa))
		}
		for i, s := range order {
			if s.ID == mine.ID && s.Disagrees != 0 {
				t.Fatalf("%s disagrees with itself", s.ID)
			}
			if i > 0 && s.Disagrees < order[i-1].Disagrees {
				t.Fatal("out of order")
			}
		}
		if len(ticks[next]) > 0 {
			t.Fatalf("%s asked twice", next)
		}
		if len(ticks) == 0 {
			k, first := Build(v, taxa, Defaults()), ""
			if len(k.Couplets) > 0 {
				first = k.Couplets[0].Character
			}
			if next != first {
				t.Fatalf("the sieve begins with %q, the key with %q", next, first)
			}
		}
	})
}
