package main

// The tying list for a trip.

import (
	"fmt"
	"slices"
	"strings"
	"time"

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
	Closed  []string   `json:"closed"` // fish whose season is closed on the first or the last day
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

func (c *command) tellTrip(r *build.Report, format string, t figures.Trip, from, to calendar.Date) error {
	j := tripJSON{Guide: chosen(r.Source), Water: t.Water.Name.S, From: from.String(), To: to.String(), Closed: []string{},
		Covered: content.Round9(t.Covered), Sum: content.Round9(t.Sum), Short: t.Short, Few: t.Few, Picks: []pickJSON{},
		Nothing: stageWords(t.Nothing), Left: stageWords(t.Left)}
	j.Guide.Name = r.Name
	for _, f := range append(t.Water.Closed(t.From), t.Water.Closed(t.To)...) {
		if !slices.Contains(j.Closed, f) {
			j.Closed = append(j.Closed, f)
		}
	}
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
	fmt.Fprintf(c.out, "read %s\n\n%s: what to tie for %s to %s\n", r.Guide(), j.Water, dayText(t.From), dayText(t.To))
	for _, f := range j.Closed {
		fmt.Fprintf(c.out, "CLOSED for %s on the first or the last of these days\n", f)
	}
	if len(j.Picks) == 0 {
		fmt.Fprintln(c.out, "nothing in the box for what is likely in these days")
	}
	for i, p := range j.Picks {
		on := ""
		if len(p.Hooks) > 0 {
			on = " on " + strings.Join(p.Hooks, ", ")
		}
		fmt.Fprintf(c.out, "%3d. %s%s\n     for %s; covers %s so far\n", i+1, p.Dressing, on, strings.Join(p.For, ", "), percent(p.Share))
	}
	if len(j.Picks) > 0 && j.Short {
		fmt.Fprintf(c.out, "the list stops at %s: nothing in the box adds more\n", percent(t.Covered/t.Sum))
	}
	if len(j.Nothing) > 0 {
		fmt.Fprintf(c.out, "nothing in the box for: %s\n", strings.Join(j.Nothing, ", "))
	}
	if len(j.Left) > 0 {
		fmt.Fprintf(c.out, "left when the list stops: %s\n", strings.Join(j.Left, ", "))
	}
	if j.Few > 0 {
		fmt.Fprintln(c.out, "a short box: a dressing for the group or its kin counts everywhere")
	}
	fmt.Fprintln(c.out, "each is the best next one; a shorter list may exist")
	return nil
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

func monthOf(n int) time.Month { return time.Month(n) }
