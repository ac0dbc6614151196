package guide

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
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
