package species

// Reading the flights of an account, and a water's own dates.

import (
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
)

// flightsOf reads an account's flights. Names are taken first, so that a
// flight with a slip in its dates is still a word for cases.
func (r *reader) flightsOf(v content.Value) []Flight {
	var l []Flight
	sc := scope{grounds: r.in.Grounds}
	entries := r.inside(v, &sc)
	for _, e := range entries {
		if r.flightName(e.Key) {
			r.flights = append(r.flights, content.NFC(e.Key.S))
		}
	}
	for _, e := range entries {
		o := FlightRecord.Open(e.Value, r.ps)
		f, ok := r.dates(o, content.NFC(e.Key.S), e.Key.At, sc.grounds)
		if !ok || !o.Has("abundance") {
			continue
		}
		f.Class = Class(o.Choice("abundance"))
		f.Moves = Rule(o.Choice("moves"))
		g := sc.grounds.Under(o.Text("basis"), r.ps)
		f.DaysPerDegree, _ = claims(r, "bad-number", daysPerDegree)(o.Value("days_per_degree"), scope{grounds: g})
		if len(f.DaysPerDegree) > 0 && (f.Moves == ByAltitude || f.Moves == ByNothing) {
			r.ps.Warnf("rate-not-used", o.Value("days_per_degree").At, "write moves: warmth, or take the rate out", "this flight moves by %s, so its days per degree are not used", f.Moves)
		}
		l = append(l, f)
	}
	return l
}

// daysPerDegree reads a plain number as days per °C, since the key says so; a
// unit may be written.
func daysPerDegree(s string) (measure.DaysPerDegree, error) {
	rg, err := measure.ParseDaysPerDegree(s)
	if noUnit(err) {
		rg, err = measure.ParseDaysPerDegree(s + " days per °C")
	}
	return rg.Low, err
}

// flightName reports a name that can't be told from a word of stage or sex.
func (r *reader) flightName(key content.Text) bool {
	for _, t := range key.Split(" \t\u00a0") {
		_, stage := StageNamed(t.S)
		if w := content.Fold(t.S); stage || w == "male" || w == "female" || w == "unit" {
			r.ps.Errorf("flight-name", t.At, "name it after its season: spring, late summer", "%q can't stand in the name of a flight: it is a word of its own", t.S)
			return false
		}
	}
	for _, f := range r.flights {
		if content.Fold(f) == content.Fold(key.S) {
			r.ps.Errorf("flight-name", key.At, "give each flight a name of its own", "two flights are called %q", f)
			return false
		}
	}
	return content.Fold(key.S) != ""
}

// ReadDates reads the dates of one flight (an Opened of FlightRecord,
// DatesRecord or any record with from, peak, to and basis). ok is false where
// from or to is missing or broken. A statement without any basis is given g's.
func ReadDates(o content.Opened, name string, at content.Place, g content.Grounds, ps *content.Problems) (f Flight, ok bool) {
	r := &reader{in: Context{Grounds: g}, ps: ps, found: founder{ps: ps}}
	return r.dates(o, name, at, g)
}

func (r *reader) dates(o content.Opened, name string, at content.Place, g content.Grounds) (Flight, bool) {
	g = g.Under(o.Text("basis"), r.ps)
	f := Flight{Name: name, At: at}
	ok := true
	var texts [3]content.Text
	var own []content.Basis
	for i, key := range []string{"from", "peak", "to"} {
		if !o.Has(key) {
			ok = ok && key == "peak"
			continue
		}
		s := g.State(o.Text(key), r.ps)
		day, err := calendar.ParseDay(s.Text.S, calendar.Role(i))
		if err != nil {
			r.ps.Refuse("bad-day", s.Text, err)
			ok = ok && key == "peak"
			continue
		}
		if s.Own {
			own = append(own, s.Basis)
		}
		*[]*calendar.Day{&f.From, &f.Peak, &f.To}[i] = day
		f.DatesText[i] = s.Text.S
		texts[i] = s.Text
	}
	if !ok {
		return f, false
	}
	if f.Peak != 0 && !calendar.Within(f.Peak, f.From, f.To) {
		r.ps.Clash("peak-outside", texts[1].At, texts[0].At, "the flight starts here",
			"put the peak between its from and its to", "the peak %s lies outside %s to %s", texts[1].S, texts[0].S, texts[2].S)
		f.Peak, f.DatesText[1] = 0, ""
	}
	f.Basis = g.Basis
	if len(own) > 0 {
		f.Basis = own[0].With(own[1:]...)
	}
	f.Basis = r.found.basis(f.Basis, at)
	return f, true
}
