package demo

// One drawing of the made records: visits by the members' habits, finds by the waters' truth. The same start gives the
// same records.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"time"

	"guidegen/content/calendar"
)

// madeRow is a row of a sheet; the first row of a visit says what is the visit's.
type madeRow struct {
	visit, date, start, end, water, beat, method, effort, scope          string
	fly, stage, sex, count, lengths, by, named, checked, reared, remarks string
}

// madeVisit is one visit's rows.
type madeVisit struct {
	habit habit
	date  calendar.Date
	rows  []madeRow
}

// draw makes all visits; common is by how many days each year's spring is late.
func draw(start uint64, flights []trueFlight, common map[int]float64) []madeVisit {
	late := lateness(rand.New(rand.NewPCG(start, 0)), flights, common)
	var out []madeVisit
	for k, h := range habits {
		for y := h.first; y <= h.last; y++ {
			n := 0
			for i := range h.visits {
				r := rand.New(rand.NewPCG(start, uint64(1e6*(k+1)+100*y+i))) // its own, so that one visit changes no other
				from := time.Date(y, time.Month(h.from/100), h.from%100, 0, 0, 0, 0, time.UTC)
				to := time.Date(y, time.Month(h.to/100), h.to%100, 0, 0, 0, 0, time.UTC)
				d := from.Add(time.Duration((float64(i) + r.Float64()) / float64(h.visits) * float64(to.Sub(from))))
				if away(h.who, y, int(d.Month())*100+d.Day()) {
					continue
				}
				v := madeVisit{habit: h, date: calendar.DateOf(d)}
				finds := h.finds(r, flights, late, v.date)
				if h.goodDays && len(finds) < 3 {
					continue // not worth writing down
				}
				n++
				v.write(r, fmt.Sprintf("%s%02d-%02d", h.mark, y%100, n), finds)
				out = append(out, v)
			}
		}
	}
	misdate(out)
	return out
}

// caught is one fly in the net.
type caught struct {
	fly   trueFlight
	count int
}

// finds draws what a visit meets. More effort than standard finds more, on every method that the rules on figures know.
func (h habit) finds(r *rand.Rand, flights []trueFlight, late []map[int]float64, on calendar.Date) []caught {
	var out []caught
	for i, f := range flights {
		if f.water != h.water || !h.looksFor(f.group) {
			continue
		}
		p := f.chance(on.OfYear(), late[i][on.Year])
		if h.method == "kick sample" {
			p = f.share * 0.6 // the young live all year
		}
		effort := 1.0
		if h.effort == "20 minutes" {
			effort = 2
		}
		met := r.Float64() < 1-math.Pow(1-p, effort)
		n := 1 + int(effort*crowd(p)*r.ExpFloat64())
		if !met {
			continue
		}
		if k := len(out); k > 0 && out[k-1].fly.fly == f.fly {
			out[k-1].count += n // two flights of one fly meet
			continue
		}
		out = append(out, caught{f, n})
	}
	return out
}

func (h habit) looksFor(group string) bool {
	if h.method == "kick sample" {
		return slices.Contains([]string{"upwinged", "sedge", "stonefly"}, group)
	}
	switch h.scope {
	case "all", "":
		return true
	case "water-bred":
		return group != "land-bred"
	}
	return h.scope == group
}

// write makes the rows of a visit.
func (v *madeVisit) write(r *rand.Rand, mark string, finds []caught) {
	h := v.habit
	minutes := 60*h.start + 5*r.IntN(19)
	clock := func(m int) string { return fmt.Sprintf("%02d:%02d", m/60, m%60) }
	first := madeRow{visit: mark, date: v.date.String(), start: clock(minutes), end: clock(minutes + 30 + 5*r.IntN(5)), water: h.water,
		beat: h.beats[r.IntN(len(h.beats))], method: h.method, effort: h.effort, scope: h.scope, by: h.who}
	if h.goodDays {
		first.scope, first.end = "none", ""
	}
	if r.Float64() < 0.2 {
		first.remarks = weather[r.IntN(len(weather))]
	}
	if len(finds) == 0 {
		first.fly, first.count = "nothing", "0"
	}
	for _, c := range finds {
		v.find(r, c)
	}
	if len(v.rows) == 0 {
		v.rows = []madeRow{first}
		return
	}
	for i := range v.rows {
		row := &v.rows[i]
		row.visit, row.named = mark, h.who
		switch {
		case h.goodDays:
			row.checked = "unreviewed"
		case h.who != "Ottilie Varnsby" && r.Float64() < 0.5:
			row.named, row.checked = "Ottilie Varnsby", "verified"
		default:
			row.checked = "verified"
		}
	}
	find := v.rows[0]
	find.date, find.start, find.end, find.water, find.beat, find.method, find.effort, find.scope, find.by = first.date, first.start,
		first.end, first.water, first.beat, first.method, first.effort, first.scope, first.by
	if find.remarks == "" {
		find.remarks = first.remarks
	}
	v.rows[0] = find
}

// find makes the rows of one fly in the net.
func (v *madeVisit) find(r *rand.Rand, c caught) {
	h, f := v.habit, c.fly
	if f.group == "upwinged" && h.method != "kick sample" && c.count > 5 && r.Float64() < 0.4 { // both stages in one net
		spent := c.count / 3
		v.bySex(r, f, "spinner", spent)
		v.bySex(r, f, "dun", c.count-spent)
		return
	}
	row := madeRow{fly: f.fly, stage: stage(r, h, f), count: strconv.Itoa(c.count)}
	unsure := r.Float64()
	if unsure < h.unsure/3 && h.method != "kick sample" {
		row.fly, row.remarks = "unnamed", "in the tube, for the winter"
		v.rows = append(v.rows, row)
		return
	}
	if unsure < h.unsure && f.genus() != "" {
		row.fly, row.remarks = f.genus(), "no further"
		v.rows = append(v.rows, row)
		return
	}
	if h.method == "kick sample" {
		v.rows = append(v.rows, row)
		return
	}
	v.bySex(r, f, row.stage, c.count)
	if row.stage == "dun" && r.Float64() < 0.05 {
		v.rows = append(v.rows, madeRow{fly: f.fly, stage: "spinner", sex: "male", count: "1", reared: "yes",
			remarks: "from a dun of this visit, moulted in the box overnight"})
	}
}

// bySex makes a row of the females and one of the males, some measured.
func (v *madeVisit) bySex(r *rand.Rand, f trueFlight, stage string, count int) {
	females := count - count*(20+r.IntN(50))/100
	measures := v.habit.ruler > 0 && count >= 4 && stage != "spinner" && r.Float64() < 0.6 // one fly makes no size, and spinners go back
	for _, part := range []struct {
		sex  string
		n    int
		long float64
	}{{"female", females, f.female}, {"male", count - females, f.male}} {
		if part.n == 0 {
			continue
		}
		row := madeRow{fly: f.fly, stage: stage, sex: part.sex, count: strconv.Itoa(part.n)}
		if measures {
			row.lengths = lengths(r, min(part.n, 5), part.long, v.habit.ruler)
		}
		v.rows = append(v.rows, row)
	}
}

// stage is what a fly is found as: duns where they hatch, spinners towards the evening.
func stage(r *rand.Rand, h habit, f trueFlight) string {
	young := h.method == "kick sample"
	switch {
	case young && f.group == "sedge":
		return "larva"
	case young:
		return "nymph"
	case f.group != "upwinged":
		return "adult"
	}
	spinners := 0.15
	if h.start >= 17 {
		spinners = 0.75
		if f.evening {
			spinners = 0.5
		}
	}
	if r.Float64() < spinners {
		return "spinner"
	}
	return "dun"
}

// lengths are normally distributed by a twentieth, read off a ruler.
func lengths(r *rand.Rand, n int, mean, ruler float64) string {
	var out []string
	for range n {
		mm := math.Round(mean*(1+0.045*r.NormFloat64())/ruler) * ruler
		out = append(out, strconv.FormatFloat(mm, 'f', 1, 64))
	}
	return strings.Join(out, " ")
}

// misdate swaps day and month of one visit each in 2023 and 2025, as a hand does: the one with fewest finds of those that
// come to lie two months off or more.
func misdate(visits []madeVisit) {
	for _, y := range []int{2023, 2025} {
		var odd *madeVisit
		for i := range visits {
			v := &visits[i]
			off := v.date.Day - int(v.date.Month)
			if v.date.Year == y && v.date.Day <= 12 && off*off >= 9 && v.habit.scope == "all" && v.habit.method == "sweep net" &&
				v.rows[0].fly != "nothing" && (odd == nil || len(v.rows) < len(odd.rows)) {
				odd = v
			}
		}
		if odd != nil {
			odd.date = calendar.Date{Year: y, Month: time.Month(odd.date.Day), Day: int(odd.date.Month)}
			odd.rows[0].date = odd.date.String()
		}
	}
}
