package season

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

func drawWater(t *rapid.T, c Constants) (fs []Moved, own []Visit, lent []Lent) {
	var other []Moved
	for _, f := range drawFlights(t) {
		fs = append(fs, Move(f, drawLocal(t, "here"), drawPlace(t, "here"), drawPlace(t, "reference"), c))
		other = append(other, Move(f, Local{}, Place{}, Place{}, c))
	}
	return fs, drawVisits(t, "own"), Lend(nil, fs, other, drawVisits(t, "other"), c)
}

func TestChanceLiesBetweenAccountAndRecords(t *testing.T) {
	c := Defaults()
	rapid.Check(t, func(t *rapid.T) {
		fs, own, lent := drawWater(t, c)
		p := Expected(fs, c)
		out := Reckon(&p, own, lent, c)
		e := gather(own, lent, 0, c)
		for i := range p {
			got := out.Chance[i]
			require.True(t, got >= 0 && got <= 1)
			all, none := e.on(i, 1).chance, e.on(i, 0).chance // records' own share lies within these
			if w := out.Own[i] + out.Lent[i]; w > 0 {
				records := none * (3 + w) / w
				require.InDelta(t, 3/(3+w), all-none, 1e-9, "the account weighs as m visits")
				require.True(t, got >= min(p[i], records)-1e-9 && got <= max(p[i], records)+1e-9)
			}
			require.LessOrEqual(t, out.Lent[i], 3+1e-9)
		}
		for _, m := range out.Months {
			require.True(t, m.Low <= m.Chance && m.Chance <= m.High && m.Low >= 0 && m.High <= 1)
		}
	})
}

func TestOrderOfRecordsIsOfNoMatter(t *testing.T) {
	c := Defaults()
	rapid.Check(t, func(t *rapid.T) {
		fs, own, lent := drawWater(t, c)
		p := Expected(fs, c)
		first, dates := Reckon(&p, own, lent, c), FromRecords(own, fs, 0, c)
		r := rand.New(rand.NewPCG(1, rapid.Uint64().Draw(t, "shuffle")))
		r.Shuffle(len(own), func(i, j int) { own[i], own[j] = own[j], own[i] })
		r.Shuffle(len(lent), func(i, j int) { lent[i], lent[j] = lent[j], lent[i] })
		assert.Equal(t, first, Reckon(&p, own, lent, c), "to the last bit")
		assert.Equal(t, dates, FromRecords(own, fs, 0, c))
	})
}

func TestPartsOfAVisitSumTheSameInAnyOrder(t *testing.T) {
	c := Defaults()
	p := Flat(0.5)
	parts := []float64{0.1, 0.7, 0.30000000000000004, 0.2, 1e-9, 0.6}
	var own []Visit
	var lent []Lent
	for _, e := range parts {
		own = append(own, Visit{Date: on(2026, 4, 10), Effort: Is(e)})
		lent = append(lent, Lent{Day: 100, Year: 2026, Worth: e})
	}
	first := Reckon(&p, own, lent, c)
	for n := range uint64(50) {
		r := rand.New(rand.NewPCG(1, n))
		r.Shuffle(len(own), func(i, j int) { own[i], own[j] = own[j], own[i] })
		r.Shuffle(len(lent), func(i, j int) { lent[i], lent[j] = lent[j], lent[i] })
		assert.Equal(t, first, Reckon(&p, own, lent, c))
	}
}

func TestManyRecordsDrownTheAccount(t *testing.T) {
	c := Defaults()
	p := Expected([]Moved{still(day(4, 1), day(4, 20), day(5, 10), Dominant)}, c)
	var visits []Visit
	for y := 1900; y < 2020; y++ { // found in two visits of every ten, at midsummer
		for i := range 10 {
			visits = append(visits, Visit{Date: on(y, 7, 1), Found: i < 2}, Visit{Date: on(y, 4, 20)})
		}
	}
	out := Reckon(&p, visits, nil, c)
	assert.InDelta(t, 0.2, out.Chance.At(day(7, 1)), 0.003)
	assert.InDelta(t, 0, out.Chance.At(day(4, 20)), 0.006)
}

func TestTheYearIsACircle(t *testing.T) {
	c := Defaults()
	rapid.Check(t, func(t *rapid.T) {
		var a, b []Moved
		by := rapid.IntRange(1, 364).Draw(t, "turned by")
		for range rapid.IntRange(1, 3).Draw(t, "flights") {
			f := still(0, 0, 0, Class(rapid.IntRange(1, 5).Draw(t, "class")))
			f.Dates = drawDates(t, "flight").Peaked()
			a = append(a, f)
			f.Dates = f.Dates.moved(by)
			b = append(b, f)
		}
		own := drawVisits(t, "own")
		turned := append([]Visit(nil), own...)
		for i, v := range own {
			d := v.day().Add(by)
			turned[i].Date = calendar.Date{Year: v.Date.Year, Month: d.Month(), Day: d.DayOfMonth()}
		}
		pa, pb := Expected(a, c), Expected(b, c)
		x, y := Reckon(&pa, own, nil, c), Reckon(&pb, turned, nil, c)
		da, db := Days(OnDays(&x.Chance, c), &x.Chance, a), Days(OnDays(&y.Chance, c), &y.Chance, b)
		for d := calendar.Day(1); d <= calendar.Year; d++ {
			require.InDelta(t, pa.At(d), pb.At(d.Add(by)), 1e-12)
			require.InDelta(t, x.Chance.At(d), y.Chance.At(d.Add(by)), 1e-12)
			require.Equal(t, da[d-1], db[d.Add(by)-1])
			require.Equal(t, Assign(d, a, c), Assign(d.Add(by), b, c))
		}
	})
}

func TestSofteningKeepsTheYearsSum(t *testing.T) {
	p := curve([]Moved{still(day(12, 20), day(12, 31), day(1, 5), Abundant)}, Defaults())
	s := soften(p, 10)
	var a, b float64
	for i := range p {
		a += p[i]
		b += s[i]
	}
	assert.InDelta(t, a, b, 1e-9)
	assert.Less(t, s.Largest(), p.Largest())
	assert.Equal(t, p, soften(p, 0))
}

func TestAFlyFoundButNotListed(t *testing.T) {
	c := Defaults()
	p := Flat(c.Unlisted)
	out := Reckon(&p, found(on(2026, 6, 1)), nil, c)
	assert.InDelta(t, (3*0.02+1)/4, out.Chance.At(day(6, 1)), 1e-12)
	assert.InDelta(t, 0.02, out.Chance.At(day(12, 1)), 1e-9)
}

func TestNotExpectedIsBelowNotAt(t *testing.T) {
	c := Defaults()
	p := Flat(c.NotExpected)
	assert.False(t, Reckon(&p, nil, nil, c).Months[0].NotExpected)
	p = Flat(c.NotExpected - 1e-12)
	assert.False(t, Reckon(&p, nil, nil, c).Months[0].NotExpected, "the last bit decides nothing")
	p = Flat(c.NotExpected - 1e-8)
	assert.True(t, Reckon(&p, nil, nil, c).Months[0].NotExpected)
	assert.False(t, Reckon(&p, empty(on(2026, 1, 5)), nil, c).Months[0].NotExpected, "somebody looked")
}

func TestThinEvidence(t *testing.T) {
	c := Defaults()
	p := Flat(0.5)
	thin := func(ds ...calendar.Date) bool { return Reckon(&p, empty(ds...), nil, c).Months[4].Thin }
	assert.True(t, thin(on(2024, 5, 1), on(2025, 5, 1)))
	assert.True(t, thin(on(2024, 5, 1), on(2024, 5, 2), on(2024, 5, 3)), "all in one year")
	assert.False(t, thin(on(2024, 5, 1), on(2024, 5, 2), on(2025, 5, 3)))
	assert.True(t, thin())
}

// A large guide: 500 flies × 20 waters, 100,000 rows of samples. One iteration
// is one fly on one water with 19 others lending; times 10,000.
func BenchmarkFlyOnWater(b *testing.B) {
	c := Defaults()
	r := rand.New(rand.NewPCG(1, 2))
	fs := []Moved{still(day(4, 1), day(4, 20), day(5, 10), Abundant), still(day(9, 1), day(9, 20), day(10, 10), Frequent)}
	waters := make([][]Visit, 20)
	for i := range waters {
		for range 500 {
			d := calendar.Day(1 + r.IntN(365))
			waters[i] = append(waters[i], Visit{Date: calendar.Date{Year: 2016 + r.IntN(10), Month: d.Month(), Day: d.DayOfMonth()},
				Found: r.IntN(4) == 0, Effort: Is([]float64{1, 1, 1, 0.4}[r.IntN(4)])})
		}
	}
	var lent []Lent
	for b.Loop() {
		lent = lent[:0]
		for _, w := range waters[1:] {
			lent = Lend(lent, fs, fs, w, c)
		}
		p := Expected(fs, c)
		Reckon(&p, waters[0], lent, c)
	}
}
