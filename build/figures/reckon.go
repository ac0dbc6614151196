package figures

// The whole reckoning in order: waters and flies, each fly on each water,
// then what rests on all of them.

import (
	"cmp"
	"runtime"
	"slices"
	"sync"

	"guidegen/build/guide"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
	"guidegen/species/key"
	"guidegen/species/tying"
)

// Reckon reckons an edition for the date it is built. The date decides which
// year's finds are marked, how ahead or behind a year is, and of which year the visit is that would help most.
func Reckon(e *guide.Edition, built calendar.Date) *Book {
	r := &reckoner{e: e, c: e.Constants, built: built, book: &Book{Edition: e, Built: built},
		flies: map[string]*Fly{}, waters: map[*rivers.Water]*Water{}}
	r.reference = r.referencePlace()
	r.openWaters()
	r.openFlies()
	r.boxed = r.box()
	r.trust()
	r.rows()
	r.perWater()
	r.vocabulary()
	r.perFly()
	r.dressings()
	r.makeKeys()
	r.book.Prompts = r.bookPrompts()
	var lapsed []Prompt
	r.book.Due, lapsed = r.due()
	for _, p := range lapsed {
		r.book.Prompts = append(r.book.Prompts, p.Problem)
	}
	return r.book
}

type reckoner struct {
	e         *guide.Edition
	c         guide.Constants
	built     calendar.Date
	book      *Book
	reference season.Place
	flies     map[string]*Fly          // by address
	waters    map[*rivers.Water]*Water // lending ones too
	all       []*Water                 // lending ones last
	keys      *key.Guide
	boxed     []tying.Dressing
}

func (r *reckoner) referencePlace() season.Place {
	ref := r.e.Settings.Reference
	p := season.Place{}
	if ref.HasLatitude {
		p.Latitude, p.South = season.Is(ref.Latitude.Degrees), ref.South
	} else {
		p.South = guide.SouthOf(ref, r.e.Waters)
	}
	if ref.HasAltitude {
		p.Altitude = season.Is(float64(ref.Altitude.Low+ref.Altitude.High) / 2)
	}
	if fit, ok := monthly(ref.Temperature); ok {
		p.Temperature = &fit.Wave
	}
	return p
}

func (r *reckoner) openWaters() {
	for i, list := range [][]*rivers.Water{r.e.Waters, r.e.Lending} {
		for _, w := range list {
			x := &Water{Water: w}
			for _, v := range r.e.Visits {
				if v.Water == w {
					x.visits = append(x.visits, v)
				}
			}
			x.Warmth = r.warmth(x)
			x.place = placeOf(w, &x.Warmth)
			r.waters[w] = x
			r.all = append(r.all, x)
			if i == 0 {
				r.book.Waters = append(r.book.Waters, x)
			}
			for _, v := range x.visits {
				if d := v.When.To; v.LooksForAny() && r.book.RecordsTo.Before(d) {
					r.book.RecordsTo = d
				}
			}
		}
	}
}

func (r *reckoner) openFlies() {
	for _, a := range r.e.Accounts {
		f := &Fly{Account: a}
		r.flies[a.Address] = f
		r.book.Flies = append(r.book.Flies, f)
	}
	slices.SortStableFunc(r.book.Flies, r.flyOrder)
}

func (r *reckoner) flyOrder(a, b *Fly) int {
	return cmp.Or(slices.Index(species.Groups, a.Group)-slices.Index(species.Groups, b.Group),
		r.e.Settings.Alphabet.Compare(a.Name.S, b.Name.S), cmp.Compare(a.Address, b.Address))
}

// rows reckons every fly on every water. Flies are independent of each other:
// each goes into its own slot, so the number of processors decides nothing.
func (r *reckoner) rows() {
	slots := make([][]*Row, len(r.book.Flies))
	eachOf(len(slots), func(i int) { slots[i] = r.rowsOf(r.book.Flies[i]) })
	for i, f := range r.book.Flies {
		for _, row := range slots[i] {
			f.Rows = append(f.Rows, row)
			row.Water.Rows = append(row.Water.Rows, row)
		}
	}
}

// trust measures once what this guide's accounts are worth in visits (section 5), before any row is reckoned.
func (r *reckoner) trust() {
	parts := make([]season.Spread, len(r.book.Flies))
	eachOf(len(parts), func(i int) {
		stands, _ := r.standsOf(r.book.Flies[i])
		for _, s := range stands {
			if s.listing != nil && !season.Far(s.moved) {
				p := season.Expected(s.moved, r.c.Season)
				parts[i].Add(&p, s.held)
			}
		}
	})
	var all season.Spread
	for _, p := range parts {
		all = all.Plus(p)
	}
	r.book.Trust = all.Trust(r.c.Season)
}

// eachOf runs a job for every number below n on all processors. A panic in one is given back here, where the
// caller can recover; in a goroutine it would end the program.
func eachOf(n int, job func(int)) {
	faults := make([]any, n)
	var wg sync.WaitGroup
	work := make(chan int)
	for range max(1, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := range work {
				func() {
					defer func() { faults[i] = recover() }()
					job(i)
				}()
			}
		})
	}
	for i := range n {
		work <- i
	}
	close(work)
	wg.Wait()
	for _, f := range faults {
		if f != nil {
			panic(f)
		}
	}
}

// standsOf are a fly's places in the lists of all waters, lending ones too, and where it was found unlisted; inVain
// those of the waters shown where it is neither and was looked for.
func (r *reckoner) standsOf(f *Fly) (stands []*stand, inVain []LookedFor) {
	for _, w := range r.all {
		l, shown := r.listingOf(w.Water, f.Account)
		ev := gatherEvidence(w.visits, f.Account, r.flysYear(w, f, l), r.c.Season)
		if l == nil && !ev.found() {
			if len(ev.visits) > 0 && !w.Withheld() {
				inVain = append(inVain, LookedFor{w, len(ev.visits), yearsOf(ev.visits)})
			}
			continue
		}
		s := r.stand(w, f, l, ev)
		s.shown = shown && !w.Withheld()
		stands = append(stands, s)
	}
	return stands, inVain
}

func (r *reckoner) rowsOf(f *Fly) []*Row {
	stands, inVain := r.standsOf(f)
	f.InVain = inVain
	for _, s := range stands {
		r.dated(s)
		s.measured = r.measuredOn(s)
	}
	var rows []*Row
	for _, s := range stands {
		if !s.shown {
			continue
		}
		row := r.reckon(s, stands)
		row.Sizes = r.sizes(s, stands)
		row.Compared = r.compare(f, row.Sizes)
		row.Against = r.against(s, row)
		row.Hours = r.hours(row)
		row.Dressings = r.adviceFor(row, stands)
		rows = append(rows, row)
	}
	f.Sizes = r.accountSizes(f, stands)
	f.Compared = r.compare(f, f.Sizes)
	f.curve = r.accountCurve(f)
	f.Pairs = r.pairs(f, rows)
	for _, s := range stands {
		s.ev = nil // with many records the visits of every fly would fill the memory; rightness needs only those held
	}
	return rows
}

// listingOf finds a fly in a water's list; shown is false where this edition
// withholds it there.
func (r *reckoner) listingOf(w *rivers.Water, a *species.Account) (l *rivers.Listing, shown bool) {
	for i := range w.Flies {
		if w.Flies[i].Account == a.Address {
			return &w.Flies[i], true
		}
	}
	hidden := r.e.Unshown[w]
	for i := range hidden {
		if hidden[i].Account == a.Address {
			return &hidden[i], false
		}
	}
	return nil, true
}

// Withheld reports whether the water is for members only and known here by
// its records alone.
func (w *Water) Withheld() bool { return w.Name.S == "" }
