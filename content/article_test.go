package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestArticles(t *testing.T) {
	for word, want := range map[string]string{"adult": "an adult", "dun": "a dun", "egg": "an egg", "upwinged": "an upwinged",
		"occurrenceID": "an occurrenceID", "river record": "a river record", "": "a "} {
		assert.Equal(t, want, A(word))
	}
	ps := &Problems{}
	(&Record{Name: "account"}).Open(ReadYAML(NewFile("x.yaml", []byte("nam: x\n")), ps), ps)
	assert.Contains(t, ps.All()[0].Want, "keys of an account")
}
