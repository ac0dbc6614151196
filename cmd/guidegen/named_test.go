package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/rivers"
)

// A water that nobody knows under what was typed is suggested once, by its own name, whether a letter is
// wrong or only its first word was typed; a name of two waters is refused by every command.
func TestWaterNamed(t *testing.T) {
	var l []*rivers.Water
	for _, w := range [][]string{{"Lorrow Brook", "lorrow-brook"}, {"Ullavane", "ullavane", "the big river"}, {"Ullathwaite Tarn", "ullathwaite-tarn", "the tarn"},
		{"Keld Tarn", "keld-tarn", "the tarn"}} {
		x := &rivers.Water{Name: content.Text{S: w[0]}, Address: w[1]}
		for _, also := range w[2:] {
			x.Also = append(x.Also, content.Text{S: also})
		}
		l = append(l, x)
	}
	for typed, want := range map[string]int{"lorrow brook": 0, "lorrow-brook": 0, "The Big River": 1, "Keld Tarn": 3} {
		i, err := waterNamed(l, typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, i, typed)
	}
	for typed, want := range map[string]string{
		"Lorow Brok":    `; did you mean "Lorrow Brook"?`,
		"Lorrow":        `; did you mean "Lorrow Brook"?`,
		"the bgi river": `; did you mean "Ullavane"?`,
		"ulla":          `; did you mean "Ullavane" or "Ullathwaite Tarn"?`,
		"tarn":          `; did you mean "Ullathwaite Tarn" or "Keld Tarn"?`,
		"xy":            "",
		"Somewhere":     "",
	} {
		_, err := waterNamed(l, typed)
		assert.EqualError(t, err, `no water is named "`+typed+`"`+want+"\nthe waters are: Lorrow Brook, Ullavane, Ullathwaite Tarn, Keld Tarn", typed)
	}
	_, err := waterNamed(l, "the tarn")
	assert.EqualError(t, err, `"the tarn" is the name of 2 waters; write one of: ullathwaite-tarn, keld-tarn`)
}
