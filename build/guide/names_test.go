package guide

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/species"
)

// What is suggested for a name that two flies bear is no empty text, and means one of them.
func TestSuggestionsForASharedName(t *testing.T) {
	fsys := small("V1,2026-05-03,,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,A. B,,,\n")
	fsys["species/bare.md"] = &fstest.MapFile{Data: []byte("---\nname: Bare\nalso: [the fly]\nfamily: Sialidae\ngroup: alder\n---\n")}
	fsys["species/alder.md"] = &fstest.MapFile{Data: []byte("---\nname: Alder\nscientific: Sialis lutaria\nfamily: Sialidae\nalso: [the fly]\ngroup: alder\n---\n")}
	for named, want := range map[string]string{
		"the fly":  "write instead: Sialis lutaria, bare",
		"Sialidae": "name one of its species: Sialis lutaria, bare",
	} {
		fsys["rivers/brook.yaml"] = &fstest.MapFile{Data: []byte("name: Brook\nkind: rain-fed\nflies:\n  " + named + ": rare\n")}
		_, ps := read(t, fsys)
		require.Equal(t, 1, ps.Count(content.Error))
		for _, p := range ps.All() {
			if p.Grade == content.Error {
				assert.Equal(t, want, p.Want)
			}
		}
	}
	for _, one := range []string{"Sialis lutaria", "bare"} {
		fsys["rivers/brook.yaml"] = &fstest.MapFile{Data: []byte("name: Brook\nkind: rain-fed\nflies:\n  " + one + ": rare\n")}
		_, ps := read(t, fsys)
		assert.Zero(t, ps.Count(content.Error), one)
	}
}

// A visit whose water is missing is reported once, at its row.
func TestAMissingWaterIsReportedOnce(t *testing.T) {
	_, ps := read(t, small("V1,2026-05-03,,,,,sweep net,50 sweeps,all,nothing,,,,,A. B,,,\n"))
	require.Equal(t, 1, ps.Count(content.Error))
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			assert.Equal(t, "missing-cell", p.ID)
			assert.Equal(t, "samples/brook.csv:2:1", ps.Where(p.At))
		}
	}
}

// A note that can't be read is reported once.
func TestANoteThatCantBeRead(t *testing.T) {
	fsys := small("")
	fsys["notes/a.md"] = &fstest.MapFile{Data: []byte("---\ntitle: [x\n---\n")}
	_, ps := read(t, fsys)
	require.Equal(t, 1, ps.Count(content.Error))
}

// Words wider than a species are known without an account of theirs; a name or a slip isn't such a word.
func TestWideWords(t *testing.T) {
	account := func(name, sci, family string, g species.Group) *species.Account {
		a := &species.Account{Address: content.Address(name), Name: content.Text{S: name}, Family: content.Text{S: family}, Group: g}
		a.Scientific.Name.S = sci
		return a
	}
	large, medium := account("Large dark olive", "Baetis rhodani", "Baetidae", species.Upwinged), account("Medium olive", "Baetis vernus", "Baetidae", species.Upwinged)
	midge, gnat := account("Duck fly", "Chironomus x", "Chironomidae", species.Midge), account("Black gnat", "Bibio y", "Bibionidae", species.Gnat)
	all := []*species.Account{large, medium, midge, gnat}
	n := newNames(all, nil)
	for word, want := range map[string]struct {
		group species.Group
		taxon []*species.Account
		ok    bool
	}{
		"upwinged":      {species.Upwinged, all[:2], true},
		"Olive":         {species.Upwinged, all[:2], true},
		"baetis sp.":    {species.Upwinged, all[:2], true},
		"Ephemeroptera": {species.Upwinged, all[:2], true},
		"Diptera":       {"", all[2:], true},
		"unnamed":       {"", all, true},
		"unknown":       {"", all, true},
		"Sedge":         {species.Sedge, nil, true}, // the guide has none
		"fly":           {"", nil, false},           // the last word of one name alone
		"gnat":          {species.Gnat, all[3:], true},
		"olvie":         {"", nil, false},
		"Medium olive":  {"", nil, false}, // a fly's own name
	} {
		group, taxon, ok := n.Wide(word)
		assert.Equal(t, want.ok, ok, word)
		assert.Equal(t, want.group, group, word)
		assert.Equal(t, want.taxon, taxon, word)
	}
}

// An unnamed fly counts for none: where it may be the fly, the visit can't tell; it is no empty net.
func TestUnnamedFinds(t *testing.T) {
	for word, want := range map[string]Says{"unnamed": Nothing, "upwinged": Nothing, "sedge": Empty, "Large dark olive": FoundIt} {
		stage := "dun"
		if word == "sedge" {
			stage = "adult"
		}
		g := clean(t, small("V1,2026-05-03,,,Brook,,sweep net,50 sweeps,water-bred,"+word+","+stage+",,1,,A. B,,,\n"))
		require.Len(t, g.Visits, 1)
		for _, a := range g.Accounts {
			if a.Name.S == "Large dark olive" {
				says, _, _ := g.Visits[0].Of(a)
				assert.Equal(t, want, says, word)
			}
		}
		assert.False(t, g.Visits[0].EmptyNet(), word)
		assert.Equal(t, word != "Large dark olive", g.Visits[0].Finds[0].ToName(), word)
	}
}
