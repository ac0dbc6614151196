package draw

// What a drawing says to those who don't see it.

import (
	"slices"
	"strconv"
	"strings"
)

var escapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

func escape(s string) string { return escapes.Replace(s) }

// describe says from where the animal is seen, what the account gives, to what length it is drawn and
// what is left out.
func (a *Album) describe(s *subject) string {
	var shows, left []string
	for _, x := range s.shows {
		shows = append(shows, a.words.Plain("drawing.shows", "character", x.Character, "state", x.State))
	}
	for _, part := range s.left {
		left = append(left, a.words.Or("drawing_part", part))
	}
	sep := a.words.Plain("list.comma")
	out := []string{a.words.Plain("drawing.desc"), a.words.Plain("drawing.view." + s.view())}
	if shows != nil {
		out = append(out, a.words.Plain("drawing.account", "shows", strings.Join(shows, sep)))
	}
	if s.length > 0 {
		out = append(out, a.words.Plain("drawing.drawn_to", "length", strconv.FormatFloat(s.length, 'f', -1, 64)))
	} else {
		out = append(out, a.words.Plain("drawing.no_length"))
	}
	if left != nil {
		out = append(out, a.words.Plain("drawing.left_out", "parts", strings.Join(left, sep)))
	}
	return strings.Join(out, " ")
}

// fromAbove are the figures seen from above, beside the nymphs.
var fromAbove = []string{"spread", "stonefly", "boatman", "beetle", "crane-fly", "damselfly-nymph", "alder-larva"}

// view is from where a figure is seen.
func (s *subject) view() string {
	switch {
	case s.Group == "midge-pupa":
		return "hanging"
	case slices.Contains(fromAbove, s.Group), strings.HasPrefix(s.Group, "nymph-"):
		return "above"
	}
	return "side"
}
