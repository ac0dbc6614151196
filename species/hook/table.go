package hook

// The table of hooks that the club has measured, and the size it suggests for
// a length.

import (
	"cmp"
	"math"
	"slices"

	"guidegen/content/calendar"
	"guidegen/content/measure"
)

// Measured is one hook that somebody measured.
type Measured struct {
	Model  string
	Size   Size
	Shank  measure.Millimetres // 0 where not measured, as on a curved hook
	Gape   measure.Millimetres // 0 where not measured
	Curved bool                // a curved hook has no shank
	For    []string            // stages or groups that the model serves; empty: all
	FromMM float64             // the least body worth tying on it, mm; 0: any
	By     string
	On     calendar.Date
}

// Table is the measured hooks, in any order.
type Table []Measured

// Beyond says whether a length lies within a model's measured sizes.
type Beyond int

// A length beyond the table by more than half its last step gets no size: the
// hook would be smaller or larger than any that was measured.
const (
	SmallerThanTable Beyond = iota - 1
	Within
	LargerThanTable
)

// Suggestion is what one straight model offers for a length.
type Suggestion struct {
	Model  string
	Beyond Beyond
	Size   Size                // 0 unless Within
	Shank  measure.Millimetres // of Size; 0 unless Within
}

// Models names the straight models that have a shank measured, in the order of the table.
func (t Table) Models() []string {
	var l []string
	for _, h := range t {
		if h.straight() && !slices.Contains(l, h.Model) {
			l = append(l, h.Model)
		}
	}
	return l
}

// Serves reports whether a model is for a body of this length in this stage of a fly of this group: it names the
// stage or the group, or neither any stage nor group, and the body is as long as it asks for.
func (t Table) Serves(model, stage, group string, body measure.Millimetres) bool {
	named, serves := false, false
	for _, h := range t {
		if h.Model != model {
			continue
		}
		named = named || len(h.For) > 0
		serves = serves || slices.Contains(h.For, stage) || slices.Contains(h.For, group)
		if h.FromMM > 0 && measure.Round9(float64(body)-h.FromMM) < 0 {
			return false
		}
	}
	return serves || !named
}

// Shank is the shank of a size in a straight model, the mean where more than
// one hook of it was measured.
func (t Table) Shank(model string, size Size) (measure.Millimetres, bool) {
	for _, h := range t.shanks(model) {
		if h.Size == size {
			return h.Shank, true
		}
	}
	return 0, false
}

// Suggest returns, for each straight model that serves a stage of a group at this length, in the order of the
// table, the size whose shank comes nearest to the body; a tie goes to the smaller hook. Curved hooks have no
// shank and get none.
func (t Table) Suggest(body measure.Millimetres, stage, group string) []Suggestion {
	var l []Suggestion
	for _, model := range t.Models() {
		if t.Serves(model, stage, group, body) {
			s, _ := t.SuggestIn(model, body)
			l = append(l, s)
		}
	}
	return l
}

// SuggestIn is the suggestion in one model. It is not ok for a model that has
// no straight hook with a shank in the table.
//
// Of a model with one measured size no step is known, so any other length than
// its shank lies beyond the table.
func (t Table) SuggestIn(model string, length measure.Millimetres) (s Suggestion, ok bool) {
	rows := t.shanks(model)
	if len(rows) == 0 {
		return Suggestion{}, false
	}
	s = Suggestion{Model: model}
	last := len(rows) - 1
	switch below, above := apartness(rows[0].Shank, length), apartness(length, rows[last].Shank); {
	case below > apartness(rows[min(1, last)].Shank, rows[0].Shank)/2:
		s.Beyond = SmallerThanTable
		return s, true
	case above > apartness(rows[last].Shank, rows[max(0, last-1)].Shank)/2:
		s.Beyond = LargerThanTable
		return s, true
	}
	best := slices.MinFunc(rows, func(a, b Measured) int {
		return cmp.Or(
			cmp.Compare(math.Abs(apartness(a.Shank, length)), math.Abs(apartness(b.Shank, length))),
			Compare(a.Size, b.Size))
	})
	s.Size, s.Shank = best.Size, best.Shank
	return s, true
}

// apartness is a - b, rounded to 1e-9 since it decides ties and limits.
func apartness(a, b measure.Millimetres) float64 { return measure.Round9(float64(a - b)) }

// shanks lists one row a size of a straight model, the shortest shank first.
func (t Table) shanks(model string) []Measured {
	var rows []Measured
	count := map[Size]int{}
	for _, h := range t {
		if h.Model != model || !h.straight() {
			continue
		}
		count[h.Size]++
		if i := slices.IndexFunc(rows, func(r Measured) bool { return r.Size == h.Size }); i >= 0 {
			rows[i].Shank += h.Shank
		} else {
			rows = append(rows, h)
		}
	}
	for i := range rows {
		rows[i].Shank /= measure.Millimetres(count[rows[i].Size])
	}
	slices.SortFunc(rows, func(a, b Measured) int {
		return cmp.Or(cmp.Compare(measure.Round9(float64(a.Shank)), measure.Round9(float64(b.Shank))), Compare(a.Size, b.Size))
	})
	return rows
}

func (h Measured) straight() bool { return !h.Curved && h.Shank > 0 }
