package figures

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A fault while flies are reckoned side by side reaches the caller, who can
// say so in a line; in a goroutine of its own it would end the program.
func TestAFaultReachesTheCaller(t *testing.T) {
	r := &reckoner{book: &Book{Flies: []*Fly{nil, nil, nil}}}
	assert.Panics(t, r.rows)
}
