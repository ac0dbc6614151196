package page

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/content/calendar"
)

// logged is a guide of one water with a logger: for each year, so many months of days at so many degrees.
func logged(river string, years ...[3]int) fstest.MapFS {
	files := oneFly()
	files["rivers/beck.yaml"] = file("name: Beck\nkind: rain-fed\ntime_zone: Europe/London\nbasis: own\n" + river + "flies:\n  Lone dun: frequent\n")
	var b strings.Builder
	b.WriteString("water,date,kind,mean °C\n")
	for _, y := range years {
		for d := (calendar.Date{Year: y[0], Month: 1, Day: 1}); d.Year == y[0] && int(d.Month) <= y[1]; d = d.AddDays(1) {
			fmt.Fprintf(&b, "Beck,%s,logger,%d\n", d, y[2])
		}
	}
	files["temperature/beck.csv"] = file(b.String())
	return files
}

// Ahead or behind is a rule of thumb and says so, and what it rests on; where that can't carry a number
// of days there is none, and it says why.
func TestAheadSaysWhatItRestsOn(t *testing.T) {
	const eight = "temperature: {unit: °C, basis: own, months: [8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8]}\n"
	for _, c := range []struct {
		name  string
		files fstest.MapFS
		want  [2]string // above 0 and above 4 °C
		age   int       // days from the newest reading to the date the guide is built for
	}{
		// 59 days at 10 °C are 73.75 at 8; in April 120 days are 150, and the 30 days are the most a flight is moved.
		{"monthly means", logged(eight, [3]int{2026, 2, 10}), [2]string{
			"15 days ahead of a normal year. A rule of thumb; a normal year is a smooth curve through monthly means, whose years are not on record (thin evidence).",
			"cannot tell: fewer than three earlier logger years"}, 30},
		{"at the limit", logged(eight, [3]int{2026, 4, 10}), [2]string{
			"30 days ahead of a normal year. A rule of thumb; a normal year is a smooth curve through monthly means, whose years are not on record (thin evidence).", ""}, 0},
		{"beyond it", logged(eight, [3]int{2026, 5, 10}), [2]string{
			"25% more than in a normal year; not told in days: they would be more than 30, the most by which this guide moves a flight. A rule of thumb; a normal year is a smooth curve through monthly means, whose years are not on record (thin evidence).", ""}, 0},
		{"beyond it, behind", logged(eight, [3]int{2026, 5, 6}), [2]string{
			"25% less than in a normal year; not told in days: they would be more than 30, the most by which this guide moves a flight. A rule of thumb; a normal year is a smooth curve through monthly means, whose years are not on record (thin evidence).", ""}, 0},
		{"below a dam", logged(eight+"regulated: yes\n", [3]int{2026, 2, 10}), [2]string{
			"25% more than in a normal year; not told in days: below a dam a smooth curve of a normal year does not fit. A rule of thumb; a normal year is a smooth curve through monthly means, whose years are not on record (thin evidence).", ""}, 0},
		{"a year isn't a normal for itself", logged("", [3]int{2026, 6, 10}), [2]string{"cannot tell: no normal year to hold it against", ""}, 0},
		{"four years of a logger", logged("", [3]int{2022, 12, 8}, [3]int{2023, 12, 8}, [3]int{2024, 12, 8}, [3]int{2026, 2, 8}), [2]string{
			"level with a normal year. A rule of thumb; a normal year is a smooth curve through 3 earlier years of the logger.",
			"level with a normal year. A rule of thumb; a normal year is the mean of 3 earlier years of the logger."}, 0},
		{"the year judged is left out of its own normal", logged("", [3]int{2024, 12, 8}, [3]int{2026, 2, 10}), [2]string{
			"15 days ahead of a normal year. A rule of thumb; a normal year is a smooth curve through 1 earlier year of the logger (thin evidence).", ""}, 0},
	} {
		book := bookOf(t, c.files)
		book = figures.Reckon(book.Edition, book.Waters[0].Ahead[0].On.AddDays(c.age))
		p, err := NewPrinter(book, view.Deps{Site: fakeSite{}})
		require.NoError(t, err, c.name)
		got := p.Ahead("rivers/beck.html", book.Waters[0])
		require.Len(t, got.Lines, 2, c.name)
		for i, want := range c.want {
			if want != "" {
				assert.Equal(t, want, got.Lines[i].Text, c.name)
			}
		}
	}
}

// Where the newest reading is too old on the date built for, no figure is shown, but that.
func TestAheadIsSilentWhereReadingsAreOld(t *testing.T) {
	files := logged("temperature: {unit: °C, basis: own, months: [8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8]}\n", [3]int{2026, 2, 10})
	for _, c := range []struct {
		age   int // days from the newest reading to the date
		stale bool
	}{{0, false}, {30, false}, {31, true}} {
		book := bookOf(t, files)
		book = figures.Reckon(book.Edition, book.Waters[0].Ahead[0].On.AddDays(c.age))
		page := drawAnew(t, book)["rivers/beck.html"]
		const old = "The newest reading is from 28 February 2026, not within the last 30 days: it can’t be told whether the season is ahead or behind."
		figure, said := `<ul class="ahead" data-newest="2026-02-28" data-for="30">`, `<p hidden>`+old
		if c.stale {
			figure, said = `<ul class="ahead" data-newest="2026-02-28" data-for="30" hidden>`, `<p>`+old
		}
		page = strings.NewReplacer("\u00a0", " ").Replace(page)
		assert.True(t, strings.Contains(page, figure), c.age)
		assert.True(t, strings.Contains(page, said), c.age)
	}
}
