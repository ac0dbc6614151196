package share

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/species"
)

func TestWhyThere(t *testing.T) {
	row := func(name string) *figures.Row {
		a := &species.Account{}
		a.Name.S = name
		return &figures.Row{Fly: &figures.Fly{Account: a}}
	}
	a, b, c, d, e := row("A"), row("B"), row("C"), row("D"), row("E")
	all := []*figures.Row{a, b, c, d, e}
	for want, n := range map[string]figures.Next{
		"next.why(flies=next.no_flies visits=next.nobody)":                                                                                                                       {},
		"next.why(flies=next.flies(n=3) visits=next.nobody)":                                                                                                                     {On: all[:3], Never: all[:3]},
		"next.why(flies=next.flies(n=3) visits=next.visits(visits=count.visits(n=1) years=count.years(n=1)))":                                                                    {On: all[:3], Visits: 1, Years: 1},
		"next.never(why=next.why(flies=next.flies(n=5) visits=next.visits(visits=count.visits(n=2) years=count.years(n=1))) flies=A & B)":                                        {On: all, Never: all[:2], Visits: 2, Years: 1},
		"next.never(why=next.why(flies=next.flies(n=5) visits=next.visits(visits=count.visits(n=2) years=count.years(n=1))) flies=next.more(flies=Alist.commaBlist.commaC n=2))": {On: all, Never: all, Visits: 2, Years: 1},
	} {
		assert.Equal(t, want, WhyThere(keyWords{}, n))
	}
}

// keyWords says which words were asked for, and with what.
type keyWords struct{ Words }

func (keyWords) Plain(key string, pairs ...any) string {
	for i := 0; i < len(pairs); i += 2 {
		sep := " "
		if i == 0 {
			key, sep = key+"(", ""
		}
		key += sep + pairs[i].(string) + "=" + pairs[i+1].(string)
	}
	if len(pairs) > 0 {
		key += ")"
	}
	return key
}

func (keyWords) List(items []string) string { return strings.Join(items, " & ") }

func (keyWords) Or(_, word string) string { return word }

// The plan's calendar, read back by the rules of RFC 5545, holds the plan's lines and no other.
func TestSeasonPlanCalendar(t *testing.T) {
	book := demoBook(t, false)
	list := events(t, unfolded(t, planCalendar(book, keyWords{})))
	plan := book.SeasonPlan()
	require.NotEmpty(t, plan)
	require.Len(t, list, len(plan))
	ids := map[string]bool{}
	for i, e := range list {
		ids[e["UID"]] = true
		assert.Equal(t, basic(plan[i].From), e["DTSTART;VALUE=DATE"])
		assert.Equal(t, "plan.event(water="+plan[i].Water.Name.S+")", e["SUMMARY"])
	}
	assert.Len(t, ids, len(plan))
	assert.Nil(t, planCalendar(&figures.Book{Edition: book.Edition, Built: book.Built}, keyWords{}), "no event, no calendar")
}
