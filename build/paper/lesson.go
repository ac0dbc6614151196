package paper

// A club evening: a month's flies of a water as unnamed drawings under a ruler, with names to choose from, the month's key
// and the answers. On a screen each name opens and says what to look at, without a script and without a score; on paper
// the drawings come first and the answers overleaf.

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/species"
	"guidegen/species/key"
)

// LessonModel is the page.
type LessonModel struct {
	view.Frame
	About    string
	Ruler    template.HTML
	Flies    []LessonFlyView
	Key      view.KeyModel
	Compared []LessonStages
	Unseen   []lang.Link // flies whose floating spinner imitates nothing
}

// LessonStages is a fly whose dun and spinner stand side by side.
type LessonStages struct {
	Fly      lang.Link
	Drawings []view.DrawingView
	Compared *view.CompareView
}

// LessonFlyView is one drawing and the names to choose from.
type LessonFlyView struct {
	Letter, Group      string // "A"; the name of its choices, of which one is open at a time
	Src, Width, Height string
	Alt                string
	Choices            []LessonChoice
	Answer             lang.Link
	Case               string // "female dun"
	Signs              string
	Like               string
	Length             string
}

// LessonChoice is a name and what it says when it is chosen.
type LessonChoice struct {
	Name  string
	Right bool
	Says  string
}

// mostCompared is how many differences of dun and spinner a lesson lists.
const mostCompared = 5

// lessonScale is twice life size, in CSS pixels to a millimetre (CSS Values 4: 96 px to the inch).
const lessonScale = 2 * 96 / 25.4

// lessonPrinter prints the sheets of a club evening.
type lessonPrinter struct {
	printer
	at string
}

func (p lessonPrinter) page(l *figures.Lesson) LessonModel {
	w, at := p.words, p.at
	month := w.Month(l.Month)
	m := LessonModel{Frame: p.Frame("lesson", at, w.Plain("lesson.title", "water", l.Water.Name.S, "month", month), "lesson.css", "print.js"),
		About: w.Plain("lesson.about", "n", strconv.Itoa(len(l.Flies))), Ruler: chart.Ruler(30, 2, w.Plain("lesson.ruler"))}
	m.Way = []lang.Link{p.Link(at, view.KeyPage, w.Plain("nav.key")), p.Link(at, view.WaterMonthKeyPage(l.Water, l.Month), w.Plain("month.key", "month", month, "water", l.Water.Name.S))}
	m.Description = m.About
	for i, x := range l.Flies {
		m.Flies = append(m.Flies, p.lessonFly(string(rune('A'+i)), x))
		if x.Unseen {
			m.Unseen = append(m.Unseen, p.FlyLink(at, x.Fly))
		}
		if len(m.Compared) == 0 && x.Fly.Group == species.Upwinged && x.Fly.Compared != nil {
			c := p.Compared(at, x.Fly.Compared)
			c.More, c.Alike, c.Rows = nil, "", c.Rows[:min(len(c.Rows), mostCompared)]
			m.Compared = append(m.Compared, LessonStages{p.FlyLink(at, x.Fly), p.lessonStages(x.Fly), c})
		}
	}
	m.Key = p.KeyModel(at, "", "", l.Water.MonthKeys[l.Month-1]())
	return m
}

func (p lessonPrinter) lessonStages(f *figures.Fly) []view.DrawingView {
	all := p.Drawings(p.at, f)
	return all[:min(len(all), 2)]
}

// signWords says the states of a sign, or its length.
func (p lessonPrinter) signWords(s figures.LessonSign, states []string, length [2]float64) string {
	if s.Character == key.LengthCharacter {
		return p.RangeText(p.Lengths(length[0], length[1], 1, content.Basis{}))
	}
	return strings.Join(states, p.words.Plain("list.or"))
}

func (p lessonPrinter) lessonFly(letter string, x figures.LessonFly) LessonFlyView {
	w, at := p.words, p.at
	v := LessonFlyView{Letter: letter, Group: "choice-" + letter, Answer: p.FlyLink(at, x.Fly), Case: p.CaseOf(x.Stage, x.Sex, "")}
	var signs []string
	for _, s := range x.Signs {
		signs = append(signs, w.Plain("compare.both", "character", w.Or("character", s.Character), "state", p.signWords(s, s.Mine, s.MyLength)))
	}
	v.Signs = strings.Join(signs, w.Plain("list.comma"))
	if pic := p.Album.Fly(x.Fly, x.Stage, x.Sex); pic.Known() {
		v.Src = p.Deps.Site.Link(at, pic.Address)
		v.Width, v.Height = pic.Pixels(lessonScale)
		v.Alt = w.Plain("lesson.alt", "letter", letter, "signs", v.Signs)
	}
	var like []string
	for _, f := range x.Like {
		like = append(like, f.Name.S)
	}
	if len(like) > 0 {
		v.Like = w.Plain("lesson.like", "flies", strings.Join(like, w.Plain("list.or")))
	}
	v.Choices = []LessonChoice{{Name: x.Fly.Name.S, Right: true, Says: w.Plain("lesson.yes", "signs", v.Signs, "case", v.Case)}}
	for _, r := range x.Rivals {
		v.Choices = append(v.Choices, LessonChoice{Name: r.Rival.Name.S, Says: w.Plain("lesson.no", "character", w.Or("character", r.Character),
			"mine", p.signWords(r, r.Mine, r.MyLength), "rival", r.Rival.Name.S, "theirs", p.signWords(r, r.Theirs, r.TheirLength))})
	}
	slices.SortFunc(v.Choices, func(a, b LessonChoice) int { return p.Settings().Alphabet.Compare(a.Name, b.Name) })
	return v
}
