package site

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What an upload has to move: files that are new or other, never those that are gone.
func TestSince(t *testing.T) {
	file := func(address, text string) File { return fileOf(address, []byte(text)) }
	before := Manifest{Files: []File{file("a", "1"), file("b", "22"), file("c", "333")}}
	for _, c := range []struct {
		after         []File
		changed, gone int
		bytes         int64
	}{
		{before.Files, 0, 0, 0},
		{[]File{file("a", "1"), file("b", "xx"), file("c", "333"), file("d", "4444")}, 2, 0, 6},
		{[]File{file("a", "1")}, 0, 2, 0},
		{nil, 0, 3, 0},
	} {
		changed, bytes, gone := Manifest{Files: c.after}.Since(before)
		assert.Equal(t, []int{c.changed, c.gone, int(c.bytes)}, []int{changed, gone, int(bytes)})
	}
	changed, bytes, _ := before.Since(Manifest{})
	assert.Equal(t, []int{3, 6}, []int{changed, int(bytes)})
}
