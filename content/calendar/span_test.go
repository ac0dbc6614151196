package calendar

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Which hours are of the evening (common practice, no source): those on top then are no flies of the day.
func TestEvening(t *testing.T) {
	for text, evening := range map[string]bool{
		"11:00 to 16:00": false, "14:00 to sunset": false, "16:59 to 22:00": false, "17:00 to sunset+30min": true, "sunset-2h to sunset": true,
		"dusk": true, "23:00 to 02:00": true, "01:00 to 03:30": true, "04:00 to 07:00": false, "sunrise to 10:00": false, "dawn to 08:00": false, "solar noon to sunset": false,
	} {
		s, err := ParseSpan(text)
		require.NoError(t, err, text)
		assert.Equal(t, evening, s.Evening(), text)
	}
}
