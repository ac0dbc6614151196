// The tying list for a trip: few dressings that cover most of what is likely.
// The site's own script does the same for dates chosen on the reader's device;
// testdata/tying-cases.json runs through both.

package tying

// Enough is the share of the sum at which a list stops, unless a guide says
// otherwise: our judgement.
const Enough = 0.9

// Due is a fly in a stage with its largest chance within the dates. IDs differ.
type Due struct {
	ID     string
	Chance float64
}

// Covers says which fly-stages a dressing serves for. Names differ.
type Covers struct {
	Name string
	For  []string
}

// Pick is one dressing of the list: what it adds to the sum, the fly-stages it
// is the first to cover (in the order due), and the share of the sum covered
// once it is on the list.
type Pick struct {
	Name  string
	Adds  float64
	For   []string
	Share float64
}

// List is a tying list. It is greedy: each pick is the best next one, and a
// list that is shorter still may exist. Open are the fly-stages not covered.
type List struct {
	Picks        []Pick
	Sum, Covered float64
	Open         []string
}

// Trip builds a list. Each step adds the dressing with the largest sum, over
// fly-stages not covered yet, of their chances; ties go by name. It stops once
// the given share of the sum over all that is due is covered, or where nothing
// adds (sums compared to 1e-9).
func Trip(due []Due, box []Covers, enough float64) List { return greedy(due, box, enough, len(box)) }

// Few is a short box: the n best dressings, however much they cover.
func Few(due []Due, box []Covers, n int) List { return greedy(due, box, 1, n) }

func greedy(due []Due, box []Covers, enough float64, most int) List {
	var l List
	place := map[string]int{}
	open := make([]bool, len(due))
	for i, d := range due {
		place[d.ID], open[i] = i, true
		l.Sum += max(0, d.Chance)
	}
	serves := make([][]bool, len(box))
	for b, c := range box {
		serves[b] = make([]bool, len(due))
		for _, id := range c.For {
			if i, ok := place[id]; ok {
				serves[b][i] = true
			}
		}
	}
	for len(l.Picks) < most && settle(l.Covered) < settle(enough*l.Sum) {
		best, most := -1, 0.0
		for b := range box {
			var adds float64
			for i, d := range due {
				if open[i] && serves[b][i] {
					adds += max(0, d.Chance)
				}
			}
			if adds = settle(adds); adds > most || best >= 0 && adds == most && box[b].Name < box[best].Name {
				best, most = b, adds
			}
		}
		if best < 0 {
			break
		}
		p := Pick{Name: box[best].Name}
		for i, d := range due {
			if open[i] && serves[best][i] {
				open[i] = false
				p.Adds += max(0, d.Chance)
				p.For = append(p.For, d.ID)
			}
		}
		l.Covered += p.Adds
		p.Share = l.Covered / l.Sum
		l.Picks = append(l.Picks, p)
	}
	for i, d := range due {
		if open[i] {
			l.Open = append(l.Open, d.ID)
		}
	}
	return l
}
