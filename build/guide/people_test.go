package guide

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// How names are written varies; the cases are common practice, no source.
func TestSamePerson(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{
		{"Nora None", "nora none", true},
		{"Nora None", "None, Nora", true},
		{"Nora None", "N. None", true},
		{"N. None", "Nora None", true},
		{"Nora None", "None, N.", true},
		{"Nora May None", "Nora None", true},
		{"Nora None", "Ada None", false},
		{"Nora None", "A. None", false},
		{"Nora None", "traditional", false},
		{"N. N.", "O. N.", false},
		{"None", "Nora None", false},
	} {
		assert.Equal(t, c.same, samePerson(c.a, c.b), "%s and %s", c.a, c.b)
	}
}

// Every field that can name a person follows people:, and a name that such a field
// holds is looked for all the same.
func TestPeopleDecideInEveryField(t *testing.T) {
	for from, want := range map[string]string{"Nora None": "", "None, Nora": "", "Ines Initial": "I. I.", "Ada Full": "Ada Full",
		"traditional": "traditional", "An Angler": "An Angler"} {
		fsys := small("a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,all,Alder,adult,,1,,Nora None,Ines Initial,verified,\n")
		fsys["dressings/box.yaml"] = file("- {name: Plain, from: \"" + from + "\", fishes: surface, stands_for: {flies: [Alder], stage: adult}}\n")
		g := clean(t, fsys)
		for _, members := range []bool{false, true} {
			e := Cut(g, members)
			require.Len(t, e.Dressings, 1)
			assert.Equal(t, want, e.Dressings[0].From.S, from)
			assert.Equal(t, from, g.Dressings[0].From.S, "the guide itself keeps it")
			for _, name := range []string{"Nora None", "None, Nora", "N. None"} {
				assert.Contains(t, e.Withheld, name, "looked for whatever from: says (%s)", from)
			}
		}
	}
}

// What hides a visit's place in the public edition: each reason alone.
func TestHiddenVisits(t *testing.T) {
	for _, c := range []struct {
		water, beat, at string
		hidden          bool
	}{
		{"", "", "", false},
		{"", "top", "", true},
		{"", "ford", "", false},
		{"sensitive: [{place: \"55.4444 N, 4.8888 W\", about: nest}]\n", "", "", false},
		{"sensitive: [{place: \"55.4444 N, 4.8888 W\", about: nest}]\n", "", "55.4444,-4.8888", true},
		{"sensitive: [{place: \"55.4444 N, 4.8888 W\", about: nest}]\n", "", "55.4450,-4.8888", true},
		{"sensitive: [{place: \"55.4444 N, 4.8888 W\", about: nest}]\n", "", "55.6000,-4.8888", false},
		{"show: members\n", "", "", true},
	} {
		fsys := small("")
		fsys["rivers/brook.yaml"] = file(waterFile + c.water)
		lat, lon, _ := strings.Cut(c.at, ",")
		fsys["samples/core.csv"] = file("eventID,eventDate,waterBody,locality,decimalLatitude,decimalLongitude,samplingProtocol,scope,scientificName\n" +
			"a,2026-03-21,Brook," + c.beat + "," + lat + "," + lon + ",sweep net,all,nothing\n")
		v := Cut(clean(t, fsys), false).Visits[0]
		assert.Equal(t, c.hidden, v.Withheld, "%+v", c)
		assert.Equal(t, c.at != "" && !c.hidden, v.HasPlace, "%+v", c)
		assert.False(t, Cut(clean(t, fsys), true).Visits[0].Withheld)
	}
}

// A net whose finds may not be told isn't an empty net, and its scope names no
// group of withheld flies alone.
func TestAWithheldFlyMakesNoEmptyNet(t *testing.T) {
	const at = "a,2026-05-21,11:00,,Brook,,sweep net,50 sweeps,"
	for _, c := range []struct {
		row           string
		empty, untold bool
		scope         []string
	}{
		{"all,nothing,,,,,Ada Full,,,", true, false, []string{"upwinged", "alder"}},
		{"upwinged,nothing,,,,,Ada Full,,,", true, false, []string{"upwinged"}},
		{"upwinged; alder,Alder,adult,,1,,Ada Full,,,", false, true, []string{"upwinged"}},
		{"upwinged; alder,Sialis sp.,adult,,1,,Ada Full,,,", false, true, []string{"upwinged"}},
		{"all,Alder,adult,,1,,Ada Full,,,", false, true, []string{"upwinged", "alder"}},
		{"all,Large dark olive,dun,,1,,Ada Full,,,", false, false, []string{"upwinged", "alder"}},
	} {
		fsys := small(at + c.row + "\n")
		fsys["species/alder.md"] = file(strings.Replace(alderFile, "group:", "show: members\ngroup:", 1))
		g := clean(t, fsys)
		v := Cut(g, false).Visits[0]
		assert.Equal(t, []bool{c.empty, c.untold}, []bool{v.EmptyNet(), v.Untold}, c.row)
		var scope []string
		for _, x := range v.Scope.Groups {
			if x == "upwinged" || x == "alder" {
				scope = append(scope, string(x))
			}
		}
		assert.ElementsMatch(t, c.scope, scope, c.row)
		assert.False(t, Cut(g, true).Visits[0].Untold, "members may know")
	}
	// A fly withheld on one water alone.
	fsys := small(at + "all,Alder,adult,,1,,Ada Full,,,\n")
	fsys["rivers/brook.yaml"] = file("name: Brook\nkind: rain-fed\nflies: {Large dark olive: abundant, Alder: {abundance: rare, show: members}}\n")
	v := Cut(clean(t, fsys), false).Visits[0]
	assert.Equal(t, []bool{false, true}, []bool{v.EmptyNet(), v.Untold})
}

func file(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
