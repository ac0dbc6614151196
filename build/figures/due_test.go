package figures

// What is due on a date: one case a line, and each limit from both sides.

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

const dueGuide = `-- guide.yaml --
format: 1
name: Due
basis: common practice
people: {E. Example: full}
ROLES
-- species/olive.md --
---
name: Olive
group: upwinged
REVIEWED
flights: {only: {from: 5 Apr, peak: 20 Apr, to: 5 May, abundance: abundant}}
length: {dun: 7 to 8 mm (memory), spinner: 7 to 8 mm}
---
-- rivers/one.yaml --
name: One
kind: rain-fed
seasons:
  - {fish: trout, open: 1 Apr, close: 30 Sep CHECKED}
flies: {Olive: abundant}
-- samples/one.csv --
` + head

func TestDue(t *testing.T) {
	visit := func(date, checked string) string {
		return "V1," + date + ",10:00,,One,,sweep net,50 sweeps,upwinged,Olive,dun,,1,,E. Example,E. Example," + checked + ",\n"
	}
	for name, k := range map[string]struct {
		roles, reviewed, checked, samples string
		want, lapsed                      string // of the built date, 24 November 2026
	}{
		"nothing": {"", "", "", "", "season-never-checked accounts-never-reviewed water-never-visited from-memory", ""},
		"in time": {"roles: {editor: {who: E. Example, until: 2027-01-24}}", "reviewed: 2021-11-24, E. Example", ", checked: 2025-11-24", visit("2025-11-24", "verified"),
			"from-memory", ""},
		"all of it": {"roles: {editor: {who: E. Example, until: 2026-11-23}, webmaster: {who: E. Example, until: 2027-01-23}}", "reviewed: 2021-11-23, E. Example", ", checked: 2025-11-23", visit("2025-11-23", ""),
			"season-due role-ended role-ends-soon account-due water-not-visited sheet-unreviewed from-memory",
			"season-due water-not-visited role-ended role-ends-soon account-due"},
		"a role's last day": {"roles: {editor: {who: E. Example, until: 2026-11-24}}", "reviewed: 2026-11-01, E. Example", ", checked: 2026-11-01", visit("2026-11-20", "verified"),
			"role-ends-soon from-memory", "role-ends-soon"},
		"a rejected find waits for nobody": {"", "reviewed: 2026-11-01, E. Example", ", checked: 2026-11-01", visit("2026-11-20", "rejected"), "from-memory", ""},
	} {
		t.Run(name, func(t *testing.T) {
			book := bookOf(t, strings.NewReplacer("ROLES", k.roles, "REVIEWED", k.reviewed, " CHECKED", k.checked).Replace(dueGuide)+k.samples)
			var ids, noted []string
			for _, d := range book.Due {
				ids = append(ids, d.ID)
				if d.ID == "from-memory" {
					assert.Equal(t, "statements from memory alone: Olive (1)", d.Message, "the other length is common practice")
				}
			}
			for _, p := range book.Prompts {
				for _, id := range DueOrder {
					if p.ID == id {
						noted = append(noted, id)
					}
				}
			}
			assert.Equal(t, k.want, strings.Join(ids, " "))
			assert.Equal(t, k.lapsed, strings.Join(noted, " "))
		})
	}
}

func TestEndings(t *testing.T) {
	book := bookOf(t, strings.NewReplacer("ROLES", "roles: {editor: {who: E. Example, until: 2026-12-31}, keeper: {who: E. Example, until: 2026-11-23}, other: {who: E. Example}}",
		"REVIEWED", "", " CHECKED", "").Replace(dueGuide))
	l := book.Edition.Endings(book.Built)
	if assert.Len(t, l, 2, "a role without an end doesn't end") {
		assert.Equal(t, []any{"keeper", true, "editor", false}, []any{l[0].Role, l[0].Past, l[1].Role, l[1].Past}, "by date")
	}
}
