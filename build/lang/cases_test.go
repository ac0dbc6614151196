package lang

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
)

func TestSpansInWords(t *testing.T) {
	w, err := LoadWords("en")
	require.NoError(t, err)
	for written, want := range map[string]string{
		"sunset-2h to sunset+30min":      "2 hours before sunset to half an hour after",
		"sunset-1h to sunset":            "an hour before sunset to sunset",
		"sunset to sunset+90min":         "sunset to 1½ hours after",
		"17:00 to sunset+45min":          "17:00 to 45 minutes after sunset",
		"sunrise+1h to sunset-1h":        "an hour after sunrise to an hour before sunset",
		"dusk":                           "half an hour before dusk to half an hour after",
		"dawn - 1h15min to 07:00":        "an hour and 15 minutes before dawn to 07:00",
		"11:00 to 15:30":                 "11:00 to 15:30",
		"solar noon-30min to solar noon": "half an hour before solar noon to solar noon",
	} {
		s, err := calendar.ParseSpan(written)
		require.NoError(t, err, written)
		assert.Equal(t, want, w.Span(s), written)
	}
}

// Hours as shortly as a table wants them.
func TestShortSpans(t *testing.T) {
	w, err := LoadWords("en")
	require.NoError(t, err)
	for written, want := range map[string]string{
		"sunset-2h to sunset+30min": "sunset −2 h to +30 min",
		"sunset-1h30min to sunset":  "sunset −1 h 30 min to sunset",
		"17:00 to sunset+45min":     "17:00 to sunset +45 min",
		"11:00 to 15:30":            "11:00–15:30",
		"dusk":                      "dusk −30 min to +30 min",
		"sunrise+1h to solar noon":  "sunrise +1 h to solar noon",
	} {
		s, err := calendar.ParseSpan(written)
		require.NoError(t, err, written)
		assert.Equal(t, want, w.ShortSpan(s), written)
	}
}

// One stop ends a name's initials and the sentence; {Names} begin one.
func TestWordsJoin(t *testing.T) {
	w, err := loadWords(fstest.MapFS{"words/en.yaml": {Data: []byte("by: by {who}.\nfish: '{Fish}: shut.'\n")}}, "en")
	require.NoError(t, err)
	assert.Equal(t, "by M. Q.", w.Plain("by", "who", "M. Q."))
	assert.Equal(t, "by Ada.", w.Plain("by", "who", "Ada"))
	assert.Equal(t, "Écrevisse: shut.", w.Plain("fish", "fish", "écrevisse"))
}
