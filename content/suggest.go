package content

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Closest returns up to n of the known words that are near enough to s to be
// what was meant, nearest first, ties in the order given; one that is known twice stands once. Case is ignored.
func Closest(s string, known []string, n int) []string {
	type near struct {
		word string
		d    int
	}
	low := strings.ToLower(strings.TrimSpace(s))
	if low == "" {
		return nil // nobody wrote anything that could be meant
	}
	length := utf8.RuneCountInString(low)
	limit := max(1, (length+2)/3)
	var l []near
	for _, k := range known {
		if n := utf8.RuneCountInString(k); n > length+limit || n < length-limit {
			continue // as many letters differ at least
		}
		if d := distance(low, strings.ToLower(k)); d <= limit {
			l = append(l, near{k, d})
		}
	}
	if len(l) == 0 { // a word's beginning stands for it where no other begins so: F for female
		for _, k := range known {
			if strings.HasPrefix(strings.ToLower(k), low) {
				l = append(l, near{k, 0})
			}
		}
		if slices.ContainsFunc(l, func(x near) bool { return !strings.EqualFold(x.word, l[0].word) }) {
			return nil
		}
	}
	slices.SortStableFunc(l, func(a, b near) int { return a.d - b.d })
	var out []string
	for _, x := range l {
		if len(out) == n {
			break
		}
		if !slices.ContainsFunc(out, func(w string) bool { return strings.EqualFold(w, x.word) }) {
			out = append(out, x.word)
		}
	}
	return out
}

// DidYouMean words the closest known word, or is empty.
func DidYouMean(s string, known []string) string {
	c := Closest(s, known, 3)
	if len(c) == 0 {
		return ""
	}
	q := make([]string, len(c))
	for i, w := range c {
		q[i] = `"` + w + `"`
	}
	return meant + strings.Join(q, " or ") + "?"
}

// meant comes before near words in a message.
const meant = "; did you mean "

// distance is the restricted Damerau–Levenshtein distance in characters
// (Damerau 1964, Communications of the ACM 7:171): insertion, deletion,
// replacement and exchange of neighbours each cost one.
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	prev2, prev, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row[0] = i
		for j := 1; j <= len(t); j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			row[j] = min(prev[j]+1, row[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], prev2[j-2]+1)
			}
		}
		prev2, prev, row = prev, row, prev2
	}
	return prev[len(t)]
}
