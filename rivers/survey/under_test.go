package survey

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestUnderRows(t *testing.T) {
	nymph := func(n int, depth string) Larvae {
		return Larvae{"upwinged", "Iron blue", "iron-blue", "nymph", depth, n}
	}
	kick := func(month int, found ...Larvae) Under {
		return Under{month, "kick sample", []string{"upwinged"}, found}
	}
	rows := UnderRows([]Under{kick(2, nymph(4, "")), kick(2, nymph(3, "")), kick(8),
		{9, "kick sample", []string{"sedge"}, nil}, {3, "exuviae", nil, []Larvae{nymph(5, "1–2"), nymph(2, "3")}}})
	kicked := UnderRow{Method: "kick sample", Larvae: nymph(0, "")}
	kicked.Months[2], kicked.Months[8] = UnderMonth{2, 7}, UnderMonth{1, 0}
	shallow, deep := UnderRow{Method: "exuviae", Larvae: nymph(0, "1–2")}, UnderRow{Method: "exuviae", Larvae: nymph(0, "3")}
	shallow.Months[3], deep.Months[3] = UnderMonth{1, 5}, UnderMonth{1, 2}
	assert.Equal(t, []UnderRow{shallow, deep, kicked}, rows, "methods and depths are never pooled; a sample for other groups looked for none")
	assert.Empty(t, UnderRows(nil))
}
