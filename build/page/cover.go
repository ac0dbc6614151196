package page

// The cover of the pocket card: what has to be known before fishing, down to a quarter of A4. Seasons,
// the water's own rules and its hazards stand there in the largest type that holds them; where even
// the smallest doesn't, each keeps its share and says where the rest stands.

import (
	"strings"
	"unicode"

	"guidegen/build/figures"
)

// CoverView is what stands on the cover beside the emergency panel.
type CoverView struct {
	Seasons     []PaperSeason
	MoreSeasons bool // not all seasons have room; likewise rules and hazards
	Rules       string
	MoreRules   bool
	Hazards     []string
	MoreHazards bool
	Mind        []string
	Access      string // where the rest leaves room for it, or for word of where it stands
	Type        string // class of the type's size; "" for the largest
}

// coverType is a size of type: characters to a line of the cover's wider column, and a line's height in mm.
type coverType struct {
	class string
	per   int
	line  float64
}

// The sizes of type, and the room for the list in mm, found by printing as the others of the card.
var coverTypes = []coverType{{"", 48, 3.62}, {"tight", 53, 3.26}, {"small", 60, 2.8}}

const (
	coverRoom  = 76.0
	coverItem  = 0.45 // between items
	coverName  = 42   // characters of the water's name on a line
	nameHeight = 6.8  // of a further line of it
)

func (t coverType) high(texts ...string) (mm float64) {
	for _, s := range texts {
		if s != "" {
			mm += coverItem + t.line*float64(linesOf(s, t.per))
		}
	}
	return mm
}

func (p *Printer) cover(w *figures.Water) CoverView {
	words := p.words
	all := CoverView{Seasons: p.paperSeasons(w), Rules: w.Rules.S}
	for _, h := range w.Hazards {
		all.Hazards = append(all.Hazards, h.S)
	}
	for _, k := range []string{"wade", "lines", "alone", "clean"} {
		all.Mind = append(all.Mind, words.Plain("pocket.mind."+k))
	}
	seasons := []string{words.Plain("season.none")}
	for i, s := range all.Seasons {
		seasons = append(seasons[:i], p.seasonText(s))
	}
	rules := ""
	if all.Rules != "" {
		rules = words.Plain("pocket.rules") + " " + all.Rules
	}
	room := coverRoom - nameHeight*float64(linesOf(w.Name.S+" "+p.kindAndAltitude(w), coverName)-1)
	ways := []string{""}
	if w.Access.S != "" {
		ways = []string{w.Access.S, words.Plain("pocket.more_access"), ""}
	}
	for _, access := range ways {
		text := ""
		if access != "" {
			text = words.Plain("pocket.access") + " " + access
		}
		for _, t := range coverTypes {
			if t.high(seasons...)+t.high(rules, text)+t.high(all.Hazards...)+t.high(all.Mind...) <= room {
				all.Type, all.Access = t.class, access
				return all
			}
		}
	}

	t := coverTypes[len(coverTypes)-1]
	c := CoverView{Mind: all.Mind, Type: t.class}
	room -= t.high(c.Mind...)
	left := room / 2
	for i, s := range all.Seasons {
		if left -= t.high(seasons[i]); left < 0 {
			if c.MoreSeasons = true; i == 0 {
				s.Note = "" // the dates at least
				seasons[0] = p.seasonText(s)
				c.Seasons = append(c.Seasons, s)
			}
			break
		}
		c.Seasons = append(c.Seasons, s)
	}
	room -= t.high(seasons[:max(1, len(c.Seasons))]...)
	if c.MoreSeasons {
		room -= t.high(words.Plain("pocket.more_seasons"))
	}
	// Rules and hazards share what is left: each may have half, and what the other leaves.
	forRules := min(t.high(rules), max(room/2, room-t.high(all.Hazards...)))
	if t.high(rules) <= forRules {
		c.Rules = all.Rules
	} else {
		forRules -= t.high(words.Plain("pocket.more_rules"))
		c.Rules, c.MoreRules = cutAt(all.Rules, t.per, int((forRules-coverItem)/t.line)), true
		forRules = t.high(words.Plain("pocket.rules")+" "+c.Rules, words.Plain("pocket.more_rules"))
	}
	if room -= forRules; t.high(all.Hazards...) <= room {
		c.Hazards = all.Hazards
		return c
	}
	c.MoreHazards = true
	room -= t.high(words.Plain("pocket.more_hazards"))
	for _, h := range all.Hazards {
		if room -= t.high(h); room < 0 {
			break
		}
		c.Hazards = append(c.Hazards, h)
	}
	return c
}

// seasonText is a season as it stands on paper, to be measured.
func (p *Printer) seasonText(s PaperSeason) string {
	text := s.Text
	if s.Note != "" {
		text += "; " + s.Note
	}
	if s.Checked.Text == "" {
		return text + " " + p.words.Plain("season.never_checked")
	}
	text += " " + p.words.Plain("season.checked", "date", s.Checked.Text)
	if s.Stale {
		text += " " + p.words.Plain("paper.stale")
	}
	return text
}

// cutAt keeps as many whole sentences as stand on so many lines; where not even one does, as many words.
func cutAt(text string, per, lines int) string {
	sentence, word := "", ""
	runes := []rune(text)
	for i, r := range runes {
		head := string(runes[:i])
		if !unicode.IsSpace(r) || linesOf(head+" …", per) > lines {
			continue
		}
		word = head
		if strings.ContainsAny(string(runes[i-1]), ".!?") {
			sentence = head
		}
	}
	switch {
	case sentence != "":
		return sentence
	case word != "":
		return word + " …"
	}
	return "…"
}
