package content

// Problems are the guide's faults; a Go error is ours. Nothing stops at the
// first problem: all of a run are collected, ordered by place and printed
// with the line they are on.

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// Grade is how much a problem weighs.
type Grade int

// An Error means nothing is written; a Warning can be acknowledged in the
// guide; a Note only informs.
const (
	Error Grade = iota
	Warning
	Note
)

func (g Grade) String() string { return [...]string{"error", "warning", "note"}[g] }

// Problem is one fault of the guide.
type Problem struct {
	ID      string // stable, kebab-case: unknown-key
	Grade   Grade
	At      Place
	Message string // what was found; one line, no full stop
	Want    string // what would be right; may be empty
	Also    Place  // the other place of a clash; may be zero
	AlsoSay string // what stands there: "first given here"
	More    string // where the same stands again, in words; "" for nowhere
}

// Problems collects problems; safe for several goroutines. The zero value is
// ready for use.
type Problems struct {
	mu    sync.Mutex
	list  []Problem
	files map[string]*File
	roots []root
}

// root is a file that other files can't be checked against, and the ids of the
// problems that follow from that alone.
type root struct {
	file string
	ids  []string
}

// Know lets the collector print lines of a file.
func (ps *Problems) Know(f *File) {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	if ps.files == nil {
		ps.files = map[string]*File{}
	}
	ps.files[f.Path] = f
}

// Add keeps a problem.
func (ps *Problems) Add(p Problem) {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	ps.list = append(ps.list, p)
}

// Errorf adds an error with an id, a place, what would be right (may be empty) and a message.
func (ps *Problems) Errorf(id string, at Place, want, format string, a ...any) {
	ps.Add(Problem{ID: id, At: at, Want: want, Message: fmt.Sprintf(format, a...)})
}

// Warnf adds a warning.
func (ps *Problems) Warnf(id string, at Place, want, format string, a ...any) {
	ps.Add(Problem{ID: id, Grade: Warning, At: at, Want: want, Message: fmt.Sprintf(format, a...)})
}

// Notef adds a note.
func (ps *Problems) Notef(id string, at Place, want, format string, a ...any) {
	ps.Add(Problem{ID: id, Grade: Note, At: at, Want: want, Message: fmt.Sprintf(format, a...)})
}

// Clash adds an error that has two places.
func (ps *Problems) Clash(id string, at, also Place, alsoSay, want, format string, a ...any) {
	ps.Add(Problem{ID: id, At: at, Also: also, AlsoSay: alsoSay, Want: want, Message: fmt.Sprintf(format, a...)})
}

// All returns the problems ordered by file, place, id and message, each once.
func (ps *Problems) All() []Problem {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	l := slices.Clone(ps.list)
	slices.SortStableFunc(l, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.At.File, b.At.File), cmp.Compare(a.At.Offset, b.At.Offset),
			cmp.Compare(a.Grade, b.Grade), cmp.Compare(a.ID, b.ID), cmp.Compare(a.Message, b.Message))
	})
	return slices.Compact(l)
}

// Unread says that a file can't be read, or lacks what other files go by; problems
// of the ids then only follow from it, wherever they stand. Without ids none do.
func (ps *Problems) Unread(file string, ids ...string) {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	ps.roots = append(ps.roots, root{file, ids})
}

// IsUnread reports whether Unread was said of a file.
func (ps *Problems) IsUnread(file string) bool {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	return slices.ContainsFunc(ps.roots, func(r root) bool { return r.file == file })
}

// NotShown is the id of the note that stands for the problems left out by Told.
const NotShown = "not-shown"

// Told returns the problems as a person wants to read them: first those of files
// that can't be read, then one note for all that may only follow from these, then
// the others, and notes last, each part in the order of All.
func (ps *Problems) Told() []Problem {
	var first, rest []Problem
	var from []string
	left, gravest := 0, Note
	ps.mu.Lock()
	roots := slices.Clone(ps.roots)
	ps.mu.Unlock()
	for _, p := range ps.All() {
		if slices.ContainsFunc(roots, func(r root) bool { return r.file == p.At.File }) {
			first = append(first, p)
			continue
		}
		follows := false
		for _, r := range roots {
			if slices.Contains(r.ids, p.ID) {
				follows = true
				if !slices.Contains(from, r.file) {
					from = append(from, r.file)
				}
			}
		}
		if follows {
			left++
			gravest = min(gravest, p.Grade)
		} else {
			rest = append(rest, p)
		}
	}
	if left > 0 {
		slices.Sort(from)
		if gravest != Error || slices.ContainsFunc(first, func(p Problem) bool { return p.Grade == Error }) {
			gravest = Note // else the guide would seem sound
		}
		first = append(first, Problem{ID: NotShown, Grade: gravest, Message: Several(left, "more problem") + " may only follow from what is wrong in " + strings.Join(from, ", "),
			Want: "put that right first; what is left shows then"})
	}
	grave := func(p Problem) bool { return p.Grade != Note }
	notes := ps.joined(slices.DeleteFunc(slices.Clone(rest), grave))
	return append(append(first, once(slices.DeleteFunc(rest, func(p Problem) bool { return !grave(p) }))...), notes...)
}

// joined leaves the first of several notes of one id in a file, which have one cause, and says in it where the others are.
func (ps *Problems) joined(notes []Problem) (out []Problem) {
	type cause struct{ id, file string }
	at := map[cause][]string{}
	of := func(p Problem) cause { return cause{p.ID, p.At.File} }
	for _, p := range notes {
		place := strings.TrimPrefix(ps.Where(p.At), p.At.File+":")
		line, _, _ := strings.Cut(place, ":")
		at[of(p)] = append(at[of(p)], line)
	}
	for _, p := range notes {
		switch places := at[of(p)]; {
		case p.At.IsZero() || len(places) < fewEnough:
			out = append(out, p)
		case places[0] != "":
			p.More = Several(len(places)-1, "more note") + " like it in this file: lines " + strings.Join(slices.Compact(slices.Clone(places[1:])), ", ")
			places[0] = "" // the first is told
			out = append(out, p)
		}
	}
	return out
}

// once leaves the first of many problems that say the same of one name, and counts the others in it: whoever puts the
// name right mends them all.
func once(l []Problem) []Problem {
	type same struct{ id, message string }
	files := map[same][]string{}
	of := func(p Problem) same { return same{p.ID, p.Message} }
	for _, p := range l {
		if p.Grade == Error && strings.HasPrefix(p.ID, "unknown-") {
			files[of(p)] = append(files[of(p)], p.At.File)
		}
	}
	var out []Problem
	for _, p := range l {
		in, many := files[of(p)]
		switch {
		case !many || len(in) <= fewEnough:
			out = append(out, p)
		case in[0] != "":
			p.More = Several(len(in)-1, "more time") + ", in " + strings.Join(slices.Compact(slices.Clone(in[1:])), ", ")
			in[0] = "" // the first is told
			out = append(out, p)
		}
	}
	return out
}

// fewEnough is how many times the same may be told, and one less for notes.
const fewEnough = 3

// Count returns how many problems have a grade.
func (ps *Problems) Count(g Grade) int {
	n := 0
	for _, p := range ps.All() {
		if p.Grade == g {
			n++
		}
	}
	return n
}

// Errors returns how many errors stand in one file.
func (ps *Problems) Errors(file string) int {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	n := 0
	for _, p := range ps.list {
		if p.Grade == Error && p.At.File == file {
			n++
		}
	}
	return n
}

// File returns a file the collector knows, or nil.
func (ps *Problems) File(path string) *File {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	return ps.files[path]
}

// Where writes a place as file:line:column, or as much of it as is known.
func (ps *Problems) Where(p Place) string {
	if p.IsZero() {
		return "guide"
	}
	f := ps.File(p.File)
	if f == nil {
		return p.File
	}
	if cell := f.cellAt(p.Offset); cell != "" {
		return p.File + ":" + cell
	}
	line, col := f.LineColumn(p.Offset)
	return fmt.Sprintf("%s:%d:%d", p.File, line, col)
}

// Print writes one problem, its place first so that terminals and editors can follow it: what the line reads, what
// is wrong with it, and what would be right. A clash has the other place below.
//
//	rivers/lorrow-brook.yaml:15:3
//	  reads   Large dark olvie: abundant
//	  wrong   no account is named "Large dark olvie"  (unknown-fly)
//	  right   "Large dark olive"? An account in species/ makes a fly known; a record never does
func (ps *Problems) Print(w io.Writer, p Problem) {
	grade := ""
	if p.Grade != Error {
		grade = "  " + p.Grade.String()
	}
	fmt.Fprintf(w, "%s%s\n", ps.Where(p.At), grade)
	if reads := ps.reads(p.At); reads != "" {
		fmt.Fprintf(w, "  reads   %s\n", reads)
	}
	wrong, right := p.wrongAndRight()
	fmt.Fprintf(w, "  wrong   %s  (%s)\n", wrong, p.ID)
	if right != "" {
		fmt.Fprintf(w, "  right   %s\n", right)
	}
	if p.More != "" {
		fmt.Fprintf(w, "  again   %s\n", p.More)
	}
	if !p.Also.IsZero() {
		fmt.Fprintf(w, "  also    %s  %s\n", ps.Where(p.Also), clean(p.AlsoSay))
		if reads := ps.reads(p.Also); reads != "" {
			fmt.Fprintf(w, "  reads   %s\n", reads)
		}
	}
}

// wrongAndRight parts a near word from the message: what is meant belongs to what would be right.
func (p Problem) wrongAndRight() (wrong, right string) {
	wrong, near, found := strings.Cut(short(clean(p.Message)), meant)
	right = clean(p.Want)
	if !found {
		return wrong, right
	}
	if r, n := utf8.DecodeRuneInString(right); n > 0 {
		right = " " + string(unicode.ToUpper(r)) + right[n:]
	}
	return wrong, near + right
}

const (
	widest  = 110  // characters of a line shown
	longest = 1000 // characters of a message
)

// short cuts out the middle of what nobody would read to its end.
func short(s string) string {
	if r := []rune(s); len(r) > longest {
		return string(r[:longest/2]) + " … " + string(r[len(r)-longest/2:])
	}
	return s
}

// reads is the line that a place is on, cut to what can be read at once; "" where nobody wrote anything.
func (ps *Problems) reads(at Place) string {
	f := ps.File(at.File)
	if f == nil || len(f.Bytes) == 0 {
		return ""
	}
	n, col := f.LineColumn(at.Offset)
	lead := col - 1
	if col > widest*3/4 {
		lead = widest / 2
	}
	before, after := f.around(at.Offset, n, lead, widest-lead)
	return strings.TrimSpace(before + after)
}

// around gives up to so many characters of a line before and after an offset
// in it, as they are printed. A line may hold megabytes.
func (f *File) around(offset, line, before, after int) (string, string) {
	from, to := min(offset, len(f.Bytes)), min(offset, len(f.Bytes))
	for ; before > 0 && from > f.start(line); before-- {
		_, n := utf8.DecodeLastRune(f.Bytes[f.start(line):from])
		from -= n
	}
	to = f.charactersOn(to, after)
	return clean(string(f.Bytes[from:min(offset, len(f.Bytes))])), clean(string(f.Bytes[min(offset, len(f.Bytes)):to]))
}

// clean drops control characters and overrides of the direction, so that a file can't steer a terminal or turn
// a message round.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case r < 0x20 || r == 0x7f || (r >= 0x80 && r < 0xa0) || r == 0x2028 || r == 0x2029 ||
			r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200e || r == 0x200f || r == 0x61c:
			return -1
		}
		return r
	}, s)
}
