package figures

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
	"guidegen/species"
	"guidegen/species/hook"
)

var built = calendar.Date{Year: 2026, Month: 11, Day: 24}

// demoBook reckons the demo guide.
func demoBook(t *testing.T, members bool) *Book {
	t.Helper()
	ps := &content.Problems{}
	g, err := guide.Read(demo.FS, built, ps)
	require.NoError(t, err)
	require.Zero(t, printed(ps))
	return Reckon(guide.Cut(g, members), built)
}

func printed(ps *content.Problems) int {
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			ps.Print(os.Stderr, p)
		}
	}
	return ps.Count(content.Error)
}

// bookOf reckons a guide written as one txt of "-- path --" parts.
func bookOf(t *testing.T, text string) *Book {
	t.Helper()
	fsys := fstest.MapFS{}
	for _, part := range strings.Split("\n"+text, "\n-- ")[1:] {
		name, body, _ := strings.Cut(part, " --\n")
		fsys[name] = &fstest.MapFile{Data: []byte(body + "\n")}
	}
	ps := &content.Problems{}
	g, err := guide.Read(fsys, built, ps)
	require.NoError(t, err)
	require.Zero(t, printed(ps))
	return Reckon(guide.Cut(g, false), built)
}

const head = "visit,date,start,end,water,beat,method,effort,looked for,fly,stage,sex,count,lengths mm,by,named by,checked,remarks\n"

const twoFlights = `-- guide.yaml --
format: 1
name: Two flights
basis: memory
-- species/olive.md --
---
name: Olive
scientific: Baetis rhodani
group: upwinged
flights:
  spring: {from: early Apr, peak: 18 Apr, to: 5 May, abundance: frequent}
  autumn: {from: early Sep, peak: 20 Sep, to: 5 Oct, abundance: frequent}
length: {dun: {spring: 7 to 8 mm, autumn: 5 to 6 mm}}
book_size: {dun: 14}
---
-- hooks.csv --
model,size,shank mm,gape mm,shape,measured by,measured on
Straight,12,9.5,5.4,straight,A. B,2026-01-11
Straight,14,8.4,4.9,straight,A. B,2026-01-11
Straight,16,7.3,4.3,straight,A. B,2026-01-11
Straight,18,6.2,3.8,straight,A. B,2026-01-11
Straight,20,5.1,3.3,straight,A. B,2026-01-11
Bent,14,,4.9,curved,A. B,2026-01-11
-- rivers/one.yaml --
name: One
kind: rain-fed
flies: {Olive: frequent}
-- samples/one.csv --
`

func row(id, date, what, sizes string) string {
	return fmt.Sprintf("%s,%s,11:00,,One,,sweep net,50 sweeps,water-bred,%s,%s,A. B,A. B,verified,\n", id, date, what, sizes)
}

// The rules' worked example: seven finds that average to late June.
func TestTwoFlightsAreNeverAveraged(t *testing.T) {
	text := twoFlights + head
	for i, d := range []string{"2024-04-10", "2024-04-18", "2025-04-25", "2025-05-02", "2024-09-12", "2025-09-20", "2025-10-01"} {
		text += row(fmt.Sprint("v", i), d, "Olive,dun,female,1", "")
	}
	b := bookOf(t, text)
	r := b.Waters[0].Rows[0]
	require.Len(t, r.Flights, 2)
	var days []calendar.Day
	for _, f := range r.Flights {
		days = append(days, f.From, f.Peak, f.To, f.Dates.P10, f.Dates.P50, f.Dates.P90)
		for _, d := range append(f.Dates.Finds, f.Dates.First, f.Dates.Last) {
			days = append(days, d.OfYear())
		}
	}
	days = append(days, r.Largest)
	for _, d := range days {
		if d != 0 {
			assert.NotEqual(t, 6, int(d.Month()), "a date in June: %s", dayWords(d))
		}
	}
	assert.NotZero(t, r.Flights[0].Dates.P50)
	assert.NotZero(t, r.Flights[1].Dates.P50)
	assert.Equal(t, []string{"2024", "2025"}, r.Flights[0].Dates.Seasons)
	assert.Equal(t, NotExpected, r.Months[6].State, "nobody looked in July, and the account expects none")
}

// The rules' worked example: lengths 7.2 7.4 7.5 7.5 7.6 7.8 give a median of
// 7.5, n 6, size 16; the book's 14 is one step larger. The autumn flight keeps
// its own size.
func TestSizesAndHooks(t *testing.T) {
	b := bookOf(t, twoFlights+head+
		row("a", "2024-04-10", "Olive,dun,female,6", "7.2 7.4 7.5 7.5 7.6 7.8")+
		row("b", "2024-09-12", "Olive,dun,female,3", "5.0 5.2 5.4"))
	r := b.Waters[0].Rows[0]
	bySize := map[string]Size{}
	for _, s := range r.Sizes {
		bySize[fmt.Sprint(s.Stage, " ", s.Sex, " ", s.Flight)] = s
	}
	spring := bySize["dun female spring"]
	assert.Equal(t, []any{6, 7.5, 7.2, 7.8}, []any{spring.N, spring.Median, spring.Low, spring.High})
	assert.Equal(t, FromWater, spring.Hook.From)
	require.Len(t, spring.Hook.Hooks, 1, "the curved model gets no suggestion")
	assert.Equal(t, "16", spring.Hook.Hooks[0].Size.String())
	assert.Equal(t, "one step larger", spring.Hook.Hooks[0].Steps.String())
	autumn := bySize["dun female autumn"]
	assert.Equal(t, 3, autumn.N)
	assert.Equal(t, FromAccount, autumn.Hook.From, "three flies are too few for a hook")
	assert.Equal(t, 5.5, autumn.Hook.Length)
}

// The chance on a day, reckoned again from the rules' own sentence with one
// lending water: m p + own + q lent over the same with e.
func TestChanceOfOneDayByHand(t *testing.T) {
	text := strings.Replace(twoFlights, "-- samples/one.csv --", "-- rivers/two.yaml --\nname: Two\nkind: spring-fed\nflies: {Olive: frequent}\n-- samples/two.csv --\n"+head+
		strings.ReplaceAll(row("x", "2025-04-20", "Olive,dun,female,2", ""), ",One,", ",Two,")+"-- samples/one.csv --", 1)
	b := bookOf(t, text+head+row("a", "2024-04-18", "Olive,dun,female,1", "")+
		strings.Replace(row("b", "2024-04-25", "nothing,,,", ""), "50 sweeps", "20 sweeps", 1))
	r := b.Waters[0].Rows[0]
	kappa := math.Pow(365/(2*math.Pi*7), 2)
	w := func(d float64) float64 { return math.Exp(kappa * (math.Cos(2*math.Pi*d/365) - 1)) }
	d := calendar.DayOf(4, 18)
	p := r.Account[d-1]
	own, lent := w(0)+0.4*w(7), w(2)
	a := 3*p + w(0) + 0.25*w(2)
	assert.InDelta(t, a/(3+own+0.25*lent), r.Chance[d-1], 1e-9)
	m := r.Months[3]
	assert.InDelta(t, 1, m.Own+m.Lent+m.Rest, 1e-12)
	assert.Equal(t, []int{2, 1}, []int{m.Looked, m.Found})
	require.Len(t, m.Lenders, 1)
	assert.Equal(t, "Two", m.Lenders[0].Water.Name.S)
	assert.True(t, m.Thin)
}

// Every month of every row holds its chance within its range, and shares sum
// to one; every year of runs covers 365 days.
func TestDemoHoldsTogether(t *testing.T) {
	for _, members := range []bool{false, true} {
		b := demoBook(t, members)
		require.NotEmpty(t, b.Waters)
		for _, w := range b.Waters {
			for _, r := range w.Rows {
				for i, m := range r.Months {
					assert.True(t, m.Low <= m.Chance && m.Chance <= m.High, "%s %s %d", w.Name.S, r.Fly.Name.S, i)
					assert.InDelta(t, 1, m.Own+m.Lent+m.Rest, 1e-9)
					assert.False(t, m.Basis.IsZero())
					for _, part := range m.Basis.Parts() {
						if part.Ground == content.OwnRecords || part.Ground == content.LentRecords {
							assert.Positive(t, part.Visits, "records without a visit are none")
							assert.Positive(t, part.Years)
						}
					}
					assert.Equal(t, m.Looked == 0, m.State != Visited)
				}
				days := 0
				for _, run := range r.Runs {
					days += int(run.To-run.From) + 1
				}
				assert.Equal(t, calendar.Year, days)
				for _, c := range r.Cells {
					assert.Equal(t, c.Looked == 0 && c.State != CellFound, c.State == CellUnlooked)
				}
			}
		}
	}
}

// Facts of the trade (common practice, no source): the large dark olive's
// female goes under water to lay, so no floating spinner is offered for her.
func TestNoFloatingSpinnerForAFlyThatGoesUnder(t *testing.T) {
	b := demoBook(t, false)
	checked := 0
	for _, w := range b.Waters {
		for _, r := range w.Rows {
			if lays, ok := r.Fly.Lays.First(); !ok || lays.Value != species.LaysUnderWater {
				continue
			}
			for _, d := range r.Dressings {
				if d.Stage != species.Spinner || d.Sex == species.Male {
					continue
				}
				for _, o := range d.Advice.Offered {
					checked++
					levels := b.Dressing(o.Name).Fishes
					assert.False(t, len(levels) == 1 && levels[0] == species.Surface, "%s offered for %s", o.Name, r.Fly.Name.S)
				}
				for _, x := range d.Advice.RuledOut {
					checked += len(x.Reasons)
				}
			}
		}
	}
	assert.NotZero(t, checked)
}

func TestTripCoversWhatIsLikely(t *testing.T) {
	b := demoBook(t, false)
	for _, w := range b.Waters {
		trip := b.Trip(w, calendar.DayOf(5, 10), calendar.DayOf(5, 20))
		require.NotEmpty(t, trip.Picks, w.Name.S)
		assert.LessOrEqual(t, trip.Covered, trip.Sum)
		for _, s := range trip.Nothing {
			for _, d := range s.Row.Dressings {
				if d.Stage == s.Stage && d.Flight == s.Row.FlightAt(calendar.DayOf(5, 15)) {
					assert.Empty(t, d.Covering(), "%s %s", s.Row.Fly.Name.S, s.Stage)
				}
			}
		}
		assert.True(t, len(trip.Left) == 0 || content.Round9(trip.Covered) >= content.Round9(0.9*trip.Sum))
	}
}

// The body lies on the shank: on the demo no sedge, stonefly or alder asks for a hook more than one catalogue step, two half
// steps, from the one its book gives.
func TestHooksLieWithinAStepOfTheBook(t *testing.T) {
	tried := 0
	for _, f := range demoBook(t, true).Flies {
		if f.Group != species.Sedge && f.Group != species.Stonefly && f.Group != species.Alder {
			continue
		}
		sizes := slices.Clone(f.Sizes)
		for _, r := range f.Rows {
			sizes = append(sizes, r.Sizes...)
		}
		for _, s := range sizes {
			nearest := math.Inf(1)
			for _, h := range s.Hook.Hooks {
				if h.Beyond == hook.Within && h.HasBook {
					nearest = min(nearest, math.Abs(float64(h.Steps)))
				}
			}
			if !math.IsInf(nearest, 1) {
				tried++
				assert.LessOrEqual(t, nearest, 2.0, "%s, %s %s, %.1f mm", f.Name.S, s.Sex, s.Stage, s.Hook.Length)
			}
		}
	}
	assert.Greater(t, tried, 20)
}
