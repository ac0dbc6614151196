package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A figure that a page prints twice under the same words, on the same ground, is one line with its number;
// one of another ground is another.
func TestFiguresAreListedOnce(t *testing.T) {
	own := []restJSON{{Ground: "own records", Water: "Beck", Visits: 3}}
	f := figureJSON{Page: "rivers/beck.html", What: "The year, Mar", Shown: "3", Basis: own}
	other := f
	other.Basis = []restJSON{{Ground: "memory"}}
	var b strings.Builder
	printFigures(&b, []figureJSON{f, other, f})
	assert.Equal(t, "rivers/beck.html: The year, Mar: 3 (2 times)\n    own records (Beck, 3 visits)\n"+
		"rivers/beck.html: The year, Mar: 3\n    memory\n", b.String())
}
