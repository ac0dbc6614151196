package share

// Where to look next: the reason in words, and the season plan as a calendar.

import (
	"strconv"
	"strings"

	"guidegen/build/figures"
)

// SeasonPlan is the address of the season plan's calendar.
const SeasonPlan = "season-plan.ics"

// mostNever is how many flies are named that were never found then.
const mostNever = 3

// WhyThere says what makes a half-month worth a visit: "3 flies expected, 1 visit in 1 year; not found then yet: …".
func WhyThere(words Words, n figures.Next) string {
	flies, visits := words.Plain("next.no_flies"), words.Plain("next.nobody")
	if len(n.On) > 0 {
		flies = words.Plain("next.flies", "n", strconv.Itoa(len(n.On)))
	}
	if n.Visits > 0 {
		visits = words.Plain("next.visits", "visits", words.Plain("count.visits", "n", strconv.Itoa(n.Visits)), "years", words.Plain("count.years", "n", strconv.Itoa(n.Years)))
	}
	why := words.Plain("next.why", "flies", flies, "visits", visits)
	if n.Visits == 0 || len(n.Never) == 0 {
		return why
	}
	var names []string
	for _, row := range n.Never[:min(mostNever, len(n.Never))] {
		names = append(names, row.Fly.Name.S)
	}
	never := words.List(names)
	if more := len(n.Never) - len(names); more > 0 {
		never = words.Plain("next.more", "flies", strings.Join(names, words.Plain("list.comma")), "n", strconv.Itoa(more))
	}
	return words.Plain("next.never", "why", why, "flies", never)
}

// planCalendar is nil where no visit would narrow anything: a calendar needs an event (RFC 5545 section 3.6).
func planCalendar(book *figures.Book, words Words) []byte {
	c := newCalendar(book, "plan.html", words.Plain("plan.title"))
	for _, p := range book.SeasonPlan() {
		c.event(uuid(book, "plan", p.Water.Address, p.From.String()), p.From, p.To.AddDays(1),
			words.Plain("plan.event", "water", p.Water.Name.S), WhyThere(words, p.Next), "plan")
	}
	return c.bytes()
}
