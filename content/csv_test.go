package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var hookish = []Column{{Name: "model", Required: true}, {Name: "shank", Units: []string{"mm", "in"}, Required: true}, {Name: "measured by"}}

func TestFaultsOfCSV(t *testing.T) {
	for text, want := range map[string][]string{
		"model;shank mm\na;1\n":                             {"csv-separator@1:1"},
		"model\tshank mm\na\t1\n":                           {"csv-separator@1:1"},
		"":                                                  {"no-headings@1:1"},
		"model,shank mm\na,1,2\nb,2\n":                      {"ragged-row@2:5"},
		"model,shank mm\na,1,\nb,2\n":                       nil, // an empty cell too many does no harm
		"model,shank mm\na\n":                               {"ragged-row@2:1"},
		"model,shank\na,1\n":                                {"missing-unit@1:7"},
		"modle,shank mm\na,1\n":                             {"missing-heading@1:1", "unknown-heading@1:1"},
		"model,shank mm,shank in\na,1,2\n":                  {"duplicate-heading@1:16"},
		"model,shank mm,Model\na,1,2\n":                     {"duplicate-heading@1:16"},
		"model,shank mm,\na,1,\n":                           nil,
		"MODEL,Shank MM\na,1\n":                             nil, // capitals don't count
		"model,shank mm\na \"b\",1\nc,1\n":                  {"csv-quotes@2:3"},
		"model,shank mm\n\"a,1\nc,1\n":                      {"csv-quotes@2:1"},
		"model,shank mm\n\"a\"b,1\n":                        {"csv-quotes@2:3"},
		"model,shank mm\ncaf\xe9,1\n":                       {"not-utf8@2:4"},
		"\xff\xfem\x00o\x00":                                {"missing-heading@1:1", "missing-heading@1:1", "unknown-heading@1:1"},
		"model,shank mm,extra\na,1,\n":                      {"column-not-read@1:16"},
		"model,shank mm\n,,\n\n  ,\na,1\n":                  nil, // blank lines are passed over
		"model,shank mm\n\"two\nlines\",1\nb,\"2\"\n":       nil,
		"model,shank mm\r\n\"two\r\nlines\",1\r\nb,x,y\r\n": {"ragged-row@4:5"},
	} {
		ps := &Problems{}
		if s := OpenCSV(NewFile("hooks.csv", []byte(text)), ps); s != nil {
			s.Match(hookish, []string{"extra"}, ps)
			for row := range s.Rows(ps) {
				_ = row.Text(0)
			}
		}
		assert.Equal(t, want, where(ps), "%q", text)
	}
}

func TestMatchFindsUnits(t *testing.T) {
	ps := &Problems{}
	s := OpenCSV(NewFile("hooks.csv", []byte("shank in,model\n0.3,a\n")), ps)
	require.NotNil(t, s)
	found := s.Match(hookish, nil, ps)
	assert.Empty(t, ps.All())
	assert.Equal(t, Found{0, "in"}, found["shank"])
	assert.Equal(t, Found{1, ""}, found["model"])
	assert.Equal(t, -1, found["measured by"].Index)
}
