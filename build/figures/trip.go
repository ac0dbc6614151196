package figures

// The tying list for a trip and what is on around a date: both looked up in
// what has been reckoned (the guide's rules on figures, sections 7 and 17).

import (
	"slices"

	"guidegen/content"
	"guidegen/content/calendar"
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
	Open     []FlyStage // fly-stages that no dressing on the list covers
	Sum      float64    // of the largest chances of all fly-stages due
	Covered  float64
	Short    bool // it stops before enough is covered: no dressing serves for the rest
}

// TripPick is one dressing, the fly-stages it is the first to cover, and the
// hooks to tie it on for them.
type TripPick struct {
	Dressing *Dressing
	For      []FlyStage
	Hooks    []tying.Hook // largest first, each once; empty where no size is known
	Adds     float64
	Share    float64 // of the sum covered once it is on the list
}

// Trip builds the tying list for the days from..to on a water. The fly-stages
// due are those of flies on in those days: on the wing, and the nymph or pupa
// before it. A dressing covers one where it is offered, names the fly or its group
// and comes near its length: what passes by size and colour alone is no reason to tie it.
func (b *Book) Trip(w *Water, from, to calendar.Day) Trip {
	out := Trip{Water: w, From: from, To: to}
	var due []tying.Due
	stages := map[string]FlyStage{}
	covers := map[string][]string{}
	offers := map[string]map[string][]tying.Offer{}
	for _, row := range w.Rows {
		chance, on := row.within(from, to)
		if !on {
			continue
		}
		for _, st := range row.Fly.Group.Stages() {
			if st == species.Larva {
				continue
			}
			s := FlyStage{row, st}
			stages[s.ID()] = s
			due = append(due, tying.Due{ID: s.ID(), Chance: chance})
			for _, d := range row.Dressings {
				if d.Stage != st || !row.flightWithin(d.Flight, from, to) {
					continue
				}
				for _, o := range d.Named() {
					if !slices.Contains(covers[o.Name], s.ID()) {
						covers[o.Name] = append(covers[o.Name], s.ID())
					}
					if offers[o.Name] == nil {
						offers[o.Name] = map[string][]tying.Offer{}
					}
					offers[o.Name][s.ID()] = append(offers[o.Name][s.ID()], o)
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
	out.Sum, out.Covered = list.Sum, list.Covered
	out.Short = content.Round9(list.Covered) < content.Round9(b.Edition.Constants.Cover*list.Sum)
	for _, p := range list.Picks {
		pick := TripPick{Dressing: b.Dressing(p.Name), Adds: p.Adds, Share: p.Share}
		for _, id := range p.For {
			pick.For = append(pick.For, stages[id])
			for _, o := range offers[p.Name][id] {
				if o.Size != nil && !slices.Contains(pick.Hooks, o.Size.Hook) {
					pick.Hooks = append(pick.Hooks, o.Size.Hook)
				}
			}
		}
		slices.SortStableFunc(pick.Hooks, func(x, y tying.Hook) int {
			switch {
			case x.Step > y.Step:
				return -1
			case x.Step < y.Step:
				return 1
			}
			return 0
		})
		out.Picks = append(out.Picks, pick)
	}
	for _, id := range list.Open {
		out.Open = append(out.Open, stages[id])
	}
	return out
}

// within gives a row's largest chance in a run of days and whether the fly is
// on on one of them.
func (r *Row) within(from, to calendar.Day) (chance float64, on bool) {
	for n := range calendar.Fwd(from, to) + 1 {
		d := from.Add(n)
		chance = max(chance, r.Chance[d-1])
		state, _ := r.On(d)
		on = on || state == On
	}
	return chance, on
}

// flightWithin reports whether a flight here has a day in the run, or none of
// the row's flights has, so that none can be told from the others.
func (r *Row) flightWithin(flight string, from, to calendar.Day) bool {
	touching := func(f FlightHere) bool {
		return calendar.Within(from, f.From, f.To) || calendar.Within(f.From, from, to)
	}
	any := false
	for _, f := range r.Flights {
		if touching(f) {
			if f.Name == flight {
				return true
			}
			any = true
		}
	}
	return !any
}

// On looks up what is on around a day.
func (r *Row) On(d calendar.Day) (OnState, Tendency) {
	for _, run := range r.Runs {
		if d >= run.From && d <= run.To {
			return run.State, run.Tendency
		}
	}
	return Off, NoTendency
}

// Around lists the flies that are on, starting, just over or between flights
// around a day, in the order they are shown: those on first, then by chance,
// class and name.
func (w *Water) Around(d calendar.Day) []*Row {
	var l []*Row
	for _, row := range w.Rows {
		if s, _ := row.On(d); s != Off {
			l = append(l, row)
		}
	}
	slices.SortStableFunc(l, func(a, b *Row) int {
		x, _ := a.On(d)
		y, _ := b.On(d)
		if (x == On) != (y == On) {
			if x == On {
				return -1
			}
			return 1
		}
		return byChance(a, b, func(r *Row) float64 { return r.Chance[d-1] })
	})
	return l
}

// Closed lists the fish for which the water is closed on a day.
func (w *Water) Closed(d calendar.Day) (fish []string) {
	for _, s := range w.Seasons {
		if s.Open != 0 && s.Close != 0 && !calendar.Within(d, s.Open, s.Close) {
			fish = append(fish, s.Fish.S)
		}
	}
	return fish
}
