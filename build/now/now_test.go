package now

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/trial"
	"guidegen/build/view"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

func dataOf(t *testing.T, book *figures.Book, water, fly string) (flyData, onData) {
	t.Helper()
	p := newPrinter(t, book)
	for _, w := range book.Waters {
		d := p.onData(view.WaterPage(w), w)
		for _, f := range d.Flies {
			if w.Name.S == water && f.Name == fly {
				return f, d
			}
		}
	}
	t.Fatalf("no %s on %s", fly, water)
	return flyData{}, onData{}
}

// The hours of a stage hold for the flight that the account gives them for, and for all where it gives them once.
func TestHoursOfFlights(t *testing.T) {
	f, d := dataOf(t, bookOf(t, twoFlights()), "Beck", "Twice olive")
	require.Equal(t, "dun", f.Stages[0].Name)
	want := map[int][]any{0: {1, 660, 900}, 1: {1, 720, 840}}
	require.Len(t, f.Stages[0].Hours, 2)
	for _, h := range f.Stages[0].Hours {
		assert.Equal(t, [][]any{want[h.Flight]}, d.Hours[h.Hours].Runs)
		assert.Zero(t, d.Hours[h.Hours].Sun)
	}
	spinner := f.Stages[1]
	require.Len(t, spinner.Hours, 1)
	assert.Equal(t, -1, spinner.Hours[0].Flight, "the same in both")
	assert.Equal(t, 3, d.Hours[spinner.Hours[0].Hours].Sun, "sunset to sunset")
	assert.Equal(t, [][]any{{1, 300, 420}}, d.Hours[spinner.Hours[0].Others[0]].Runs, "what others say")

	// The sexes apart, each the same in both flights; and of a fly that the water doesn't list, each flight's own.
	apart := twoFlights()
	apart["species/fly.md"] = file(strings.Replace(string(apart["species/fly.md"].Data), "dun: {spring: 11:00 to 15:00, autumn: 12:00 to 14:00}", "dun male: 9:00 to 10:00, dun female: 17:00 to 19:00", 1))
	f, d = dataOf(t, bookOf(t, apart), "Beck", "Twice olive")
	var got [][][]any
	for _, h := range f.Stages[0].Hours {
		assert.Equal(t, -1, h.Flight)
		got = append(got, d.Hours[h.Hours].Runs)
	}
	assert.ElementsMatch(t, [][][]any{{{1, 540, 600}}, {{1, 1020, 1140}}}, got)
	unlisted := twoFlights()
	unlisted["rivers/beck.yaml"] = file("name: Beck\nkind: rain-fed\nplace: 54.0 N, 2.0 W\ntime_zone: Europe/London\n")
	unlisted["samples/a.csv"] = file("visit,date,water,method,effort,looked for,fly,stage,count,by\nv1,2025-04-28,Beck,sweep net,50 sweeps,,Twice olive,dun,3,A. B.\nv2,2025-10-04,Beck,sweep net,50 sweeps,,Twice olive,dun,3,A. B.\n" +
		"v3,2025-04-30,Beck,sweep net,50 sweeps,,Twice olive,dun,3,A. B.\nv4,2025-10-06,Beck,sweep net,50 sweeps,,Twice olive,dun,3,A. B.\n")
	f, d = dataOf(t, bookOf(t, unlisted), "Beck", "Twice olive")
	require.True(t, f.Unlisted)
	require.Len(t, f.Stages[0].Hours, 2)
	for _, h := range f.Stages[0].Hours {
		assert.Equal(t, [][]any{want[h.Flight]}, d.Hours[h.Hours].Runs)
	}
	assert.Len(t, f.Stages[0].Flights, 2)

	// Without a place there is no clock for the sun: the words stand.
	nowhere := twoFlights()
	nowhere["rivers/beck.yaml"] = file("name: Beck\nkind: rain-fed\nflies:\n  Twice olive: frequent\n")
	f, d = dataOf(t, bookOf(t, nowhere), "Beck", "Twice olive")
	assert.Equal(t, [][]any{{1, "an hour before sunset to sunset"}}, d.Hours[f.Stages[1].Hours[0].Hours].Runs)
}

// A dressing on the largest or smallest of its hooks says so where the fly asks for another.
func TestHooksAtTheEndOfADressing(t *testing.T) {
	p := newPrinter(t, demoBook())
	m := &onMaker{printer: p}
	var d *figures.Dressing
	for _, x := range p.book.Dressings {
		if len(x.Sizes) > 1 {
			d = x
		}
	}
	require.NotNil(t, d)
	small, large := d.Sizes[0], d.Sizes[0]
	for _, s := range d.Sizes {
		if s.Step() < small.Step() {
			small = s
		}
		if s.Step() > large.Step() {
			large = s
		}
	}
	size := func(s string) hook.Size { z, _ := hook.ParseSize(s); return z }
	for _, c := range []struct {
		on, asked hook.Size
		want      string
	}{
		{small, small, "x " + small.String()}, {small, size("28"), "x " + small.String() + ", its smallest"},
		{large, size("2"), "x " + large.String() + ", its largest"}, {large, small, "x " + large.String()},
	} {
		sd := figures.StageDressings{Length: figures.HookGround{Hooks: []figures.HookFor{{Suggestion: hook.Suggestion{Model: "x", Size: c.asked}}}}}
		o := tying.Offer{Name: d.Name.S, Size: &tying.SizePart{Hook: tying.Hook{Model: "x", Size: c.on.String()}}}
		assert.Equal(t, c.want, m.hookFor(sd, o))
	}
}

// A state that is based on the account alone is no find, and says so.
func TestNeverFoundHere(t *testing.T) {
	never := func(book *figures.Book, water, fly string) string {
		f, _ := dataOf(t, book, water, fly)
		return f.Never
	}
	assert.Equal(t, "from the account alone", never(bookOf(t, twoFlights()), "Beck", "Twice olive"))
	assert.Equal(t, "from the account and other waters; never found here", never(demoBook(), "Ullavane", "Heather fly"))
	assert.Empty(t, never(demoBook(), "Pellowbourne", "Cinnamon sedge"))
}

var demoBook, twoFlights, file = trial.Demo, trial.TwoFlights, trial.File

func bookOf(t testing.TB, files fstest.MapFS) *figures.Book {
	t.Helper()
	b, err := trial.Book(files)
	require.NoError(t, err)
	return b
}

func newPrinter(t testing.TB, book *figures.Book) printer {
	t.Helper()
	p, err := view.NewPrinter(book, view.Deps{Site: trial.Site{Book: book}})
	require.NoError(t, err)
	return printer{p, book, p.Words()}
}

// A sun that moves by five minutes at a time is told in steps; an end that the clock sets stays, and what jumps has a
// run of its own.
func TestHoursMoveInSteps(t *testing.T) {
	runs := [][]any{{66, 600, 1200}, {68, 600, 1205}, {95, 600, 1210}, {96, 600, 1205}, {100, 600, 1150}, {101, "no sunset"}, {140, 600, 1155}, {141, 605, 1160}}
	assert.Equal(t, [][]any{{66, 600, 1200, "b+27A"}, {100, 600, 1150}, {101, "no sunset"}, {140, 600, 1155}, {141, 605, 1160}}, moved(runs, 2))
	assert.Equal(t, [][]any{{140, 600, 1155, "a"}}, moved([][]any{{140, 600, 1155}, {141, 605, 1160}}, 3))
	assert.Equal(t, "_aZz-27+30", view.Steps([]int{0, 1, -26, 26, -27, 30}))
}
