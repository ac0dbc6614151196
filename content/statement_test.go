package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestStatementsAndTheirBasis(t *testing.T) {
	g := Grounds{Sources: []string{"handbook", "key (1988)"}, Basis: On(Part{Ground: Common})}
	for text, want := range map[string][3]string{
		"6 to 10 mm (memory)":     {"6 to 10 mm", "memory", ""},
		"14 (handbook)":           {"14", "published:handbook", ""},
		"14(handbook)":            {"14", "published:handbook", ""},
		"14 ( handbook )":         {"14", "published:handbook", ""},
		"14 (key (1988))":         {"14", "published:key (1988)", ""},
		"14":                      {"14", "common practice", ""},
		"red (wet) (own)":         {"red (wet)", "own", ""},
		"14 (Common Practice)":    {"14", "common practice", ""},
		"14 (handbok)":            {"14", "common practice", "unknown-basis@1:8"},
		"14 (Handbook)":           {"14", "common practice", "unknown-basis@1:8"},
		"14 (seen in the garden)": {"14", "common practice", "unknown-basis@1:8"},
		"14)":                     {"14)", "common practice", ""},
		"(memory)":                {"", "memory", ""},
	} {
		ps := &Problems{}
		v, _ := ReadYAML(NewFile("x.yaml", []byte("k: "+text+"\n")), ps).Get("k")
		s := g.State(v.Text, ps)
		assert.Equal(t, want[0], s.Text.S, text)
		assert.Equal(t, want[1], s.Basis.Key(), text)
		if want[2] == "" {
			assert.Empty(t, where(ps), text)
		} else {
			assert.Equal(t, []string{want[2]}, where(ps), text)
		}
	}
}

func TestBasisIsInherited(t *testing.T) {
	ps := &Problems{}
	guide := Grounds{Sources: []string{"handbook"}}
	block := guide.Under(Text{S: "handbook"}, ps)
	assert.Equal(t, "published:handbook", block.State(Text{S: "14"}, ps).Basis.Key())
	assert.Equal(t, "published:handbook", block.Under(Text{}, ps).Basis.Key(), "no basis of its own")
	assert.True(t, guide.State(Text{S: "14"}, ps).Basis.IsZero(), "nothing anywhere")
	require.Empty(t, ps.All())
	assert.Equal(t, "published:handbook", block.Under(Text{S: "hndbook"}, ps).Basis.Key(), "an unknown one changes nothing")
	assert.Contains(t, ps.All()[0].Message, `did you mean "handbook"?`)
}

func TestAddressesAndFolding(t *testing.T) {
	for name, want := range map[string]string{
		"Large Dark Olive": "large-dark-olive", "Cafe\u0301": "cafe", "Mānuka": "manuka", "Поденка": "podenka", "🪰": "", "BWO & co": "bwo-and-co", "---": "",
	} {
		assert.Equal(t, want, Address(name))
	}
	assert.Equal(t, Fold("  CAFE\u0301  noir "), Fold("café Noir"), "composed and decomposed letters are alike")
}
