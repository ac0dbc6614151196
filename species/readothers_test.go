package species

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
)

func TestSlipsInDressings(t *testing.T) {
	for text, want := range map[string][]string{
		"sizes: 14-18":           nil,
		"sizes: small":           {"3:8 bad-size"},
		"fishes: [film, surfce]": {"3:16 unknown-level"},
		"stands_for: {groups: [sedge], stage: dun}":                  {"3:38 stage-not-in-group"},
		"stands_for: {groups: [sedge, upwinged], stage: dun}":        nil,
		"stands_for: {flies: X, stage: dum}":                         {"3:31 unknown-stage"},
		"stands_for: {flies: X, sex: femal}":                         {"3:29 unknown-choice"},
		"stands_for: {flys: X}":                                      {"3:13 stands-for-nothing", "3:14 unknown-key"},
		"parts: {hackel: grey}":                                      {"3:9 unknown-part"},
		"parts: {hook: X, body: {of: fur, colour: 403d2}}":           {"1:7 no-thread", "3:42 bad-colour"},
		"parts: {hook: X, thread: , body: fur}":                      {"1:7 no-thread"},
		"parts: {hook: X, thread: grey, body: fur, rib: wire}":       {"3:43 recipe-order"},
		"parts: {body: {of: fur, colour: Dark Olive, wet: perhaps}}": {"3:50 unknown-choice"},
		"parts: {body: {of: fur, colur: Dark Olive}}":                {"3:25 unknown-key"},
	} {
		ps := &content.Problems{}
		l := ReadDressings(content.NewFile("dressings/x.yaml", []byte("name: X\nbasis: own\n"+text+"\n")), context(), ps)
		require.Len(t, l, 1, text)
		assert.Equal(t, "x", l[0].Address, "a single dressing has its file's address")
		assert.Equal(t, want, found(ps), text)
	}
	ps := &content.Problems{}
	l := ReadDressings(content.NewFile("dressings/x.yaml", []byte("- name: A b\n- {sizes: 14}\n- name: '!'\n")), context(), ps)
	assert.Len(t, l, 2)
	assert.Equal(t, "a-b", l[0].Address)
	assert.Equal(t, []string{"1:3 no-basis", "2:3 missing-key", "3:9 no-address"}, found(ps))
}

func TestSlipsInCharacters(t *testing.T) {
	for text, want := range map[string][]string{
		"tails: {states: [two, three], seen: [dun, spinner male]}":                                                      nil,
		"tails: {states: [two, three], seen: [dunn]}":                                                                   {"1:38 unknown-word"},
		"tails: {states: [two, Two]}":                                                                                   {"1:17 one-state", "1:23 duplicate-key"},
		"tails: {states: {two: {draw: 2}, three: {}}}":                                                                  {"1:30 unknown-draw"}, // the feature isn't drawn
		"tails: {states: {two: {draw: 5}, three: {}}, draw: tail count}":                                                {"1:30 unknown-draw"},
		"tl: {states: {a: {draw: 0.8 body}, b: {draw: 12 mm}, c: {draw: short}, d: {draw: 1 yard}}, draw: tail length}": {"1:82 unknown-draw"},
		"tails: {states: [two, three], draw: tales}":                                                                    {"1:37 unknown-choice"},
		"tails: {states: [two, three], needs: telescope}":                                                               {"1:38 unknown-choice"},
		"tails: {states: [two, three], groups: [upwinged, sedge]}":                                                      nil,
		"tails: {states: [two, three], groups: [upwingd]}":                                                              {"1:40 unknown-group"},
		"tails: {about: x}": {"1:8 missing-key"},
		"tails: {states: [two, three]}\nTails: {states: [two, three]}": {"2:1 duplicate-key"},
	} {
		ps := &content.Problems{}
		ReadCharacters(content.NewFile("characters.yaml", []byte(text+"\n")), ps)
		assert.Equal(t, want, found(ps), text)
	}
}

func TestSlipsInHooks(t *testing.T) {
	for row, want := range map[string][]string{
		"Plain,14,8.4,4.9,straight":     nil,
		"Plain,14,\"8,4\",4.9,straight": nil, // a decimal comma is kept as meant
		"Plain,014,8.4,4.9,straight":    {"2:7 bad-size"},
		"Plain,1/0,18.4,,straight":      nil,
		"Plain,,8.4,4.9,straight":       {"2:1 missing-cell"},
		",14,8.4,4.9,straight":          {"2:1 missing-cell"},
		"Plain,14,,4.9,straight":        {"2:1 missing-cell"},
		"Plain,14,-8.4,4.9,straight":    {"2:10 bad-length"},
		"Plain,14,8.4,4.9,strait":       {"2:18 unknown-choice"},
		"Plain,14,8.4,4.9,":             {"2:1 unknown-choice"},
		"Grub,14,8.4,4.9,curved":        {"2:9 curved-shank"},
		"Grub,14,,4.9,curved":           nil,
	} {
		ps := &content.Problems{}
		rows := ReadHooks(content.NewFile("hooks.csv", []byte("model,size,shank mm,gape mm,shape\n"+row+"\n")), ps)
		assert.Equal(t, want, found(ps), row)
		assert.Equal(t, want == nil, len(rows) == 1, "a row with a fault is left out: %s", row)
		assert.Len(t, HookTable(rows), len(rows))
	}
}

func TestAFeatureWithoutStates(t *testing.T) {
	for text, want := range map[string]int{"wings:\n  states: []\n": 1, "wings:\n  states: {}\n": 1, "wings:\n  seen: [dun]\n": 1, "wings:\n  states: [a, b]\n": 0} {
		ps := &content.Problems{}
		ReadCharacters(content.NewFile("characters.yaml", []byte(text)), ps)
		require.Len(t, ps.All(), want, text)
		if want > 0 {
			assert.Equal(t, "missing-key", ps.All()[0].ID)
		}
	}
}

// One hook in two rows is told with both places, whatever the case of its name; both count.
func TestAHookMeasuredTwice(t *testing.T) {
	ps := &content.Problems{}
	rows := ReadHooks(content.NewFile("hooks.csv", []byte("model,size,shank mm,shape\nPlain,14,8.4,straight\nplain,14,8.6,straight\nPlain,16,7.3,straight\nGrub,14,,curved\n")), ps)
	assert.Len(t, rows, 4)
	require.Equal(t, []string{"3:1 hook-twice"}, found(ps))
	assert.Equal(t, "hooks.csv:2:1", ps.Where(ps.All()[0].Also))
}

// The order is that of real hooks: 1/0 is larger than 1, 22 smaller than 20.
func TestShanksOutOfOrder(t *testing.T) {
	for rows, want := range map[string]string{
		"A,12,9.5\nA,14,8.4\nA,16,7.3\n":          "",
		"A,16,7.3\nA,12,1.5\nA,14,8.4\n":          "3",
		"A,12,9.5\nA,14,4.8\nA,16,7.3\nB,18,9\n":  "3",
		"A,1/0,20\nA,1,18\n":                      "",
		"A,1/0,18\nA,1,20\n":                      "2",
		"A,12,9.5\nB,10,3\n":                      "",
		"A,22,5.1\nA,20,5.1\n":                    "",
		"A,12,9.5\nA,12,9.4\nA,14,9.45\nA,16,7\n": "3",
	} {
		text := "model,size,shank mm,shape\n"
		for line := range strings.Lines(rows) {
			text += strings.TrimSuffix(line, "\n") + ",straight\n"
		}
		ps := &content.Problems{}
		ReadHooks(content.NewFile("hooks.csv", []byte(text)), ps)
		got := ""
		for _, p := range ps.All() {
			if p.ID == "hook-twice" {
				continue
			}
			require.Equal(t, "shank-order", p.ID)
			got += strings.Split(ps.Where(p.At), ":")[1]
		}
		assert.Equal(t, want, got, rows)
	}
}

// A heading without its unit is one problem, not one of every row below it.
func TestAHookHeadingWithoutItsUnit(t *testing.T) {
	ps := &content.Problems{}
	assert.Empty(t, ReadHooks(content.NewFile("hooks.csv", []byte("model,size,shank,shape\nPlain,14,8.4,straight\nPlain,16,7.3,straight\n")), ps))
	assert.Equal(t, []string{"1:12 missing-unit"}, found(ps))
}
