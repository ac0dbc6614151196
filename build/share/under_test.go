package share

import (
	"encoding/json"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/demo"
	"guidegen/rivers/survey"
)

// Counts of larvae and of shed skins are kept and listed, and leave every figure of a water as it is to the byte.
func TestLarvaeAreInNoFigure(t *testing.T) {
	const rows = "U-1,2026-01-20,Orua,Ford,kick sample,3 minutes,upwinged,Little fly,nymph,,60,,Tess Ambrook,,,\n" +
		"U-2,2026-02-03,Orua,Ford,exuviae,10 minutes,water-bred,Little fly,nymph,,200,,Tess Ambrook,,verified,\n"
	without := filesOf(t, smallBook(t, nil), nil)
	book := smallBook(t, altered(t, "samples/a.csv", "K-4,", rows+"K-4,"))
	with := filesOf(t, book, nil)
	for _, name := range []string{"data/rivers/orua.json", GuideData, "calendar/orua.ics"} {
		assert.Equal(t, string(fileNamed(t, without, name)), string(fileNamed(t, with, name)), name)
	}
	under := book.Waters[0].Coverage.Under
	require.Len(t, under, 2)
	assert.Equal(t, []survey.UnderMonth{{Samples: 1, N: 200}, {Samples: 1, N: 60}}, []survey.UnderMonth{under[0].Months[1], under[1].Months[0]})

	// the check finds what counts: the same rows with a net in the air change the water's figures
	swept := filesOf(t, smallBook(t, altered(t, "samples/a.csv", "K-4,", strings.NewReplacer("kick sample", "sweep net", "nymph", "dun").Replace(rows)+"K-4,")), nil)
	assert.NotEqual(t, string(fileNamed(t, without, "data/rivers/orua.json")), string(fileNamed(t, swept, "data/rivers/orua.json")))
}

// Of the demo, whose kick samples measure nymphs too, no chance and no date differs without them.
func TestDemosKickSamplesAreInNoChance(t *testing.T) {
	type figures struct{ Months, Cells, Days, Runs, Short_Flights json.RawMessage }
	of := func(files []File) map[string]figures {
		out := map[string]figures{}
		for _, f := range files {
			if !strings.HasPrefix(f.Path, "data/rivers/") {
				continue
			}
			var r struct{ Flies map[string]figures }
			require.NoError(t, json.Unmarshal(f.Bytes, &r))
			for a, x := range r.Flies {
				out[f.Path+" "+a] = x
			}
		}
		return out
	}
	kicks, bare := 0, fstest.MapFS{}
	require.NoError(t, fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(demo.FS, name)
		if strings.HasSuffix(name, ".csv") && strings.HasPrefix(name, "samples/") {
			kicked := map[string]bool{} // visits
			var kept []string
			for l := range strings.Lines(string(b)) {
				visit, _, _ := strings.Cut(l, ",")
				if strings.Contains(l, ",kick sample,") {
					kicked[visit] = true
				}
				if !kicked[visit] {
					kept = append(kept, l)
				}
			}
			kicks += len(kicked)
			b = []byte(strings.Join(kept, ""))
		}
		bare[name] = &fstest.MapFile{Data: b}
		return err
	}))
	require.Greater(t, kicks, 5, "the demo holds some")
	assert.Equal(t, of(filesOf(t, bookOf(t, bare, false), nil)), of(filesOf(t, demoBook(t, false), nil)))
}
