package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestArticles(t *testing.T) {
	for word, want := range map[string]string{"adult": "an adult", "dun": "a dun", "egg": "an egg", "upwinged": "an upwinged",
		"occurrenceID": "an occurrenceID", "18": "an 18", "8": "an 8", "11": "an 11", "16": "a 16", "1": "a 1", "river record": "a river record", "": "a "} {
		assert.Equal(t, want, A(word))
	}
	ps := &Problems{}
	(&Record{Name: "account"}).Open(ReadYAML(NewFile("x.yaml", []byte("nam: x\n")), ps), ps)
	assert.Contains(t, ps.All()[0].Want, "keys of an account")
}

func TestSeveral(t *testing.T) {
	for want, got := range map[string]string{"1 visit": Several(1, "visit"), "0 visits": Several(0, "visit"), "3 acknowledged warnings": Several(3, "acknowledged warning"),
		"2 flies": Several(2, "fly"), "1 fly": Several(1, "fly"), "5 days": Several(5, "day")} {
		assert.Equal(t, want, got)
	}
}
