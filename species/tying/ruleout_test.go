package tying

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A spent pattern in the film floats as much as one on the surface: neither
// copies a female that goes under water to lay (common practice, no source).
func TestNothingThatFloatsForAFemaleThatGoesUnder(t *testing.T) {
	n := Natural{Fly: "olive", Groups: []string{"upwinged"}, Stage: Spinner, Sex: Female, LaysUnder: Yes, Length: 8}
	box := []Dressing{
		{Name: "film", Levels: []Level{Film, Surface}, For: []StandsFor{{Groups: []string{"upwinged"}, Stages: []string{Spinner}}}},
		{Name: "sunk", Levels: []Level{Bottom, Film}, For: []StandsFor{{Groups: []string{"upwinged"}, Stages: []string{Spinner}}}},
	}
	a := Consider(n, box, Defaults())
	require.Len(t, a.RuledOut, 1)
	assert.Equal(t, "film", a.RuledOut[0].Name)
	assert.Equal(t, LaysUnderWater, a.RuledOut[0].Reasons[0].Code)
}

func TestADressingOfTheOtherSexIsRuledOut(t *testing.T) {
	n := Natural{Fly: "olive", Groups: []string{"upwinged"}, Stage: Spinner, Sex: Male, Length: 8}
	box := []Dressing{{Name: "for females", Hooks: []Hook{{"m", "16", 50, 8}}, For: []StandsFor{{Flies: []string{"olive"}, Stages: []string{Spinner}, Sex: Female}}}}
	a := Consider(n, box, Defaults())
	assert.Empty(t, a.Offered)
	assert.Equal(t, []Reason{{Code: OtherSex, Sex: Female}}, a.RuledOut[0].Reasons)
	n.Sex = Female
	assert.Len(t, Consider(n, box, Defaults()).Offered, 1)
}
