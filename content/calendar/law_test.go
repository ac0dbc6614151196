package calendar

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func term(t require.TestingT, open, shut string) Term {
	a, err := ParseMonthDay(open, From)
	require.NoError(t, err)
	b, err := ParseMonthDay(shut, To)
	require.NoError(t, err)
	return Term{a, b}
}

// What a season is on the days about the end of February, by the meaning of its words (both days included).
func TestATermKeeps29FebruaryApart(t *testing.T) {
	for _, c := range []struct{ open, shut, on, off string }{
		{"29 Feb", "30 Sep", "2024-02-29 2023-03-01 2023-09-30", "2024-02-28 2023-02-28 2024-10-01"},
		{"28 Feb", "30 Sep", "2024-02-28 2024-02-29 2023-02-28", "2024-02-27 2023-02-27"},
		{"1 Mar", "30 Sep", "2024-03-01 2023-03-01", "2024-02-29 2024-02-28 2023-02-28"},
		{"1 Oct", "28 Feb", "2024-02-28 2023-02-28 2023-12-31 2024-01-01", "2024-02-29 2024-03-01 2023-03-01"},
		{"1 Oct", "29 Feb", "2024-02-29 2023-02-28", "2024-03-01 2023-03-01"},
		{"1 Oct", "Feb", "2024-02-29 2023-02-28", "2024-03-01 2023-03-01"},
		{"16 Jun", "15 Mar", "2024-02-29 2024-03-15 2024-06-16", "2024-03-16 2024-06-15"},
		{"29 Feb", "29 Feb", "2024-02-29", "2024-02-28 2024-03-01 2023-02-28 2023-03-01"},
		{"1 Mar", "28 Feb", "2024-02-29 2023-02-28 2024-03-01", ""},
		{"1 Jan", "31 Dec", "2024-02-29 2024-12-31", ""},
		{"1 Mar", "Feb", "2024-02-29", ""},
	} {
		s := term(t, c.open, c.shut)
		for want, days := range map[bool]string{true: c.on, false: c.off} {
			for _, d := range fields(t, days) {
				assert.Equal(t, want, s.Holds(d), "%s to %s on %s", c.open, c.shut, d)
			}
		}
	}
}

func fields(t *testing.T, s string) (l []Date) {
	for ; s != ""; s = s[min(11, len(s)):] {
		d, err := ParseDate(s[:10])
		require.NoError(t, err)
		l = append(l, d)
	}
	return l
}

func TestATermInAMonth(t *testing.T) {
	for _, c := range []struct {
		open, shut string
		month      time.Month
		want       [][2]int
		whole      bool
	}{
		{"1 Apr", "30 Sep", time.April, [][2]int{{1, 30}}, true}, {"1 Apr", "30 Sep", time.January, nil, false}, {"15 Mar", "6 Oct", time.March, [][2]int{{15, 31}}, false},
		{"15 Mar", "6 Oct", time.October, [][2]int{{1, 6}}, false}, {"16 Jun", "14 Mar", time.March, [][2]int{{1, 14}}, false},
		{"1 Oct", "28 Feb", time.February, [][2]int{{1, 28}}, false}, {"1 Oct", "Feb", time.February, [][2]int{{1, 29}}, true},
		{"20 May", "10 May", time.May, [][2]int{{1, 10}, {20, 31}}, false}, {"1 Mar", "28 Feb", time.February, [][2]int{{1, 29}}, true},
	} {
		got := term(t, c.open, c.shut).In(c.month)
		assert.Equal(t, c.want, got, c)
		assert.Equal(t, c.whole, len(got) == 1 && Whole(c.month, got[0]), c)
	}
}

func TestTheRestOfATerm(t *testing.T) {
	for _, c := range []struct{ open, shut, rest string }{
		{"1 Apr", "30 Sep", "10-01 03-31"}, {"1 Mar", "30 Sep", "10-01 02-29"}, {"29 Feb", "30 Sep", "10-01 02-28"},
		{"1 Oct", "28 Feb", "02-29 09-30"}, {"1 Oct", "Feb", "03-01 09-30"}, {"1 Jan", "30 Nov", "12-01 12-31"},
	} {
		r := term(t, c.open, c.shut).Rest()
		assert.Equal(t, c.rest, r.Open.String()+" "+r.Close.String(), c)
	}
	leap := MonthDay{time.February, 29}
	assert.Equal(t, "2023-03-01 2023-02-28 2024-02-29 2024-02-29", leap.In(2023).String()+" "+leap.LastIn(2023).String()+" "+leap.In(2024).String()+" "+leap.LastIn(2024).String())
	assert.Equal(t, DayOf(time.February, 28), leap.OfYear())
	assert.False(t, MonthDay{}.Valid())
	assert.False(t, MonthDay{time.February, 30}.Valid())
	assert.True(t, leap.Valid())

	rapid.Check(t, func(t *rapid.T) {
		day := rapid.Map(rapid.IntRange(0, 365), func(n int) MonthDay { return MonthDay{1, 1}.Add(n) })
		s := Term{day.Draw(t, "open"), day.Draw(t, "close")}
		d := Date{2000 + rapid.IntRange(0, 8).Draw(t, "year"), 1, 1}.AddDays(rapid.IntRange(0, 365).Draw(t, "day"))
		if !s.AllYear() && s.Holds(d) == s.Rest().Holds(d) {
			t.Fatalf("%v and its rest agree about %s", s, d)
		}
		// A term begins on the first date that is not before its first day and ends on the last that is not after its last.
		if a, b := s.Open.In(d.Year), s.Close.LastIn(d.Year); s.Open != s.Close && !s.AllYear() &&
			(!s.Holds(a) || s.Holds(a.AddDays(-1)) || !s.Holds(b) || s.Holds(b.AddDays(1))) {
			t.Fatalf("%v in %d", s, d.Year)
		}
	})
}
