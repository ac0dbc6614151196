package content

import (
	"strconv"
	"strings"
)

// A puts the indefinite article before a word or a number: an adult, a dun, an 18. It goes
// by the first letter, which is right for the words of records, stages and headings.
func A(word string) string {
	if word != "" && strings.ContainsRune("aeiouAEIOU8", rune(word[0])) || word == "11" || word == "18" {
		return "an " + word
	}
	return "a " + word
}

// Several counts things in words: 1 visit, 3 visits, 2 flies.
func Several(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	if stem, ok := strings.CutSuffix(one, "y"); ok && !strings.HasSuffix(stem, "a") {
		return strconv.Itoa(n) + " " + stem + "ies"
	}
	return strconv.Itoa(n) + " " + one + "s"
}
