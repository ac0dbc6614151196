package rivers

// Reading a sample file row by row: rows of one visit are one event, rows of
// one occurrenceID one find. What a row of a visit leaves empty repeats what
// another says; what contradicts is reported with both places.

import (
	"strings"

	"guidegen/content"
	"guidegen/species"
)

// ReadSamples reads a sample file. Events come in the order of their first
// rows. A cell that can't be read is reported and absent.
func ReadSamples(f *content.File, ps *content.Problems) []*Event {
	s := content.OpenCSV(f, ps)
	if s == nil {
		return nil
	}
	ss := columns(s, ps)
	if ss == nil {
		return nil
	}
	r := &sampleReader{sampleSheet: ss, ps: ps, byID: map[string]*visit{}, byFind: map[string]*find{}}
	for row := range s.Rows(ps) {
		r.row(row)
	}
	events := make([]*Event, len(r.order))
	for i, v := range r.order {
		events[i] = r.event(v)
	}
	return events
}

type sampleReader struct {
	*sampleSheet
	ps     *content.Problems
	order  []*visit
	byID   map[string]*visit
	byFind map[string]*find
	last   *visit
}

// visit gathers the rows of one event.
type visit struct {
	cells    [visitBy + 1]content.Text
	at       content.Place
	finds    []*find
	nothing  content.Text
	readings []Reading
	remarks  []string
}

// find gathers the rows of one occurrence.
type find struct {
	visit   *visit
	cells   [findReared + 1]content.Text
	row     content.Place
	lengths []Length
	remarks []string
}

func (r *sampleReader) text(row content.Row, k sampleKey) content.Text { return row.Text(r.index[k]) }
func (r *sampleReader) cell(row content.Row, k sampleKey) string       { return row.String(r.index[k]) }

func (r *sampleReader) row(row content.Row) {
	v := r.visitOf(row)
	if v == nil {
		return
	}
	f := r.findOf(row, v)
	r.measurement(row, v, f)
	if rem := r.cell(row, remarks); rem != "" {
		to := &v.remarks
		if f != nil {
			to = &f.remarks
		}
		*to = append(*to, rem)
	}
}

// visitOf finds the visit that a row belongs to and adds what it says of it.
func (r *sampleReader) visitOf(row content.Row) *visit {
	id := r.cell(row, visitID)
	v := r.byID[id]
	if id == "" {
		if v = r.last; v == nil || !r.repeats(row, v) {
			r.ps.Errorf("no-visit", row.At, "give the visit a mark of its own, such as TH26-01", "this row does not say which visit it belongs to")
			return nil
		}
	}
	if v == nil {
		v = &visit{at: row.At}
		r.byID[id] = v
		r.order = append(r.order, v)
	}
	r.last = v
	for k := visitID; k <= visitBy; k++ {
		c := r.cell(row, k)
		if c == "" || c == v.cells[k].S {
			continue
		}
		t := r.text(row, k)
		if v.cells[k].S == "" {
			v.cells[k] = t
			continue
		}
		r.ps.Clash("visit-contradiction", t.At, v.cells[k].At, "but this here", "write the same in all rows of a visit, or leave repeated cells empty; another visit needs another mark",
			"visit %q says %q for its %s", v.cells[visitID].S, t.S, r.heading[k])
	}
	return v
}

// repeats reports whether a row says nothing new of a visit.
func (r *sampleReader) repeats(row content.Row, v *visit) bool {
	for k := visitDate; k <= visitBy; k++ {
		if c := r.cell(row, k); c != "" && c != v.cells[k].S {
			return false
		}
	}
	return true
}

func nothing(s string) bool {
	switch strings.ToLower(s) {
	case "nothing", "none":
		return true
	}
	return false
}

// findOf finds or begins the find of a row; nil for a row without one.
func (r *sampleReader) findOf(row content.Row, v *visit) *find {
	fly, id := r.text(row, findFly), r.cell(row, findID)
	called := r.text(row, findCalled)
	if fly.S == "" {
		fly = called
	}
	if nothing(fly.S) {
		if c := r.text(row, findCount); c.S != "" && c.S != "0" {
			r.ps.Errorf("count-of-nothing", c.At, "name the fly, or leave the count empty", "a count stands beside %q", fly.S)
		}
		if v.nothing.IsZero() {
			v.nothing = fly
		}
		r.clashWithNothing(v)
		return nil
	}
	if id != "" {
		if f := r.byFind[id]; f != nil {
			r.again(row, v, f)
			return f
		}
	}
	if fly.S == "" {
		for _, k := range []sampleKey{findID, findStage, findSex, findCount, findQuantity, lengthsMany} {
			if t := r.text(row, k); t.S != "" && !(k == findCount && t.S == "0") {
				r.ps.Errorf("no-fly", t.At, "name the fly by any of its names, its genus or its family; or write nothing", "this row has %s but names no fly", content.A(r.heading[k]))
				return nil
			}
		}
		return nil
	}
	f := &find{visit: v, row: row.At}
	for k := findID; k <= findReared; k++ {
		f.cells[k] = r.text(row, k)
	}
	f.cells[findFly] = fly
	if id == "" {
		r.repeatedRow(v, f)
	} else {
		r.byFind[id] = f
	}
	v.finds = append(v.finds, f)
	r.clashWithNothing(v)
	return f
}

func (r *sampleReader) clashWithNothing(v *visit) {
	if !v.nothing.IsZero() && len(v.finds) == 1 {
		r.ps.Clash("nothing-and-finds", v.nothing.At, v.finds[0].cells[findFly].At, "found here", "take the row of nothing out, or correct the visit's mark",
			"visit %q says that nothing was found, and also a find", v.cells[visitID].S)
	}
}

// again adds a further row of one occurrence.
func (r *sampleReader) again(row content.Row, v *visit, f *find) {
	if f.visit != v {
		r.ps.Clash("find-contradiction", r.text(row, findID).At, f.cells[findID].At, "first here", "give each find a mark of its own",
			"the find %q belongs to two visits", f.cells[findID].S)
		return
	}
	for k := findStatus; k <= findReared; k++ {
		t := r.text(row, k)
		switch first := f.cells[k]; {
		case t.S == "" || t.S == first.S:
		case first.S == "":
			f.cells[k] = t
		default:
			r.ps.Clash("find-contradiction", t.At, first.At, "but this here", "write the same in all rows of a find, or leave repeated cells empty",
				"the find %q says %q for its %s", f.cells[findID].S, t.S, r.heading[k])
		}
	}
}

// repeatedRow warns of a find without a mark that stands twice in a visit,
// since it would count twice.
func (r *sampleReader) repeatedRow(v *visit, f *find) {
	for _, o := range v.finds {
		same := true
		for _, k := range []sampleKey{findID, findFly, findStage, findSex, findCount} {
			same = same && o.cells[k].S == f.cells[k].S
		}
		if same {
			r.ps.Add(content.Problem{ID: "repeated-row", Grade: content.Warning, At: f.cells[findFly].At, Also: o.cells[findFly].At, AlsoSay: "first here",
				Message: "the same fly, stage, sex and count stand twice in one visit, and count twice", Want: "put all into one row, or take one out"})
			return
		}
	}
}

// event turns gathered rows into a typed event.
func (r *sampleReader) event(v *visit) *Event {
	e := r.visitFields(v)
	e.Readings = v.readings
	e.Remarks = strings.Join(v.remarks, "; ")
	e.Finds = make([]Find, 0, len(v.finds))
	for _, f := range v.finds {
		e.Finds = append(e.Finds, r.findFields(f))
	}
	return e
}

// Stage and verification words are few and repeated in every row.
var verifications = []Verification{Verified, Unreviewed, Rejected}

func stageNames() []string {
	l := []string{"subimago", "imago"}
	for _, s := range species.AllStages {
		l = append(l, string(s))
	}
	return l
}
