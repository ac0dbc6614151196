package main

// The tying list for a trip.

import (
	"fmt"
	"strings"

	"guidegen/build"
	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species/tying"
)

type tripJSON struct {
	Guide   guideJSON  `json:"guide"`
	Water   string     `json:"water"`
	From    string     `json:"from"`
	To      string     `json:"to"`
	Closed  []string   `json:"closed"` // fish whose season is closed on some of the days
	Covered float64    `json:"covered"`
	Sum     float64    `json:"sum"`
	Short   bool       `json:"short"` // nothing in the box adds more
	Few     int        `json:"few,omitempty"`
	Picks   []pickJSON `json:"picks"`
	Nothing []string   `json:"nothing_in_the_box"`
	Left    []string   `json:"left"`
}

type pickJSON struct {
	Dressing string   `json:"dressing"`
	Hooks    []string `json:"hooks"`
	For      []string `json:"for"`
	Adds     float64  `json:"adds"`
	Share    float64  `json:"share"`
}

func (c *command) tellTrip(r *build.Report, format string, tell teller, t figures.Trip, from, to calendar.Date) error {
	j := tripJSON{Guide: chosen(r), Water: t.Water.Name.S, From: from.String(), To: to.String(), Closed: []string{},
		Covered: content.Round9(t.Covered), Sum: content.Round9(t.Sum), Short: t.Short, Few: t.Few, Picks: []pickJSON{},
		Nothing: stageWords(t.Nothing), Left: stageWords(t.Left)}
	j.Closed = append(j.Closed, t.Water.Closed(from, to)...)
	for _, p := range t.Picks {
		k := pickJSON{Dressing: p.Dressing.Name.S, Hooks: []string{}, For: forWords(p.For), Adds: content.Round9(p.Adds), Share: content.Round9(p.Share)}
		for _, h := range p.Hooks {
			k.Hooks = append(k.Hooks, strings.TrimSpace(h.Model+" "+h.Size))
		}
		j.Picks = append(j.Picks, k)
	}
	if format == "json" {
		return printJSON(c.out, j)
	}
	w := &strings.Builder{}
	line := func(s string) { fmt.Fprintln(w, s) }
	line(tell.Plain("trip.title", "water", j.Water) + tell.Plain("list.comma") + tell.Plain("date.range", "from", tell.DayIn(from), "to", tell.DayIn(to)))
	for _, f := range j.Closed {
		line(tell.Plain("tell.shut", "fish", f))
	}
	if !t.Expected && t.Sum > 0 {
		line(tell.Plain("trip.unlikely"))
	}
	if len(j.Picks) == 0 {
		line(tell.Plain("trip.nothing_serves"))
	}
	for i, p := range t.Picks {
		name := p.Dressing.Name.S
		if hooks := j.Picks[i].Hooks; len(hooks) > 0 {
			name = tell.Plain("tell.with", "name", name, "what", strings.Join(hooks, tell.Plain("list.comma")))
		} else if own := tell.Recipe(name); own != "" {
			name += " " + own
		}
		var flies []string
		for _, f := range p.For {
			flies = append(flies, tell.TripStage(f.FlyStage, f.By))
		}
		fmt.Fprintf(w, "%3d. %s\n     %s\n", i+1, name, tell.Plain("tell.covers", "flies", strings.Join(flies, tell.Plain("list.comma")), "share", tell.Percent(p.Share)))
	}
	if len(j.Picks) > 0 && j.Short {
		line(tell.Plain("trip.short", "share", tell.Percent(t.Covered/t.Sum)))
	}
	left := func(label string, list []figures.FlyStage) {
		var l []string
		for _, s := range list {
			l = append(l, tell.TripStage(s, tying.ByFly))
		}
		if len(l) > 0 {
			line(label + " " + strings.Join(l, tell.Plain("list.comma")))
		}
	}
	left(tell.Plain("trip.nothing"), t.Nothing)
	left(tell.Plain("trip.left"), t.Left)
	if j.Few > 0 {
		line(tell.Plain("tell.few"))
	}
	if len(j.Picks) > 0 {
		line(tell.Plain("tell.best"))
	}
	_, err := fmt.Fprintf(c.out, "read %s\n\n%s", r.Guide(), forTerminal.Replace(w.String()))
	return err
}

func stageWords(l []figures.FlyStage) []string {
	out := []string{}
	for _, s := range l {
		out = append(out, s.Row.Fly.Name.S+" ("+string(s.Stage)+")")
	}
	return out
}

// forWords words what a dressing covers, and whether by its group or kin.
func forWords(l []figures.TripFor) []string {
	out := []string{}
	for _, s := range l {
		by := ""
		if s.By != tying.ByFly {
			by = ", by its " + string(s.By)
		}
		out = append(out, s.Row.Fly.Name.S+" ("+string(s.Stage)+by+")")
	}
	return out
}
