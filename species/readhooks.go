package species

// Reading hooks.csv, the hooks that the club has measured.

import (
	"fmt"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species/hook"
)

// MeasuredHook is one row of hooks.csv.
type MeasuredHook struct {
	hook.Measured
	At content.Place
}

// HookTable drops the places of rows.
func HookTable(rows []MeasuredHook) hook.Table {
	var t hook.Table
	for _, r := range rows {
		t = append(t, r.Measured)
	}
	return t
}

// ReadHooks reads the table of measured hooks. A row without a model, a size
// or, for a straight hook, a shank is reported and left out.
func ReadHooks(f *content.File, ps *content.Problems) []MeasuredHook {
	s := content.OpenCSV(f, ps)
	if s == nil {
		return nil
	}
	col := s.Match(HookColumns, nil, ps)
	var l []MeasuredHook
	if ps.Errors(f.Path) > 0 {
		return nil // what its headings don't say would be missing in every row
	}
	for row := range s.Rows(ps) {
		h := hook.Measured{Model: content.NFC(row.String(col["model"].Index)), By: row.String(col["measured by"].Index)}
		ok := true
		if h.Model == "" {
			ps.Errorf("missing-cell", row.At, "name the model", "this row names no hook")
			ok = false
		}
		size := row.Text(col["size"].Index)
		var err error
		if h.Size, err = hook.ParseSize(size.S); err != nil {
			refuseCell(ps, "bad-size", size, row, err)
			ok = false
		}
		switch shape := row.Text(col["shape"].Index); content.Fold(shape.S) {
		case "straight":
		case "curved":
			h.Curved = true
		default:
			refuseShape(ps, shape, row)
			ok = false
		}
		length := func(name string) measure.Millimetres {
			c := col[name]
			t := row.Text(c.Index)
			if t.S == "" {
				return 0
			}
			x, err := measure.ParseLength(t.S + " " + c.Unit)
			if err != nil {
				ps.Refuse("bad-length", t, err)
				ok = false
			}
			return x.Low
		}
		h.Shank, h.Gape = length("shank"), length("gape")
		if t := row.Text(col["shank"].Index); h.Curved && h.Shank > 0 {
			ps.Errorf("curved-shank", t.At, "leave the shank empty, or write straight", "a curved hook has no shank to measure")
			ok = false
		} else if !h.Curved && ok && h.Shank == 0 {
			ps.Errorf("missing-cell", row.At, "measure it, or take the row out", "this straight hook has no shank")
			ok = false
		}
		h.FromMM = float64(length("from"))
		for _, t := range row.Text(col["for"].Index).Split(";") {
			if t = t.Trim(); t.S == "" {
				continue
			}
			word := content.Fold(t.S)
			if stage, is := StageNamed(word); is {
				word = string(stage)
			} else if !slices.Contains(Groups, Group(word)) {
				known := append(words(AllStages), words(Groups)...)
				ps.Errorf("unknown-word", t.At, "stages or groups with ; between them: "+strings.Join(known, ", "),
					"%q is neither a stage nor a group%s", t.S, content.DidYouMean(t.S, known))
				ok = false
			}
			h.For = append(h.For, word)
		}
		if t := row.Text(col["measured on"].Index); t.S != "" {
			if h.On, err = calendar.ParseDate(t.S); err != nil {
				ps.Refuse("bad-date", t, err)
			}
		}
		if ok {
			l = append(l, MeasuredHook{h, row.At})
		}
	}
	measuredAgain(l, ps)
	shanksInOrder(l, ps)
	return l
}

// measuredAgain warns of a second row for one model and size: two hooks that were
// measured, whose mean counts, or a row copied by mistake.
func measuredAgain(l []MeasuredHook, ps *content.Problems) {
	type hook struct {
		model, size string
	}
	first := map[hook]content.Place{}
	for _, h := range l {
		k := hook{content.Fold(h.Model), h.Size.String()}
		at, again := first[k]
		if !again {
			first[k] = h.At
			continue
		}
		ps.Add(content.Problem{ID: "hook-twice", Grade: content.Warning, At: h.At, Also: at, AlsoSay: "first here",
			Message: fmt.Sprintf("size %s of %s stands twice, and the mean of both shanks counts", h.Size, h.Model), Want: "keep one of the two, unless two hooks were measured"})
	}
}

// shanksInOrder warns of a larger hook with a shorter shank than the next smaller
// one of its model: a slip of the hand, or a row in the wrong model.
func shanksInOrder(l []MeasuredHook, ps *content.Problems) {
	for _, big := range l {
		next := -1
		for i, small := range l {
			if small.Model == big.Model && !small.Curved && hook.Compare(small.Size, big.Size) < 0 && (next < 0 || hook.Compare(l[next].Size, small.Size) < 0) {
				next = i
			}
		}
		if next >= 0 && !big.Curved && measure.Round9(float64(big.Shank-l[next].Shank)) < 0 {
			ps.Add(content.Problem{ID: "shank-order", Grade: content.Warning, At: big.At, Also: l[next].At, AlsoSay: "the smaller one",
				Message: fmt.Sprintf("size %s of %s has a shorter shank than size %s", big.Size, big.Model, l[next].Size), Want: "measure both again"})
		}
	}
}

// refuseCell reports a cell that can't be read; an empty one at the row.
func refuseCell(ps *content.Problems, id string, t content.Text, row content.Row, err error) {
	if t.S == "" {
		ps.Errorf("missing-cell", row.At, "fill it in, or take the row out", "a cell that must be filled is empty in this row")
		return
	}
	ps.Refuse(id, t, err)
}

func refuseShape(ps *content.Problems, t content.Text, row content.Row) {
	at := t.At
	if t.S == "" {
		at = row.At
	}
	ps.Errorf("unknown-choice", at, "one of: straight, curved", "%q isn't a shape of a hook%s", t.S, content.DidYouMean(t.S, []string{"straight", "curved"}))
}
