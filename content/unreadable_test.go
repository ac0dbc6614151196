package content

import (
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

var named = &Record{Name: "thing", Fields: []Field{{Key: "name", Shape: Line, Required: true}, {Key: "about", Shape: Line}}}

// A file that can't be read is one problem, at its place; that it also lacks
// all that a record must have is none. A name of spaces is no name.
func TestOneProblemForAFileThatCantBeRead(t *testing.T) {
	for text, want := range map[string][]string{
		"":                              {"wrong-shape@1:1"},
		"a: b: c\n":                     {"yaml-syntax@1:1"},
		"name: x\n\ty: z\n":             {"yaml-syntax@2:2"},
		"name: caf\xe9\n":               {"not-utf8@1:10"},
		"\xff\xfen\x00":                 {"not-utf8@1:1"},
		"name: x\nabout: a\x00b\n":      {"not-utf8@2:9"},
		"name: '  '\n":                  {"missing-key@1:1"},
		"name: \"\"\n":                  {"missing-key@1:1"},
		"about: ' '\nname: x\n":         nil,
		"\xef\xbb\xbfname: x\nnom: y\n": {"unknown-key@2:1"},
		"\xef\xbb\xbfnom: y\nname: x\n": {"unknown-key@1:1"},
		"\xef\xbb\xbf":                  {"wrong-shape@1:1"},
	} {
		ps := &Problems{}
		named.Open(ReadYAML(NewFile("x.yaml", []byte(text)), ps), ps)
		assert.Equal(t, want, where(ps), "%q", text)
	}
	for text, want := range map[string][]string{
		"---\nname: x\n---\nbody\n":          nil,
		"---\nname: x\n---\nbo\x00dy\n":      {"not-utf8@4:3"},
		"---\nname: x\n":                     {"head-open@1:1"},
		"---\nname: x\n\ty: z\n---\n":        {"yaml-syntax@3:2"},
		"\xef\xbb\xbf---\nname: x\nn\xff: y": {"not-utf8@3:2"},
	} {
		ps := &Problems{}
		head, _, _ := Front(NewFile("x.md", []byte(text)), ps)
		named.Open(head, ps)
		assert.Equal(t, want, where(ps), "%q", text)
	}
}

// An editor shows no byte-order mark, so it takes up no column and stands in
// no line shown.
func TestAByteOrderMarkHasNoColumn(t *testing.T) {
	ps := &Problems{}
	s := OpenCSV(NewFile("x.csv", []byte("\xef\xbb\xbfmodle,shank mm\n")), ps)
	s.Match(hookish, nil, ps)
	assert.Equal(t, []string{"missing-heading@1:1", "unknown-heading@1:1"}, where(ps))
	var b strings.Builder
	ps.Print(&b, ps.All()[1])
	assert.Contains(t, b.String(), "x.csv:1:1\n  reads   modle,shank mm\n")
}

// A file of junk may be one line of megabytes with a problem at every word of
// it. The machine that tests may be slow: the time allowed is many times that needed.
func TestLongLinesArePrintedInTime(t *testing.T) {
	wide := strings.Repeat("h,", 20_000)
	ps := &Problems{}
	assert.Nil(t, OpenCSV(NewFile("x.csv", []byte(wide+"\n")), ps))
	assert.Equal(t, []string{"unknown-heading@1:1"}, where(ps))

	start := time.Now()
	ps = &Problems{}
	f := NewFile("x.yaml", []byte("{"+strings.Repeat("abcdefghij: 1,", 100_000)+"}"))
	ps.Know(f)
	for i := range 400 {
		ps.Errorf("unknown-key", f.At(1+3500*i, 11+3500*i), "", "unknown key")
	}
	for _, p := range ps.All() {
		ps.Print(io.Discard, p)
	}
	assert.Less(t, time.Since(start), 20*time.Second)
}

// A cell of a megabyte is named by its start and its end.
func TestLongMessagesAreCut(t *testing.T) {
	var b strings.Builder
	ps := &Problems{}
	ps.Print(&b, Problem{ID: "unknown-water", Message: fmt.Sprintf("no water is named %q", strings.Repeat("ā", 1<<20))})
	assert.Less(t, b.Len(), 4000)
	assert.True(t, strings.HasPrefix(b.String(), "guide\n  wrong   no water is named \"āā"))
	assert.True(t, strings.HasSuffix(b.String(), "ā\"  (unknown-water)\n"))
}
