package guide

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
)

var today = calendar.Date{Year: 2026, Month: 11, Day: 24}

const (
	settingsFile = `format: 1
licence: CC BY 4.0
name: Small guide
basis: memory
people: {Ada Full: full, Nora None: none}
`
	oliveFile = `---
name: Large dark olive
scientific: Baetis rhodani (Pictet, 1843)
family: Baetidae
group: upwinged
flights:
  spring: {from: mid Feb, peak: late Mar, to: late Apr, abundance: abundant}
  autumn: {from: early Sep, peak: early Oct, to: mid Nov, abundance: frequent}
---
A fly.
`
	alderFile = `---
name: Alder
scientific: Sialis lutaria
group: alder
flights:
  spring: {from: early May, to: late Jun, abundance: frequent}
---
`
	waterFile = `name: Brook
kind: rain-fed
beats:
  top: {place: "55.21 N, 4.87 W", show: members}
flies:
  Large dark olive: abundant
  Alder: frequent
`
	head = "visit,date,start,end,water,beat,method,effort,looked for,fly,stage,sex,count,lengths mm,by,named by,checked,remarks\n"
)

func small(samples string) fstest.MapFS {
	m := fstest.MapFS{}
	for name, text := range map[string]string{"guide.yaml": settingsFile, "species/olive.md": oliveFile, "species/alder.md": alderFile, "rivers/brook.yaml": waterFile} {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	if samples != "" {
		m["samples/brook.csv"] = &fstest.MapFile{Data: []byte(head + samples)}
	}
	return m
}

func read(t *testing.T, fsys fstest.MapFS) (*Guide, *content.Problems) {
	t.Helper()
	ps := &content.Problems{}
	g, err := Read(fsys, today, ps)
	require.NoError(t, err)
	return g, ps
}

func clean(t *testing.T, fsys fstest.MapFS) *Guide {
	t.Helper()
	g, ps := read(t, fsys)
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			var b strings.Builder
			ps.Print(&b, p)
			t.Fatal(b.String())
		}
	}
	return g
}

// What a visit says of a fly: section 2 of the guide's rules on figures, one
// row a sentence.
func TestWhatAVisitSays(t *testing.T) {
	for _, c := range []struct {
		name, row string
		olive     Says
		alder     Says
	}{
		{"found in scope; the others were looked for", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,water-bred,Large dark olive,dun,female,2,,P. X,,verified,", FoundIt, Empty},
		{"empty scope with an effort means all water-bred groups", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,,nothing,,,,,P. X,,,", Empty, Empty},
		{"empty scope without an effort means none", "a,2026-03-21,11:00,,Brook,,sweep net,,,nothing,,,,,P. X,,,", Nothing, Nothing},
		{"scope none", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,none,nothing,,,,,P. X,,,", Nothing, Nothing},
		{"a kick sample never counts", "a,2026-03-21,11:00,,Brook,,kick sample,50 sweeps,water-bred,nothing,,,,,P. X,,,", Nothing, Nothing},
		{"only the groups in the scope", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,alder,nothing,,,,,P. X,,,", Nothing, Empty},
		{"a find outside the scope is stray", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,alder,Large dark olive,dun,,1,,P. X,,verified,", Stray, Empty},
		{"a genus holds the species: neither found nor empty", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,water-bred,Baetis,dun,female,3,,P. X,,verified,", Nothing, Empty},
		{"rejected", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,water-bred,Large dark olive,dun,,1,,P. X,,rejected,", Empty, Empty},
		{"a nymph isn't an adult", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,water-bred,Large dark olive,nymph,,1,,P. X,,verified,", Empty, Empty},
		{"unreviewed counts", "a,2026-03-21,11:00,,Brook,,sweep net,50 sweeps,water-bred,Large dark olive,spinner,,1,,P. X,,unreviewed,", FoundIt, Empty},
	} {
		g := clean(t, small(c.row+"\n"))
		require.Len(t, g.Visits, 1, c.name)
		says, _, unreviewed := g.Visits[0].Of(account(g, "olive"))
		assert.Equal(t, c.olive, says, c.name)
		if says == FoundIt {
			assert.Equal(t, strings.Contains(c.row, "unreviewed"), unreviewed, c.name)
		}
		says, _, _ = g.Visits[0].Of(account(g, "alder"))
		assert.Equal(t, c.alder, says, c.name)
	}
}

func account(g *Guide, address string) *species.Account {
	for _, a := range g.Accounts {
		if a.Address == address {
			return a
		}
	}
	return nil
}

func TestSameEventCountsOnce(t *testing.T) {
	row := func(id, start, by, fly string, n string) string {
		return id + ",2026-03-21," + start + ",,Brook,,sweep net,50 sweeps,water-bred," + fly + ",dun,female," + n + ",," + by + ",,verified,\n"
	}
	t.Run("water, date, start and recorder alike: joined", func(t *testing.T) {
		g := clean(t, small(row("a", "11:00", "P. X", "Large dark olive", "2")+row("b", "11:00", "P. X", "Large dark olive", "2")+row("c", "11:00", "P. X", "Alder", "1")))
		require.Len(t, g.Visits, 1)
		_, n, _ := g.Visits[0].Of(account(g, "olive"))
		assert.Equal(t, 2, n, "the same row on two sheets counts once")
		says, _, _ := g.Visits[0].Of(account(g, "alder"))
		assert.Equal(t, FoundIt, says)
	})
	t.Run("a start is missing: two visits, and a prompt", func(t *testing.T) {
		g, ps := read(t, small(row("a", "11:00", "P. X", "Large dark olive", "2")+row("b", "", "P. X", "Alder", "1")+row("c", "", "P. X", "Alder", "1")))
		assert.Len(t, g.Visits, 3)
		assert.Contains(t, ids(ps), "likely-duplicate")
	})
	t.Run("another start: two visits", func(t *testing.T) {
		g := clean(t, small(row("a", "11:00", "P. X", "Alder", "2")+row("b", "15:00", "P. X", "Alder", "1")))
		assert.Len(t, g.Visits, 2)
	})
}

func ids(ps *content.Problems) []string {
	var l []string
	for _, p := range ps.All() {
		l = append(l, p.ID)
	}
	return l
}

func TestEffortAgainstItsStandard(t *testing.T) {
	c := season.Defaults()
	for effort, want := range map[string]season.Known{
		"50 sweeps": season.Is(1), "20 sweeps": season.Is(0.4), "5 minutes": season.Is(0.5), "1 hour": season.Is(6), "": {},
	} {
		g := clean(t, small("a,2026-03-21,11:00,,Brook,,sweep net,"+effort+",water-bred,nothing,,,,,P. X,,,\n"))
		assert.Equal(t, want, g.Visits[0].Standard(c), effort)
	}
}

func TestPublicEditionHoldsNothingWithheld(t *testing.T) {
	fsys := small("a,2026-03-21,11:00,,Brook,top,sweep net,50 sweeps,water-bred,Large dark olive,dun,female,2,,Nora None | Ada Full,Ines Initial,verified,secret remark\n")
	fsys["rivers/hidden.yaml"] = &fstest.MapFile{Data: []byte("name: Hidden Water\nkind: peaty\nshow: members\nflies: {Alder: rare}\n")}
	fsys["species/secret.md"] = &fstest.MapFile{Data: []byte(strings.Replace(alderFile, "name: Alder\nscientific: Sialis lutaria", "name: Secret fly\nscientific: Sialis fuliginosa\nshow: members", 1))}
	g := clean(t, fsys)
	e := Cut(g, false)
	assert.Len(t, e.Accounts, 2)
	require.Len(t, e.Waters, 1)
	assert.Empty(t, e.Waters[0].Beats)
	require.Len(t, e.Lending, 1, "the hidden water's records still lend")
	assert.Empty(t, e.Lending[0].Name.S)
	assert.Empty(t, e.Lending[0].Address)
	v := e.Visits[0]
	assert.Equal(t, []string{"", "", ""}, []string{v.Beat.S, v.Remarks, v.Finds[0].By})
	assert.Empty(t, v.Event.By)
	assert.Empty(t, v.Event.Finds)
	says, n, _ := v.Of(e.Accounts[1])
	assert.Equal(t, []any{FoundIt, 2}, []any{says, n}, "the record itself counts")
	for _, s := range []string{"Hidden Water", "Secret fly", "top"} {
		if len(s) > 3 {
			assert.Contains(t, e.Withheld, s)
		}
	}

	m := Cut(g, true)
	assert.Len(t, m.Accounts, 3)
	assert.Len(t, m.Waters, 2)
	assert.Equal(t, "top", m.Visits[0].Beat.S)
	var shown []string
	for _, p := range m.People[m.Visits[0]] {
		shown = append(shown, p.Shown)
	}
	assert.ElementsMatch(t, []string{"", "Ada Full"}, shown, "each as they wish to be named")
	assert.Equal(t, "I. I.", m.Visits[0].Finds[0].By, "nobody listed: initials")
}

func TestNames(t *testing.T) {
	g, ps := read(t, small("a,2026-03-21,11:00,,Brok,,sweep net,50 sweeps,water-bred,Alder,adult,,1,,P. X,,,\nb,2026-03-22,11:00,,Brook,,sweep net,50 sweeps,water-bred,Large drak olive,dun,,1,,P. X,,,\n"))
	assert.Len(t, g.Visits, 1)
	var said []string
	for _, p := range ps.All() {
		said = append(said, p.ID+": "+p.Message)
	}
	assert.Contains(t, strings.Join(said, "\n"), `unknown-water: no water is named "Brok"; did you mean "Brook"?`)
	assert.Contains(t, strings.Join(said, "\n"), `unknown-fly: no account is named "Large drak olive"; did you mean "Large dark olive"?`)
}

func TestAddressesCollide(t *testing.T) {
	fsys := small("")
	fsys["species/Olive.md"] = &fstest.MapFile{Data: []byte(strings.Replace(oliveFile, "Large dark olive", "Other", 1))}
	_, ps := read(t, fsys)
	for _, p := range ps.All() {
		if p.ID == "same-address" {
			assert.NotZero(t, p.Also, "both places are named")
			return
		}
	}
	t.Fatal("no problem for two files with one address")
}

func TestConstantsAreReadWithinBounds(t *testing.T) {
	fsys := small("")
	fsys["guide.yaml"] = &fstest.MapFile{Data: []byte(settingsFile + "figures: {season: {thin_visits: 4, trust: 900, bandwith: 7}, tying: {cover: 0.5}}\n")}
	g, ps := read(t, fsys)
	assert.Equal(t, 4.0, g.Constants.Season.ThinVisits)
	assert.Equal(t, 0.5, g.Constants.Cover)
	assert.Equal(t, 3.0, g.Constants.Season.Trust, "a value out of bounds leaves the default")
	assert.ElementsMatch(t, []string{"constant-out-of-bounds", "unknown-key"}, ids(ps))
}

func TestKilometres(t *testing.T) {
	// One degree of latitude on a sphere of 6371 km: 2π·6371/360.
	a := clean(t, small("")).Waters[0].Beats[0].Place
	b := a
	b.Latitude.Degrees++
	assert.InDelta(t, 111.195, Kilometres(a, b), 0.001)
	assert.Zero(t, Kilometres(a, a))
}

// What a find must be to show that its fly was on the wing.
func TestWhatCounts(t *testing.T) {
	for name, c := range map[string]struct {
		find rivers.Find
		want bool
	}{
		"a dun":             {rivers.Find{Stage: species.Dun}, true},
		"an adult":          {rivers.Find{Stage: species.Adult, Checked: rivers.Verified}, true},
		"unreviewed":        {rivers.Find{Stage: species.Spinner, Checked: rivers.Unreviewed}, true},
		"rejected":          {rivers.Find{Stage: species.Dun, Checked: rivers.Rejected}, false},
		"reared":            {rivers.Find{Stage: species.Dun, Reared: true}, false},
		"said to be absent": {rivers.Find{Stage: species.Dun, Absent: true}, false},
		"a nymph":           {rivers.Find{Stage: species.Nymph}, false},
		"a pupa":            {rivers.Find{Stage: species.Pupa}, false},
		"no stage":          {rivers.Find{}, false},
	} {
		assert.Equal(t, c.want, Found{Find: &c.find}.Counts(), name)
	}
}
