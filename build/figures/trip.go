package figures

// The tying list for a trip and what is on around a date: both looked up in
// what has been reckoned (the guide's rules on figures, sections 7 and 17).

import (
	"cmp"
	"slices"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/season"
	"guidegen/species"
	"guidegen/species/tying"
)

// FlyStage is one fly in one stage.
type FlyStage struct {
	Row   *Row
	Stage species.Stage
}

// ID names a fly-stage in a tying list.
func (s FlyStage) ID() string { return s.Row.Fly.Address + " " + string(s.Stage) }

// Trip is a tying list for one water and a run of days.
type Trip struct {
	Water    *Water
	From, To calendar.Day
	Picks    []TripPick
	Nothing  []FlyStage // fly-stages for which the box holds nothing
	Left     []FlyStage // fly-stages that something in the box is for, if only unscored for their group, left when the list stops
	Expected bool       // some fly is on on one of the days; else what is due is an outside chance
	Sum      float64    // of the largest chances of all fly-stages due
	Covered  float64
	Short    bool // it stops before enough is covered: nothing in the box adds more
	Few      int  // a short box of so many dressings, for which whatever passes counts; 0: a whole list
}

// TripPick is one dressing, the fly-stages it is the first to cover, and the
// hooks to tie it on for them.
type TripPick struct {
	Dressing *Dressing
	For      []TripFor
	Hooks    []tying.Hook // largest first, each once; empty where no size is known
	Adds     float64
	Share    float64 // of the sum covered once it is on the list
}

// TripFor is a fly-stage that a dressing covers, and how it imitates it: by its group or kin is said.
type TripFor struct {
	FlyStage
	By tying.By
}

// Trip builds the tying list for the days from..to on a water: due is every fly of its list with a chance of a
// fiftieth or more on one of the days, and every other fly found there in a month of the trip, in each stage that
// fish meet. A fly-stage is covered by what its best class in the box holds.
func (b *Book) Trip(w *Water, from, to calendar.Day) Trip { return b.trip(w, from, to, 0) }

// FewTrip is a short box: the n best dressings, for which those tied for the group and its kin count everywhere.
func (b *Book) FewTrip(w *Water, from, to calendar.Day, n int) Trip { return b.trip(w, from, to, n) }

func (b *Book) trip(w *Water, from, to calendar.Day, few int) Trip {
	out := Trip{Water: w, From: from, To: to, Few: few}
	var due []tying.Due
	stages, named := map[string]FlyStage{}, map[string]bool{}
	covers := map[string][]string{}
	offered := map[string]map[string]TripOffer{} // dressing → fly-stage
	for _, row := range w.Rows {
		chance, isDue := row.DueBetween(from, to)
		if !isDue {
			continue
		}
		out.Expected = out.Expected || row.OnBetween(from, to)
		flight := row.FlightAt(from.Add(calendar.Fwd(from, to) / 2))
		for _, met := range row.Fly.Meets() {
			s := FlyStage{row, met.Stage}
			if row.Barred(met.Stage) {
				continue
			}
			stages[s.ID()] = s
			due = append(due, tying.Due{ID: s.ID(), Chance: float64(PerMille(chance)) / 1000}) // as pages print and add it
			for _, d := range row.Dressings {
				if d.Stage != met.Stage || flight != "" && d.Flight != flight {
					continue
				}
				named[s.ID()] = named[s.ID()] || len(d.Advice.NotScored) > 0
				for _, o := range d.covering(few > 0) {
					if offered[o.Name] == nil {
						offered[o.Name] = map[string]TripOffer{}
					}
					if _, twice := offered[o.Name][s.ID()]; !twice {
						covers[o.Name] = append(covers[o.Name], s.ID())
					}
					offered[o.Name][s.ID()] = o
				}
			}
		}
	}
	var box []tying.Covers
	for _, d := range b.Dressings {
		if c := covers[d.Name.S]; c != nil {
			box = append(box, tying.Covers{Name: d.Name.S, For: c})
		}
	}
	list := tying.Trip(due, box, b.Edition.Constants.Cover)
	if few > 0 {
		list = tying.Few(due, box, few)
	}
	out.Sum, out.Covered = list.Sum, list.Covered
	out.Short = few == 0 && content.Round9(list.Covered) < content.Round9(b.Edition.Constants.Cover*list.Sum)
	for _, p := range list.Picks {
		pick := TripPick{Dressing: b.Dressing(p.Name), Adds: p.Adds, Share: p.Share}
		for _, id := range p.For {
			o := offered[p.Name][id]
			pick.For = append(pick.For, TripFor{stages[id], o.By})
			if o.Hook.Size != "" && !slices.Contains(pick.Hooks, o.Hook) {
				pick.Hooks = append(pick.Hooks, o.Hook)
			}
		}
		slices.SortStableFunc(pick.Hooks, func(x, y tying.Hook) int { return cmp.Compare(y.Step, x.Step) })
		out.Picks = append(out.Picks, pick)
	}
	for _, id := range list.Open {
		if named[id] || slices.ContainsFunc(box, func(c tying.Covers) bool { return slices.Contains(c.For, id) }) {
			out.Left = append(out.Left, stages[id])
		} else {
			out.Nothing = append(out.Nothing, stages[id])
		}
	}
	return out
}

// TripOffer is a dressing that covers a fly-stage, and the hook to tie it on.
type TripOffer struct {
	Name string
	By   tying.By
	Hook tying.Hook // zero where no size is known
}

// Class is the place of the way in which it imitates the fly: 0 tied for it, 1 for its group, 2 for its kin.
func (o TripOffer) Class() int {
	return slices.Index([]tying.By{tying.ByFly, tying.ByGroup, tying.ByKin}, o.By)
}

// Covering are the dressings that cover a stage in a tying list.
func (s StageDressings) Covering() []TripOffer { return s.covering(false) }

// covering are the dressings that cover a stage: of its best class, or, for a short box, whatever passes. One tied
// for the fly covers it even where it can't be scored.
func (s StageDressings) covering(any bool) []TripOffer {
	best := s.Advice.Best()
	var l []TripOffer
	for _, o := range s.Advice.Offered {
		if any || o.Named.By == best {
			t := TripOffer{Name: o.Name, By: o.Named.By}
			if o.Size != nil {
				t.Hook = o.Size.Hook
			}
			l = append(l, t)
		}
	}
	for _, n := range s.Advice.NotScored {
		if n.By == tying.ByFly {
			l = append(l, TripOffer{Name: n.Name, By: n.By})
		}
	}
	return l
}

// DueBetween gives a row's largest chance in a run of days, and whether a tying list takes the fly: for a single find
// outside every flight none does.
func (r *Row) DueBetween(from, to calendar.Day) (chance float64, due bool) {
	for n := range calendar.Fwd(from, to) + 1 {
		d := from.Add(n)
		chance = max(chance, r.Chance[d-1])
		due = due || r.Listed && r.due[d-1] || !r.Listed && r.Months[d.Month()-1].Found >= season.LeastFinds
	}
	return chance, due
}

// Barred reports whether the water's rules allow nothing that the box holds for a stage: no list takes it.
func (r *Row) Barred(stage species.Stage) bool {
	other := func(s StageDressings) bool { return s.Stage == stage && !s.Advice.Barred() }
	return len(r.Water.Methods) > 0 && !slices.ContainsFunc(r.Dressings, other)
}

// InFlight reports whether a record of a day would belong to a flight of the fly's account.
func (b *Book) InFlight(r *Row, d calendar.Day) bool {
	return season.Assign(d, r.stand.moved, b.Edition.Constants.Season) >= 0
}

// OnBetween reports whether a fly is on, on some day of a run of days.
func (r *Row) OnBetween(from, to calendar.Day) bool {
	for n := range calendar.Fwd(from, to) + 1 {
		if s, _ := r.On(from.Add(n)); s == On {
			return true
		}
	}
	return false
}

// leastDue is the chance from which a tying list takes a listed fly: our judgement.
const leastDue = 0.02

// FlightAt names the flight that a day belongs to: the one to which a record of that day would be assigned, else
// the one whose limit is nearest; "" where the fly has no flight here.
func (r *Row) FlightAt(d calendar.Day) string {
	if i := season.FlightOn(d, r.stand.moved); i >= 0 {
		return r.Fly.Flights[i].Name
	}
	return ""
}

// Closed lists the fish for which the water is closed on some day from one date to another, both included.
func (w *Water) Closed(from, to calendar.Date) (fish []string) {
	for _, s := range w.Seasons {
		if !s.Open.Valid() || !s.Close.Valid() {
			continue
		}
		for d := from; !to.Before(d); d = d.AddDays(1) {
			if !s.Holds(d) {
				fish = append(fish, s.Fish.S)
				break
			}
		}
	}
	return fish
}
