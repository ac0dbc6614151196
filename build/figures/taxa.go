package figures

// Flies as the key, the look-alikes and the stage comparison take them (the
// guide's rules on figures, section 11).

import (
	"slices"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/season"
	"guidegen/species"
	"guidegen/species/colour"
	"guidegen/species/key"
)

// vocabulary turns the guide's characters and accounts into what keys and look-alikes take.
func (r *reckoner) vocabulary() {
	var v key.Vocabulary
	for _, c := range r.e.Characters {
		k := key.Character{Name: c.Name, Role: roleOf(c), Needs: needsOf(c.Needs), Groups: c.Groups}
		for _, s := range c.States {
			k.States = append(k.States, s.Name)
		}
		for _, w := range c.Seen {
			k.SeenIn = append(k.SeenIn, key.Form{Stage: string(w.Stage), Sex: string(w.Sex)})
		}
		v = append(v, k)
	}
	var flies []*key.Fly
	for _, f := range r.book.Flies {
		f.Described = r.described(f)
		flies = append(flies, f.Described)
	}
	r.keys = key.NewGuide(v, flies)
	r.book.Vocabulary = r.keys.Vocabulary
}

// roleOf finds the characters that one looks at first, by the part of the drawing that they belong to or by name.
func roleOf(c species.Character) key.Role {
	for _, x := range []struct {
		role       key.Role
		draw, name string
	}{{key.Posture, "wing posture", "wing posture"}, {key.Pairs, "", "pairs of wings"}, {key.Tails, "tail count", "tails"}, {key.Wings, "fore wing", "wings"}} {
		if c.Draw != "" && c.Draw == x.draw || content.Fold(c.Name) == x.name {
			return x.role
		}
	}
	return key.NoRole
}

func needsOf(n species.Needs) key.Needs {
	return key.Needs(max(0, slices.Index(species.AllNeeds, n)))
}

// described is a fly form by form: each stage that flies, in each sex. An animal that never emerges has none.
func (r *reckoner) described(f *Fly) *key.Fly {
	x := &key.Fly{ID: f.Address, Name: f.Name.S, Group: string(f.Group), Family: content.Fold(f.Family.S),
		Mixed:  f.Group == species.LandBred || f.Group == species.OtherWater,
		States: map[key.Form]map[string][]string{}, Memory: map[key.Form]map[string]bool{}, Colours: map[key.Form]map[string]key.Tint{}}
	if how, _ := f.Emerges.First(); how.Value == species.NeverEmerge {
		return x
	}
	for _, st := range onTheWing(f.Group) {
		for _, sex := range []species.Sex{species.Male, species.Female} {
			form := key.Form{Stage: string(st), Sex: string(sex)}
			x.Forms = append(x.Forms, form)
			x.States[form], x.Memory[form], x.Colours[form] = map[string][]string{}, map[string]bool{}, map[string]key.Tint{}
			for i := range r.e.Characters {
				c := &r.e.Characters[i]
				states, memory := statesIn(f.Account, c, st, sex)
				if len(states) > 0 {
					x.States[form][c.Name], x.Memory[form][c.Name] = states, memory
				}
			}
			for _, p := range f.Colours {
				if c, ok := colourIn(f.Account, p, st, sex); ok {
					x.Colours[form][p.Part] = key.Tint{Words: c.Value.Colour.String(), Lab: c.Value.Colour.Value.Lab(), Memory: c.Basis.FromMemory()}
				}
			}
		}
	}
	return x
}

// flightCases are a form in every flight, and in none.
func flightCases(a *species.Account, st species.Stage, sex species.Sex) []species.Words {
	l := []species.Words{{Stage: st, Sex: sex}}
	for _, f := range a.Flights {
		l = append(l, species.Words{Stage: st, Sex: sex, Flight: f.Name})
	}
	return l
}

// statesIn joins the states that an account gives a character in a form, in the vocabulary's order, and whether they
// rest on memory alone.
func statesIn(a *species.Account, c *species.Character, st species.Stage, sex species.Sex) (states []string, memory bool) {
	has := map[string]bool{}
	memory = true
	for _, w := range flightCases(a, st, sex) {
		if !c.Sees(w) {
			continue
		}
		if claim, ok := a.Feature(c.Name, w); ok {
			memory = memory && claim.Basis.FromMemory()
			for _, s := range claim.Value {
				has[s] = true
			}
		}
	}
	for _, s := range c.States {
		if has[s.Name] {
			states = append(states, s.Name)
		}
	}
	return states, memory
}

func colourIn(a *species.Account, p species.PartColour, st species.Stage, sex species.Sex) (species.Claim[species.Shade], bool) {
	for _, w := range flightCases(a, st, sex) {
		if c, ok := p.Cases.First(w); ok && c.Value.Colour.HasValue {
			return c, true
		}
	}
	return species.Claim[species.Shade]{}, false
}

// onTheWing lists the group's stages that fly.
func onTheWing(g species.Group) []species.Stage {
	var l []species.Stage
	for _, s := range g.Stages() {
		if s.OnTheWing() {
			l = append(l, s)
		}
	}
	return l
}

// casesOf lists every case of a stage: both sexes and either, in each flight.
func casesOf(a *species.Account, st species.Stage) []species.Words {
	var l []species.Words
	for _, sex := range []species.Sex{species.NoSex, species.Male, species.Female} {
		l = append(l, species.Words{Stage: st, Sex: sex})
		for _, f := range a.Flights {
			l = append(l, species.Words{Stage: st, Sex: sex, Flight: f.Name})
		}
	}
	return l
}

// statesOf joins the states an account gives a character over some stages,
// in the vocabulary's order. A stage in which the character can't be seen
// says nothing.
func statesOf(a *species.Account, c *species.Character, stages []species.Stage) []string {
	has := map[string]bool{}
	for _, st := range stages {
		for _, w := range casesOf(a, st) {
			if !c.Sees(w) {
				continue
			}
			if claim, ok := a.Feature(c.Name, w); ok {
				for _, s := range claim.Value {
					has[s] = true
				}
			}
		}
	}
	var l []string
	for _, s := range c.States {
		if has[s.Name] {
			l = append(l, s.Name)
		}
	}
	return l
}

// shadeOf finds the colour of a part in a stage, either sex.
func shadeOf(a *species.Account, part string, st species.Stage) (species.Shade, bool) {
	for _, p := range a.Colours {
		if p.Part != part {
			continue
		}
		for _, w := range casesOf(a, st) {
			if c, ok := p.Cases.First(w); ok {
				return c.Value, true
			}
		}
	}
	return species.Shade{}, false
}

// labsOf gives the colours of a fly's parts in one case, for comparison with
// dressings.
func labsOf(a *species.Account, w species.Words) map[string]colour.Lab {
	out := map[string]colour.Lab{}
	for _, p := range a.Colours {
		if c, ok := p.Cases.First(w); ok && c.Value.Colour.HasValue {
			out[p.Part] = c.Value.Colour.Value.Lab()
		}
	}
	return out
}

// alike finds a row's look-alikes among the flies of its water, by flights as they are moved there.
func (r *reckoner) alike(row *Row, rows []*Row) ([]Alike, int) {
	var others []key.Season
	for _, o := range rows {
		others = append(others, r.seasonOf(o.Fly, o.stand.moved, &o.stand.p))
	}
	return r.alikeIn(r.seasonOf(row.Fly, row.stand.moved, &row.stand.p), others)
}

// alikeAnywhere finds a fly's look-alikes over the whole guide, by the
// accounts' own curves at the reference.
func (r *reckoner) alikeAnywhere(f *Fly) ([]Alike, int) {
	var others []key.Season
	for _, o := range r.book.Flies {
		others = append(others, r.seasonOf(o, nil, o.curve))
	}
	return r.alikeIn(r.seasonOf(f, nil, f.curve), others)
}

// seasonOf is a fly with its flights; without moved dates the account's stand for both.
func (r *reckoner) seasonOf(f *Fly, moved []season.Moved, curve *season.Curve) key.Season {
	s := key.Season{Fly: f.Described, Curve: curve[:], Names: f.named}
	for k, fl := range f.Account.Flights {
		x := key.Flight{Name: fl.Name, Account: key.Run{From: fl.From, To: fl.To}, LengthsByForm: f.lengths(fl.Name)}
		x.Moved = x.Account
		if k < len(moved) {
			x.Moved = key.Run{From: moved[k].From, To: moved[k].To}
		}
		s.Flights = append(s.Flights, x)
	}
	return s
}

// lengths are what the account gives of each form in a flight, by what was measured.
func (f *Fly) lengths(flight string) map[key.Form][]key.Measure {
	out := map[key.Form][]key.Measure{}
	for _, form := range f.Described.Forms {
		w := species.Words{Stage: species.Stage(form.Stage), Sex: species.Sex(form.Sex), Flight: flight}
		for _, part := range []species.Part{species.OfBody, species.Overall} {
			if c, ok := lengthsOf(f.Account, w, part).First(); ok {
				out[form] = append(out[form], key.Measure{Low: float64(c.Value.Low), High: float64(c.Value.High), Part: string(part), Memory: c.Basis.FromMemory()})
			}
		}
	}
	return out
}

func (r *reckoner) alikeIn(f key.Season, others []key.Season) (list []Alike, more int) {
	found, more := r.keys.LookAlikes(f, others, r.c.Alike)
	for _, l := range found {
		list = append(list, Alike{l, r.flies[l.ID]})
	}
	return list, more
}

// namedBy finds the flies that an account links to under its heading on what it is easily confused with.
func (r *reckoner) namedBy(f *Fly) map[string]bool {
	out := map[string]bool{}
	for _, address := range species.ConfusedWith(f.Body.Markdown) {
		if o := r.flies[address]; o != nil && o != f {
			out[o.Address] = true
		}
	}
	return out
}

// keyFor makes the key of a set of flies weighted by their chance in it. month 0 is the whole year.
func (r *reckoner) keyFor(w *Water, month int, flies []*Fly, chance func(*Fly) float64, row func(*Fly) *Row) *Key {
	k := &Key{Water: w, Month: month, Flies: flies, Lengths: map[string][]key.Measure{}}
	var set []key.Specimen
	for _, f := range flies {
		if len(f.Described.Forms) == 0 {
			k.Wingless = append(k.Wingless, f)
			continue
		}
		for _, form := range f.Described.Forms {
			s := key.Specimen{Fly: f.Described, Form: form, Chance: chance(f), Length: f.lengthIn(form, month, row(f))}
			_, coloured := f.Described.Colours[form][key.Body]
			s.LeftOut = form.Stage == string(species.Spinner) && form.Sex == string(species.Male) && !coloured
			set = append(set, s)
			if s.Length.High > 0 {
				k.Lengths[f.Address] = append(k.Lengths[f.Address], s.Length)
			}
		}
	}
	k.Key = r.keys.Build(set, r.c.Key)
	return k
}

// LengthsOf are the ranges of a form in mm, each flight's, as the account gives them: of the body, and overall.
func (f *Fly) LengthsOf(form key.Form) (out [2][][2]float64) {
	out = [2][][2]float64{{}, {}}
	for _, fl := range f.Account.Flights {
		for _, l := range f.lengths(fl.Name)[form] {
			i := 0
			if l.Part == string(species.Overall) {
				i = 1
			}
			if x := [2]float64{l.Low, l.High}; !slices.Contains(out[i], x) {
				out[i] = append(out[i], x)
			}
		}
	}
	return out
}

// lengthIn is the range of a form over the flights that speak for a month; over all of them for the year.
func (f *Fly) lengthIn(form key.Form, month int, row *Row) key.Measure {
	var m key.Measure
	for _, k := range f.flightsIn(month, row) {
		for _, x := range f.lengths(f.Account.Flights[k].Name)[form] {
			if m.High == 0 {
				m = x
			} else if m.Part == x.Part {
				m.Low, m.High, m.Memory = min(m.Low, x.Low), max(m.High, x.High), m.Memory && x.Memory
			}
		}
	}
	return m
}

// flightsIn are the places of the flights within fifteen days of a month, on a water by its own dates; where none lies so
// near, of the one that speaks for the month's middle day; of all of them for the year.
func (f *Fly) flightsIn(month int, row *Row) (in []int) {
	var runs []season.Moved
	for k, fl := range f.Account.Flights {
		run := [2]calendar.Day{fl.From, fl.To}
		if row != nil && k < len(row.Flights) {
			run = [2]calendar.Day{row.Flights[k].From, row.Flights[k].To}
		}
		runs = append(runs, season.Moved{Dates: season.Dates{From: run[0], To: run[1]}})
		if month == 0 || len(f.Account.Flights) == 1 || !run[0].Valid() || !run[1].Valid() || nearMonth(run, month) {
			in = append(in, k)
		}
	}
	if len(in) == 0 && len(runs) > 0 {
		in = []int{season.FlightOn(calendar.DayOf(monthOf(month-1), 15), runs)}
	}
	return in
}

func nearMonth(run [2]calendar.Day, month int) bool {
	const within = 15
	for d := calendar.FirstOf(monthOf(month - 1)); d <= calendar.LastOf(monthOf(month-1)); d++ {
		if calendar.Within(d, run[0].Add(-within), run[1].Add(within)) {
			return true
		}
	}
	return false
}
