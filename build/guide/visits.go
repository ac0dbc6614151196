package guide

// Visits: events with their names resolved, the same event counted once, and
// what each visit says of a fly (the guide's rules on figures, section 2).

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
)

// Visit is one sampling event with its names resolved and duplicates joined.
type Visit struct {
	*rivers.Event
	Water    *rivers.Water
	Finds    []Found
	Withheld bool // its place, people and remarks are left out of this edition
	Untold   bool // it has finds that this edition doesn't tell: it is never an empty net
}

// EmptyNet reports whether the visit looked for flies and found none on the wing, as
// far as its edition may tell.
func (v *Visit) EmptyNet() bool {
	return v.LooksForAny() && !v.Untold && !slices.ContainsFunc(v.Finds, Found.Counts)
}

// BeatOf is the beat of its water where the visit was; nil where the water lists none of that name.
func (v *Visit) BeatOf() *rivers.Beat {
	for i, b := range v.Water.Beats {
		if content.Fold(b.Name.S) == content.Fold(v.Beat.S) {
			return &v.Water.Beats[i]
		}
	}
	return nil
}

// Found is one find with its fly resolved.
type Found struct {
	*rivers.Find
	Fly   *species.Account   // nil where the record is coarser than a species
	Taxon []*species.Account // the flies a coarser record may be; empty where Fly is set, and for a group without accounts
	Group species.Group      // of the fly, or of all that it may be; "" where they are of several
	Nth   int                // its place among all the finds of its visit, from 1: the same in every edition

	Withheld bool // in an edition: it counts, and no page or file may list it
}

// Counts reports whether the find can show that its fly was on the wing:
// not rejected, reared or absent, and of a stage that flies. A find without
// a stage shows nothing.
func (f Found) Counts() bool {
	return f.Checked != rivers.Rejected && !f.Reared && !f.Absent && f.Stage.OnTheWing()
}

// ToName reports whether a fly was found that is still to be named: it counts for no species.
func (f Found) ToName() bool {
	return f.Fly == nil && !f.Absent && f.Checked != rivers.Rejected
}

// Says is what one visit says of one fly.
type Says int

// The answers. A Stray find lies outside the visit's scope: it marks its cell
// found but is no visit.
const (
	Nothing Says = iota // nobody looked, or the visit can't tell
	Empty               // looked for and not found
	FoundIt
	Stray
)

// Of tells what the visit says of a fly, how many were counted, and whether
// the find rests on unreviewed records alone.
func (v *Visit) Of(a *species.Account) (says Says, count int, unreviewed bool) {
	if !v.Protocol.OnTheWing() {
		return Nothing, 0, false // a kick sample never counts, whatever was in it
	}
	found, coarse := false, false
	unreviewed = true
	for _, f := range v.Finds {
		switch {
		case !f.Counts():
		case f.Fly == a:
			found = true
			count += f.Count
			if f.Checked == rivers.Verified {
				unreviewed = false
			}
		case f.Fly == nil && slices.Contains(f.Taxon, a):
			coarse = true
		}
	}
	looked := v.LookedFor(a.Group)
	switch {
	case found && looked:
		return FoundIt, count, unreviewed
	case found:
		return Stray, count, unreviewed
	case looked && !coarse:
		return Empty, 0, false
	}
	return Nothing, 0, false
}

// LookedFor reports whether a group was looked for: it is in the scope, or
// the scope is empty, the group is water-bred and the visit has an effort. A
// protocol that can't meet flies on the wing looks for none.
func (v *Visit) LookedFor(g species.Group) bool {
	if !v.Protocol.OnTheWing() {
		return false
	}
	if v.Scope.Given {
		return v.Scope.Has(g)
	}
	return g.WaterBred() && v.Effort.Amount > 0
}

// LooksForAny reports whether the visit looked for any fly at all.
func (v *Visit) LooksForAny() bool {
	return slices.ContainsFunc(species.Groups, v.LookedFor)
}

// Standard is the visit's effort over the standard effort of its unit; not
// known where the effort or a standard for its unit isn't.
func (v *Visit) Standard(c season.Constants) season.Known {
	switch {
	case v.Effort.Amount <= 0:
	case v.Effort.Unit == measure.Sweeps:
		return season.Is(v.Effort.Amount / c.StandardSweeps)
	case v.Effort.Unit == measure.Minutes:
		return season.Is(v.Effort.Amount / c.StandardMinutes)
	}
	return season.Known{}
}

// joinVisits resolves the events' names and joins those that are one event:
// the same id, or the same water, date, start and recorder, all given.
func joinVisits(events []*rivers.Event, names *Names, today calendar.Date, ps *content.Problems) []*Visit {
	var out []*Visit
	byID, byKey, loose := map[string]*Visit{}, map[string]*Visit{}, map[string]*Visit{}
	beats := map[string]bool{} // looked at already
	for _, e := range events {
		w := names.Water(e.Water, ps)
		if w == nil {
			continue
		}
		if !today.IsZero() && today.Before(e.When.From) {
			ps.Warnf("future-date", e.At, "check the year", "visit %s lies in the future: %s", e.ID, e.When.From)
		}
		if y := e.When.From.Year; e.When == (calendar.When{From: calendar.Date{Year: y, Month: 1, Day: 1}, To: calendar.Date{Year: y, Month: 12, Day: 31}}) {
			ps.Notef("vague-date", e.At, "write the day, as 2026-05-03, or the month, as 2026-05", "visit %s is dated by its year alone, so it counts for no month", e.ID)
		}
		v := &Visit{Event: e, Water: w}
		if k := w.Address + "|" + content.Fold(e.Beat.S); !beats[k] {
			beats[k] = true
			unknownBeat(w, e.Beat, ps)
		}
		for i := range e.Finds {
			if f, ok := resolveFind(&e.Finds[i], names, ps); ok {
				v.Finds = append(v.Finds, f)
			}
		}
		if first := byID[e.ID]; e.ID != "" && first != nil {
			if first.Water != w || first.When != e.When {
				ps.Clash("visit-clash", e.At, first.At, "first given here", "give one of the two another id",
					"visit %s stands twice, with another water or date", e.ID)
				continue
			}
			first.sameEffort(v, ps)
			first.join(v)
			continue
		}
		// Different protocols are never pooled, so they are different events.
		key := fmt.Sprintf("%s|%s|%d|%s|%s", w.Address, e.When.From, e.Start, e.Protocol, content.Fold(strings.Join(e.By, "+")))
		if e.When.Exact() && e.Start != calendar.NoClock && len(e.By) > 0 {
			if first := byKey[key]; first != nil {
				ps.Add(content.Problem{ID: "joined-visits", Grade: content.Note, At: e.At, Also: first.At, AlsoSay: "joined with this one",
					Message: fmt.Sprintf("visits %s and %s have the same water, date, start, method and recorder: they count as one", first.ID, e.ID)})
				first.sameEffort(v, ps)
				first.join(v)
				byID[e.ID] = first
				continue
			}
			byKey[key] = v
		} else if e.When.Exact() && v.LooksForAny() {
			k := w.Address + "|" + e.When.From.String()
			if first := loose[k]; first != nil && first.maybe(v) {
				ps.Add(content.Problem{ID: "likely-duplicate", Grade: content.Warning, At: e.At, Also: first.At, AlsoSay: "the other visit",
					Message: fmt.Sprintf("visit %s may be the same as %s: same water and date, and start or recorder is missing", e.ID, first.ID),
					Want:    "give both a start time and a recorder, or remove one"})
			}
			loose[k] = v
		}
		if e.ID != "" {
			byID[e.ID] = v
		}
		out = append(out, v)
	}
	for _, v := range out {
		for i := range v.Finds {
			v.Finds[i].Nth = i + 1
		}
	}
	slices.SortStableFunc(out, func(a, b *Visit) int {
		return cmp.Or(cmp.Compare(a.When.From.String(), b.When.From.String()), cmp.Compare(a.Water.Address, b.Water.Address),
			cmp.Compare(a.Start, b.Start), cmp.Compare(a.ID, b.ID))
	})
	return out
}

// UnknownBeat words a beat that a water doesn't list; "" for one that it does, and
// for any where it lists none. near says that it may be a slip for one of them.
func UnknownBeat(w *rivers.Water, beat string) (fault string, near bool) {
	var known []string
	for _, b := range w.Beats {
		if content.Fold(b.Name.S) == content.Fold(beat) {
			return "", false
		}
		known = append(known, b.Name.S)
	}
	if len(known) == 0 || strings.TrimSpace(beat) == "" {
		return "", false
	}
	meant := content.DidYouMean(beat, known)
	return fmt.Sprintf("%q isn't a beat of %s%s", beat, w.Name.S, meant), meant != ""
}

// unknownBeat reports such a beat. A slip is a warning: it would show what is
// written for members of the beat that was meant.
func unknownBeat(w *rivers.Water, beat content.Text, ps *content.Problems) {
	fault, near := UnknownBeat(w, beat.S)
	if fault == "" {
		return
	}
	p := content.Problem{ID: "unknown-beat", Grade: content.Note, At: beat.At, Message: fault,
		Want: "its beats: " + strings.Join(mapped(w.Beats, func(b rivers.Beat) string { return b.Name.S }), ", ") + "; a new one belongs under beats: in " + w.File}
	if near {
		p.Grade = content.Warning
	}
	ps.Add(p)
}

// sameEffort reports two sheets of one event that disagree on its effort.
func (v *Visit) sameEffort(o *Visit, ps *content.Problems) {
	if v.Effort.Amount > 0 && o.Effort.Amount > 0 && v.Effort != o.Effort {
		ps.Add(content.Problem{ID: "joined-effort", Grade: content.Warning, At: o.At, Also: v.At, AlsoSay: "the effort that counts stands here",
			Message: fmt.Sprintf("visits %s and %s are one event and give two efforts", v.ID, o.ID), Want: "put one of the two right"})
	}
}

func resolveFind(given *rivers.Find, names *Names, ps *content.Problems) (Found, bool) {
	find := *given
	f := &find
	fly, taxon := names.Fly(f.Fly.S)
	group, _, wide := names.Wide(f.Fly.S)
	switch {
	case fly == nil && len(taxon) == 0 && !wide:
		names.unknown(f.Fly, "an account in species/ makes a fly known; a record never does. One that you can't name is its group, such as sedge, or "+Unnamed, ps)
		return Found{}, false
	case fly != nil:
		group = fly.Group
	case !wide: // two flies bear the name
		group = taxon[0].Group
	}
	if fly != nil && coarserRank(f) { // a species' name given as a doubtful or coarser determination
		fly, taxon = nil, []*species.Account{fly}
	}
	f.Stage = f.StageOf(group)
	if f.Stage != "" && group != "" && !group.Has(f.Stage) {
		ps.Warnf("stage-of-group", f.At, "stages of a fly of the group "+string(group)+": "+listed(group.Stages()), "%s has no stage %q", f.Fly.S, f.Stage)
	}
	if f.Stage == "" && !f.Absent && f.Checked != rivers.Rejected {
		ps.Warnf("no-stage", f.At, "write dun, spinner or adult, or the stage it was", "%s has no stage, so it can't count as found on the wing", f.Fly.S)
	}
	if n := len(f.Lengths); f.Counted && !f.Absent && n > f.Count {
		ps.Warnf("more-lengths-than-flies", f.At, "check the count or the lengths", "%s were taken of %s", content.Several(n, "length"), content.Several(f.Count, "fly"))
	}
	return Found{Find: f, Fly: fly, Taxon: taxon, Group: group}, true
}

func listed[T ~string](l []T) string {
	return strings.Join(mapped(l, func(x T) string { return string(x) }), ", ")
}

func coarserRank(f *rivers.Find) bool {
	switch strings.ToLower(f.Rank) {
	case "", "species", "subspecies", "variety", "form":
		return strings.TrimSpace(f.Qualifier) != ""
	}
	return true
}

// join adds another sheet of the same event. A find that both hold alike, its
// lengths too, is one find written twice and counts once.
func (v *Visit) join(o *Visit) {
	for _, f := range o.Finds {
		if !slices.ContainsFunc(v.Finds, func(g Found) bool { return same(f, g) }) {
			v.Finds = append(v.Finds, f)
		}
	}
	e := *v.Event
	if e.Effort.Amount == 0 {
		e.Effort = o.Effort
	}
	if !e.Scope.Given {
		e.Scope = o.Scope
	} else if o.Scope.Given {
		for _, g := range o.Scope.Groups {
			if !e.Scope.Has(g) {
				e.Scope.Groups = append(slices.Clone(e.Scope.Groups), g)
			}
		}
	}
	e.Readings = append(slices.Clone(e.Readings), o.Readings...)
	v.Event = &e
}

func same(a, b Found) bool {
	if a.ID != "" && a.ID == b.ID {
		return true
	}
	return a.Fly == b.Fly && a.Find.Fly.S == b.Find.Fly.S && a.Stage == b.Stage && a.Sex == b.Sex && a.Count == b.Count &&
		a.Reared == b.Reared && slices.EqualFunc(a.Lengths, b.Lengths, func(x, y rivers.Length) bool {
		return x.Millimetres == y.Millimetres && x.WithTails == y.WithTails && x.Part == y.Part
	})
}

// maybe reports whether two visits of one water and date could be one: what
// both give of start and recorder agrees.
func (v *Visit) maybe(o *Visit) bool {
	if v.Start != calendar.NoClock && o.Start != calendar.NoClock && v.Start != o.Start {
		return false
	}
	return len(v.By) == 0 || len(o.By) == 0 || content.Fold(strings.Join(v.By, "+")) == content.Fold(strings.Join(o.By, "+"))
}
