package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDidYouMean(t *testing.T) {
	sexes := []string{"male", "female"}
	for in, want := range map[string]string{
		"femal": `; did you mean "female"?`, "F": `; did you mean "female"?`, "m": `; did you mean "male"?`,
		"": "", "  ": "", "x": "", "hermaphrodite": "",
	} {
		assert.Equal(t, want, DidYouMean(in, sexes), "%q", in)
	}
	assert.Empty(t, DidYouMean("s", []string{"sedge", "stonefly"}), "two begin so")
	assert.Empty(t, DidYouMean("sedge", []string{""}))
	assert.Equal(t, `; did you mean "Sedge"?`, DidYouMean("sedg", []string{"Sedge", "sedge", "Sedge"}), "known by two names that are one")
	assert.Equal(t, `; did you mean "Sedge"?`, DidYouMean("s", []string{"Sedge", "sedge"}))
}

// What a person meant belongs to what would be right, also where more is to be said.
func TestWrongAndRight(t *testing.T) {
	for _, c := range []struct{ message, want, wrong, right string }{
		{`unknown key "kid"; did you mean "kind"?`, "keys: a, b", `unknown key "kid"`, `"kind"? Keys: a, b`},
		{`unknown key "kid"; did you mean "kind"?`, "", `unknown key "kid"`, `"kind"?`},
		{"no unit", "write mm", "no unit", "write mm"},
		{"turned \u202eround\u202c, \x1b[31mred", "a\u2067b", "turned round, [31mred", "ab"},
	} {
		wrong, right := Problem{Message: c.message, Want: c.want}.wrongAndRight()
		assert.Equal(t, c.wrong, wrong)
		assert.Equal(t, c.right, right)
	}
}
