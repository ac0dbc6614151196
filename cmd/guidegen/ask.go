package main

// The questions of `visit`: one after the other, each answer looked at before
// the next is asked. An answer that can't be read is asked for again.

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"guidegen/build"
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/species"
)

// question is one question. fault says what is wrong with an answer, doubt what is
// odd about one that may be right all the same; each gives "" for nothing.
type question struct {
	text    string
	instead string // taken where nothing is answered
	fault   func(answer string) string
	doubt   func(answer string) string
}

func (l *logger) reader() *bufio.Reader {
	r, ok := l.c.in.(*bufio.Reader)
	if !ok {
		r = bufio.NewReader(l.c.in)
		l.c.in = r
	}
	return r
}

// put asks until an answer can be read. An end of the input ends the visit.
func (l *logger) put(q question) (string, error) {
	for {
		def := ""
		if q.instead != "" {
			def = " [" + q.instead + "]"
		}
		fmt.Fprintf(l.c.out, "%s%s: ", q.text, def)
		line, err := l.reader().ReadString('\n')
		if err == io.EOF && strings.TrimSpace(line) == "" {
			fmt.Fprintln(l.c.out)
			return "", build.Misused("the answers end before the visit is complete; nothing was written")
		}
		if err != nil && err != io.EOF {
			return "", err
		}
		answer := cmp.Or(strings.TrimSpace(line), q.instead)
		if q.fault != nil {
			if fault := q.fault(answer); fault != "" {
				fmt.Fprintf(l.c.out, "  %s\n", fault)
				continue
			}
		}
		if q.doubt != nil {
			if doubt := q.doubt(answer); doubt != "" {
				fmt.Fprintf(l.c.out, "  %s\n", doubt)
				if sure, err := l.yes("  Is it right?", "no"); err != nil || !sure {
					if err != nil {
						return "", err
					}
					continue
				}
			}
		}
		return answer, nil
	}
}

// yes asks for yes or no; instead is taken where nothing is answered, and must be answered where it is "".
func (l *logger) yes(text, instead string) (bool, error) {
	a, err := l.put(question{text: text, instead: instead, fault: func(a string) string {
		if !slices.Contains([]string{"yes", "y", "no", "n"}, strings.ToLower(a)) {
			return "answer yes or no"
		}
		return ""
	}})
	return strings.HasPrefix(strings.ToLower(a), "y"), err
}

// lookedFor is what a visit looked for where nothing else is said.
const lookedFor = "water-bred"

// ask puts all the questions, the empty net before the flies.
func (l *logger) ask() (err error) {
	v := &l.form
	put := func(into *string, q question) {
		if err == nil {
			*into, err = l.put(q)
		}
	}
	fmt.Fprintf(l.c.out, "A visit to %s. Enter takes what stands in brackets, or leaves the answer open.\n", v.water)
	put(&v.date, question{text: "Date", instead: today().String(), fault: dateAnswer})
	put(&v.start, question{text: "Start, local time", fault: clockAnswer})
	put(&v.end, question{text: "End, local time", fault: clockAnswer})
	put(&v.beat, question{text: "Beat" + listed(beats(l.water)), doubt: l.beatDoubt})
	put(&v.method, question{text: "Method", instead: "sweep net", fault: func(a string) string { return oneOf(a, protocols()) }})
	wing := rivers.Protocol(content.Fold(v.method)).OnTheWing()
	if wing {
		put(&v.effort, question{text: "Effort, such as 50 sweeps or 10 minutes", fault: effortAnswer})
		put(&v.scope, question{text: "Looked for (groups parted by ;, or all)", instead: lookedFor, fault: scopeAnswer})
	}
	put(&v.by, question{text: "Who sampled"})
	if err != nil {
		return err
	}
	if wing {
		if v.nothing, err = l.yes("Nothing in the net?", "no"); err != nil {
			return err
		}
	}
	for wing && !v.nothing {
		f, more, err := l.askFind()
		if err != nil {
			return err
		}
		if more {
			v.finds = append(v.finds, f)
			continue
		}
		if len(v.finds) > 0 {
			break
		}
		if v.nothing, err = l.yes("No fly was entered. Was the net empty?", ""); err != nil {
			return err
		}
	}
	put(&v.remarks, question{text: "Remarks"})
	return err
}

func (l *logger) askFind() (f findForm, more bool, err error) {
	put := func(into *string, q question) {
		if err == nil {
			*into, err = l.put(q)
		}
	}
	put(&f.fly, question{text: "Fly, or its group, or " + guide.Unnamed + " (Enter when there are no more)", fault: l.flyAnswer})
	if err != nil || f.fly == "" {
		return f, false, err
	}
	stages := species.AllStages
	group, _, _ := l.names.Wide(f.fly)
	if f.account, _ = l.names.Fly(f.fly); f.account != nil {
		group = f.account.Group
	}
	if group != "" {
		stages = group.Stages()
	}
	put(&f.stage, question{text: "  Stage" + listed(words(stages)), fault: func(a string) string {
		if s, ok := species.StageNamed(a); a != "" && (!ok || group != "" && !group.Has(s)) {
			return fmt.Sprintf("%q isn't a stage of it%s", a, content.DidYouMean(a, words(stages)))
		}
		return ""
	}})
	put(&f.sex, question{text: "  Sex (male, female)", fault: func(a string) string { return oneOf(a, []string{"", "male", "female"}) }})
	put(&f.count, question{text: "  How many", fault: func(a string) string {
		if strings.Trim(a, "0123456789") != "" || a == "0" {
			return "a count is a whole number; leave it open where only presence was noted"
		}
		return ""
	}})
	put(&f.lengths, question{text: "  Lengths in mm, parted by spaces", fault: func(a string) string {
		for _, x := range strings.Fields(a) {
			if n, _, err := measure.ParseNumber(x); err != nil || n <= 0 {
				return fmt.Sprintf("%q isn't a length; write decimals with a point", x)
			}
		}
		return ""
	}, doubt: f.lengthDoubt})
	put(&f.namedBy, question{text: "  Who named it"})
	return f, true, err
}

// lengthDoubt looks for a length far outside what the account says.
func (f *findForm) lengthDoubt(a string) string {
	if f.account == nil {
		return ""
	}
	stage, _ := species.StageNamed(f.stage)
	low, high, ok := figures.Lengths(f.account, stage, species.Sex(content.Fold(f.sex)), f.account.Group.Habit(stage))
	for _, x := range strings.Fields(a) {
		if mm, _, err := measure.ParseNumber(x); ok && err == nil && figures.OddLength(mm, low, high) {
			return fmt.Sprintf("%s mm is more than a fifth outside the range of %s, %s to %s mm", x, f.account.Name.S, content.Decimal(low, 1), content.Decimal(high, 1))
		}
	}
	return ""
}

// beatDoubt looks for a beat that neither the water's record nor an earlier visit names.
func (l *logger) beatDoubt(a string) string {
	if slices.ContainsFunc(l.guide.Visits, func(v *guide.Visit) bool { return v.Water == l.water && content.Fold(v.Beat.S) == content.Fold(a) }) {
		return ""
	}
	fault, _ := guide.UnknownBeat(l.water, a)
	return fault
}

func words[T ~string](l []T) []string {
	var out []string
	for _, x := range l {
		out = append(out, string(x))
	}
	return out
}

func listed(l []string) string {
	if len(l) == 0 {
		return ""
	}
	return " (" + strings.Join(l, ", ") + ")"
}

func beats(w *rivers.Water) []string {
	var l []string
	for _, b := range w.Beats {
		l = append(l, b.Name.S)
	}
	return l
}

func oneOf(a string, known []string) string {
	if slices.Contains(known, content.Fold(a)) {
		return ""
	}
	return fmt.Sprintf("%q is none of: %s%s", a, strings.Join(slices.DeleteFunc(slices.Clone(known), func(s string) bool { return s == "" }), ", "), content.DidYouMean(a, known))
}

func dateAnswer(a string) string {
	d, err := calendar.ParseDate(a)
	if err != nil {
		return dateFault(a, err)
	}
	if today().Before(d) {
		return d.String() + " lies in the future"
	}
	return ""
}

func clockAnswer(a string) string {
	if a == "" {
		return ""
	}
	if _, err := calendar.ParseClock(a); err != nil {
		return dateFault(a, err)
	}
	return ""
}

func effortAnswer(a string) string {
	if a == "" {
		return ""
	}
	if _, err := measure.ParseEffort(a); err != nil {
		return fmt.Sprintf("%q can't be read; write an amount and sweeps, minutes, hours or trap nights", a)
	}
	return ""
}

func scopeAnswer(a string) string {
	known := append(words(species.Groups), "water-bred", "all", "none")
	for _, p := range strings.FieldsFunc(a, func(r rune) bool { return strings.ContainsRune(";|,", r) }) {
		if f := oneOf(strings.TrimSpace(p), known); f != "" {
			return f
		}
	}
	return ""
}

// flyAnswer takes any name of an account, and any word wider than a species that a sheet may hold.
func (l *logger) flyAnswer(a string) string {
	fly, shared := l.names.Fly(a)
	if _, _, wide := l.names.Wide(a); a == "" || fly != nil || len(shared) > 0 || wide {
		return ""
	}
	known := slices.Clone(l.names.WideWords())
	for _, acc := range l.guide.Accounts {
		for _, t := range acc.Names() {
			known = append(known, t.S)
		}
	}
	return fmt.Sprintf("no account is named %q%s\n  one that you can't name is its group (%s), a family or genus, or %s", a, content.DidYouMean(a, known),
		strings.Join(words(species.Groups), ", "), guide.Unnamed)
}
