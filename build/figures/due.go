package figures

// January: what has gone stale and what ends, for those who look after the guide.

import (
	"cmp"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
)

// aYear is how many days a season's check and a water's last visit may be old.
const aYear = 365

// soon is how many days before its end a role is spoken of.
const soon = 60

// DueOrder are the ids of what may be due, in the order in which they are listed.
var DueOrder = []string{"season-due", "season-never-checked", "role-ended", "role-ends-soon", "account-due", "accounts-never-reviewed",
	"water-not-visited", "water-never-visited", "sheet-unreviewed", "from-memory"}

func init() {
	for id, text := range map[string]string{
		"season-due":              "the season for {fish} on {water} was last checked on {date}",
		"season-never-checked":    "nobody has said when the season for {fish} on {water} was last checked",
		"role-ended":              "the role “{role}” ended on {date}",
		"role-ends-soon":          "the role “{role}” ends on {date}",
		"account-due":             "the account of {fly} was last reviewed on {date}",
		"accounts-never-reviewed": "accounts that nobody has reviewed: {flies}",
		"water-not-visited":       "the last visit to {water} on record was on {date}",
		"water-never-visited":     "no visit to {water} is on record",
		"sheet-unreviewed":        "finds that nobody has checked in {file}: {n}",
		"from-memory":             "statements from memory alone: {flies}",
	} {
		PromptTexts[id] = text
	}
}

// due lists what is due on the date built for. What has lapsed is a note of the proof; what nobody ever did, and what
// is from memory, is listed on the members' page alone: a new guide would drown in it.
func (r *reckoner) due() (all, lapsed []Prompt) {
	list := func(id string, args ...any) {
		all = append(all, newPrompt(id, content.Note, content.Place{}, "", args...))
	}
	warn := func(id string, at content.Place, want string, args ...any) {
		lapsed = append(lapsed, newPrompt(id, content.Note, at, want, args...))
	}
	for _, w := range r.book.Waters {
		for _, s := range w.Seasons {
			switch {
			case s.Checked.IsZero():
				list("season-never-checked", "fish", s.Fish.S, "water", w.Name.S)
			case r.built.Sub(s.Checked) > aYear:
				warn("season-due", s.At, "look the dates up again and write the day into checked:", "fish", s.Fish.S, "water", w.Name.S, "date", s.Checked)
			}
		}
		switch {
		case w.RecordsTo.IsZero():
			list("water-never-visited", "water", w.Name.S)
		case r.built.Sub(w.RecordsTo) > aYear:
			warn("water-not-visited", w.At, "see the season plan for when to go", "water", w.Name.S, "date", w.RecordsTo)
		}
	}
	for _, x := range r.e.Settings.Roles {
		switch {
		case x.Until.IsZero():
		case x.Until.Before(r.built):
			warn("role-ended", x.At, "write who holds it now", "role", x.Name, "date", x.Until)
		case x.Until.Sub(r.built) <= soon:
			warn("role-ends-soon", x.At, "settle who takes it on", "role", x.Name, "date", x.Until)
		}
	}
	r.accountsDue(list, warn)
	unreviewed := map[string]int{}
	for _, v := range r.e.Visits {
		for _, f := range v.Finds {
			if f.Checked == rivers.Unreviewed && !f.Absent {
				unreviewed[v.At.File]++
			}
		}
	}
	for _, file := range slices.Sorted(maps.Keys(unreviewed)) {
		list("sheet-unreviewed", "file", path.Base(file), "n", strconv.Itoa(unreviewed[file]))
	}
	all = append(all, lapsed...)
	slices.SortStableFunc(all, func(a, b Prompt) int { return slices.Index(DueOrder, a.ID) - slices.Index(DueOrder, b.ID) })
	return all, lapsed
}

func (r *reckoner) accountsDue(list func(id string, args ...any), warn warner) {
	years := int(r.c.ReviewYears)
	since := calendar.Date{Year: r.built.Year - years, Month: r.built.Month, Day: r.built.Day}
	var never []string
	type remembered struct {
		fly string
		n   int
	}
	var memory []remembered
	for _, f := range r.book.Flies {
		switch {
		case f.Reviewed.IsZero():
			never = append(never, f.Name.S)
		case f.Reviewed.Before(since):
			warn("account-due", f.Name.At, "read it again beside the records and write the day into reviewed:", "fly", f.Name.S, "date", f.Reviewed)
		}
		if n := f.Account.FromMemory(); n > 0 {
			memory = append(memory, remembered{f.Name.S, n})
		}
	}
	if len(never) > 0 {
		list("accounts-never-reviewed", "flies", strings.Join(never, ", "))
	}
	slices.SortStableFunc(memory, func(a, b remembered) int { return cmp.Or(b.n-a.n, cmp.Compare(a.fly, b.fly)) })
	var said []string
	for _, m := range memory {
		said = append(said, m.fly+" ("+strconv.Itoa(m.n)+")")
	}
	if len(said) > 0 {
		list("from-memory", "flies", strings.Join(said, ", "))
	}
}
