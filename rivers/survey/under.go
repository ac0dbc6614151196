package survey

import (
	"cmp"
	"slices"
)

// Under is one count of larvae, pupae or shed skins: a kick sample, or what drifted by.
type Under struct {
	Month  int // 0 to 11
	Method string
	Groups []string // looked for
	Found  []Larvae
}

// Larvae is what was counted: a fly or a coarser taxon by name, of one stage, at one depth.
type Larvae struct {
	Group, Name, Fly string // Fly is the address of a species
	Stage, Depth     string
	N                int // of a Row: 0
}

// UnderRow is one kind of larvae by one method, month by month.
type UnderRow struct {
	Method string
	Larvae
	Months [12]UnderMonth
}

// UnderMonth is a month's samples by the method that looked for the group, and how many were counted in all: no sample,
// nobody looked.
type UnderMonth struct{ Samples, N int }

// UnderRows are the rows of all samples, by method, name, stage and depth. Methods are never pooled.
func UnderRows(samples []Under) (out []UnderRow) {
	for _, s := range samples {
		for _, f := range s.Found {
			row := UnderRow{Method: s.Method, Larvae: f}
			row.N = 0
			i := slices.IndexFunc(out, func(r UnderRow) bool { return r.Method == row.Method && r.Larvae == row.Larvae })
			if i < 0 {
				i, out = len(out), append(out, row)
			}
			out[i].Months[s.Month].N += f.N
		}
	}
	for i := range out {
		for _, s := range samples {
			r := &out[i]
			found := slices.ContainsFunc(s.Found, func(f Larvae) bool { f.N = 0; return f == r.Larvae })
			if s.Method == r.Method && (found || slices.Contains(s.Groups, r.Group)) {
				r.Months[s.Month].Samples++
			}
		}
	}
	slices.SortStableFunc(out, func(a, b UnderRow) int {
		return cmp.Or(cmp.Compare(a.Method, b.Method), cmp.Compare(a.Name, b.Name), cmp.Compare(a.Stage, b.Stage), cmp.Compare(a.Depth, b.Depth))
	})
	return out
}
