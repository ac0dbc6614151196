package content

import "strings"

// A puts the indefinite article before a word: an adult, a dun. It goes by the
// first letter, which is right for the words of records, stages and headings.
func A(word string) string {
	if word != "" && strings.ContainsRune("aeiouAEIOU", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}
