package main

// guidegen visit: logs one visit to a water, by flags or question by question.
// What is to be written is read by the same readers first; it goes into the
// sheet whole or not at all.

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"guidegen/build"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
)

func (c *command) visit() *cobra.Command {
	var s shared
	var v visitForm
	var finds []string
	var namedBy, checked, sheet string
	cmd := &cobra.Command{
		Use:   "visit RIVER",
		Short: "log a visit, question by question or by flags",
		Long: `Logs a visit to RIVER: asks question by question, or takes the visit from what you
add to the command. Log an empty net too (--nothing): it is as good a record as a
full one.

Nothing is written unless the visit reads without a mistake.`,
		Example: `  guidegen visit "Lorrow Brook"
  guidegen visit "Lorrow Brook" --method "sweep net" --nothing
  guidegen visit lorrow-brook --method "hand net" --find "Large dark olive, dun"`,
		Args:              most(1, "RIVER"),
		ValidArgsFunction: c.completeWaters(&s),
		RunE: func(cmd *cobra.Command, args []string) error {
			asked := true
			for _, f := range visitFlags {
				asked = asked && !cmd.Flags().Changed(f)
			}
			switch {
			case checked != "" && !slices.Contains(checks, content.Fold(checked)):
				return build.Misused("--checked: %q isn't a state of verification%s\nwrite one of: %s", checked, content.DidYouMean(checked, checks), strings.Join(checks, ", "))
			case len(finds) == 0 && checked+namedBy != "":
				return build.Misused("--checked and --named-by speak of the flies of --find, and there is none")
			}
			for _, text := range finds {
				f, err := findOf(text)
				if err != nil {
					return err
				}
				f.namedBy, f.checked = namedBy, checked
				v.finds = append(v.finds, f)
			}
			switch {
			case v.nothing && len(finds) > 0:
				return build.Misused("--nothing and --find contradict each other")
			case !asked && !v.nothing && len(finds) == 0 && !rivers.Protocol(content.Fold(v.method)).OnTheWing() && v.method == "",
				!asked && !v.nothing && len(finds) == 0 && rivers.Protocol(content.Fold(v.method)).OnTheWing():
				return build.Misused("say what was found with --find, or that the net was empty with --nothing")
			}
			return c.logVisit(&s, args[0], v, sheet, asked)
		},
	}
	s.flags(cmd, "guide")
	f := cmd.Flags()
	f.StringVar(&v.date, "date", "", "the `day`, as 2026-05-03; today if not given")
	f.StringVar(&v.start, "start", "", "start, in local `time`: 11:40")
	f.StringVar(&v.end, "end", "", "end, in local `time`")
	f.StringVar(&v.beat, "beat", "", "the `beat`")
	f.StringVar(&v.method, "method", "", "the `method`: "+strings.Join(protocols(), ", "))
	f.StringVar(&v.effort, "effort", "", "`amount` and unit: \"50 sweeps\", \"10 minutes\"")
	f.StringVar(&v.scope, "looked-for", "", "the `groups` looked for: water-bred, all, none, or groups with ; between them")
	f.StringArrayVar(&finds, "find", nil, "a `find`: \"fly, stage, sex, count, lengths in mm\"; may be given again")
	f.BoolVar(&v.nothing, "nothing", false, "nothing was in the net")
	f.StringVar(&v.by, "by", "", "`who` sampled")
	f.StringVar(&namedBy, "named-by", "", "`who` named the flies")
	f.StringVar(&checked, "checked", "", "one `word`: verified, unreviewed or rejected; unreviewed if not given")
	f.StringVar(&v.remarks, "remarks", "", "anything else, as `text`")
	f.StringVar(&v.id, "mark", "", "the visit's own `mark`; made up if not given")
	f.StringVar(&sheet, "sheet", "", "the `file` in samples/ to write to; by river and year if not given")
	must(cmd.RegisterFlagCompletionFunc("method", fixed(protocols()...)))
	must(cmd.RegisterFlagCompletionFunc("checked", fixed(checks...)))
	return cmd
}

var checks = []string{string(rivers.Verified), string(rivers.Unreviewed), string(rivers.Rejected)}

var visitFlags = []string{"date", "start", "end", "beat", "method", "effort", "looked-for", "find", "nothing", "by", "remarks", "mark"}

func protocols() []string {
	var l []string
	for _, p := range rivers.Protocols {
		l = append(l, string(p))
	}
	return l
}

// findOf reads "FLY, STAGE, SEX, COUNT, LENGTHS".
func findOf(text string) (findForm, error) {
	p := strings.Split(text, ",")
	if len(p) > 5 {
		return findForm{}, build.Misused("--find %q: write fly, stage, sex, count and lengths, with commas between them and spaces between the lengths", text)
	}
	for len(p) < 5 {
		p = append(p, "")
	}
	for i := range p {
		p[i] = strings.TrimSpace(p[i])
	}
	return findForm{fly: p[0], stage: p[1], sex: p[2], count: p[3], lengths: p[4]}, nil
}

// logger logs one visit into one guide.
type logger struct {
	c     *command
	src   *build.Source
	guide *guide.Guide
	names *guide.Names
	water *rivers.Water
	sheet string // slash path in the guide
	form  visitForm

	problems *content.Problems // of the guide before the visit
}

func (c *command) logVisit(s *shared, river string, v visitForm, sheet string, asked bool) error {
	src, err := build.Find(s.guide, c.here)
	if err != nil {
		return err
	}
	defer src.Close()
	if err := onDisk(src); err != nil {
		return err
	}
	ps := &content.Problems{}
	g, err := build.Read(src, calendar.Date{}, ps)
	if err != nil {
		return err
	}
	l := &logger{c: c, src: src, guide: g, names: g.Names(), problems: ps, form: v}
	i, err := waterNamed(g.Waters, river)
	if err != nil {
		return err
	}
	l.water = g.Waters[i]
	l.form.water = l.water.Name.S
	if asked {
		if err := l.ask(); err != nil {
			return err
		}
	}
	if l.form.date == "" {
		l.form.date = today().String()
	}
	if l.form.scope == "" && rivers.Protocol(content.Fold(l.form.method)).OnTheWing() {
		l.form.scope = lookedFor
	}
	if d, err := calendar.ParseWhen(l.form.date); err == nil && today().Before(d.From) {
		return build.Misused("--date: %s lies in the future; a visit is logged once it was made", l.form.date)
	}
	if l.sheet = sheet; sheet == "" {
		year, _, _ := strings.Cut(l.form.date, "-")
		l.sheet = l.water.Address + "-" + content.Address(year) + ".csv"
	}
	l.sheet = "samples/" + strings.TrimPrefix(filepath.ToSlash(l.sheet), "samples/")
	switch name := strings.TrimPrefix(l.sheet, "samples/"); {
	case strings.HasSuffix(name, ".xlsx"):
		return build.Misused("%s is a workbook, which its own program writes; log the visit into a sheet that ends in .csv", l.sheet)
	case !fs.ValidPath(l.sheet) || strings.Contains(name, "/") || !strings.HasSuffix(name, ".csv"):
		return build.Misused("%s isn't a sheet of the guide: sheets are samples/*.csv", l.sheet)
	case strings.HasPrefix(name, "."):
		return build.Misused("%s is hidden, and a guide reads no hidden file; name one that doesn't begin with a dot", l.sheet)
	}
	if err := l.sound(); err != nil {
		return err
	}
	return l.write(asked)
}

// write adds the visit to its sheet, once it reads without a mistake. Who is asked
// sees it first; the lock is for the write alone, so that nobody waits for an answer.
func (l *logger) write(asked bool) error {
	made := l.form.id == ""
	if asked {
		old, text, err := l.drawnUp(true)
		if err != nil {
			return err
		}
		fmt.Fprintf(l.c.out, "\n%s", bytes.TrimPrefix(text, old))
		if ok, err := l.yes("Write this to "+l.sheet+"?", "yes"); err != nil || !ok {
			return errors.Join(err, build.Misused("the visit was not written"))
		}
		if made {
			l.form.id = "" // somebody may have logged another visit meanwhile
		}
	}
	file := l.file()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	unlock, err := lock(filepath.Join(filepath.Dir(file), "."+filepath.Base(file)+".lock"))
	if err != nil {
		return err
	}
	defer unlock()
	_, text, err := l.drawnUp(!asked)
	if err != nil {
		return err
	}
	if file, err = filepath.EvalSymlinks(file); errors.Is(err, fs.ErrNotExist) {
		file, err = l.file(), nil
	}
	if err != nil {
		return err
	}
	if err := replace(file, text); err != nil {
		return err
	}
	fmt.Fprintf(l.c.out, "wrote visit %s to %s\n", l.form.id, l.sheet)
	return nil
}

// dialect is how the sheet is written.
func (l *logger) dialect() content.Dialect { return l.guide.Settings.Sheet(l.sheet) }

func (l *logger) file() string { return filepath.Join(l.src.Dir, filepath.FromSlash(l.sheet)) }

// drawnUp gives the sheet as it is and as it would be. With tell, what is wrong or
// odd about the new rows is printed.
func (l *logger) drawnUp(tell bool) (old, text []byte, err error) {
	old, err = os.ReadFile(l.file())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, nil, err
	}
	for i := range l.form.finds {
		l.form.finds[i].account, _ = l.names.Fly(l.form.finds[i].fly)
	}
	if l.form.id == "" {
		l.form.id = l.mark(old)
	} else if slices.Contains(marks(old, l.dialect()), l.form.id) {
		return nil, nil, build.Misused("a visit %s stands in %s already", l.form.id, l.sheet)
	}
	if text, err = l.form.append(old, l.sheet, l.dialect()); err != nil {
		return nil, nil, err
	}
	ps, bad, err := l.proof(text, len(old))
	if err != nil {
		return nil, nil, err
	}
	sound := !slices.ContainsFunc(bad, func(p content.Problem) bool { return p.Grade == content.Error })
	for _, p := range bad {
		if !sound {
			p.At, p.Also = l.unwritten(p.At, text, len(old)), l.unwritten(p.Also, text, len(old))
		}
		if tell || p.Grade == content.Error {
			ps.Print(l.c.err, p)
		}
	}
	if !sound {
		return nil, nil, build.Misused("the visit was not written")
	}
	return old, text, nil
}

// proof reads and reckons the guide as it would be, and gives the problems of the new rows.
func (l *logger) proof(text []byte, from int) (*content.Problems, []content.Problem, error) {
	after := &build.Source{Files: overlay{l.src.Files, map[string][]byte{l.sheet: text}}, Dir: l.src.Dir, How: l.src.How}
	_, r, err := build.Reckon(build.Options{Source: after, Edition: build.Members, Date: today()})
	if err != nil {
		return nil, nil, err
	}
	var bad []content.Problem
	for _, p := range r.Collector().All() {
		if p.At.File == l.sheet && (p.At.Offset >= from || p.Also.File == l.sheet && p.Also.Offset >= from) {
			bad = append(bad, p)
		}
	}
	return r.Collector(), bad, nil
}

// unwritten names a place in the new rows by its heading: a visit that isn't written has no line to look at.
func (l *logger) unwritten(at content.Place, text []byte, from int) content.Place {
	if at.File != l.sheet || at.Offset < from {
		return at
	}
	ps := &content.Problems{}
	f := content.NewFile(l.sheet, bytes.Clone(text))
	f.Dialect = l.dialect()
	s := content.OpenCSV(f, ps)
	if s == nil {
		return at
	}
	heading := ""
	for row := range s.Rows(ps) {
		for i, h := range s.Headings {
			if row.Text(i).At.Offset <= at.Offset && row.Text(i).At.Offset >= from {
				heading = ", " + h.S
			}
		}
	}
	return content.Place{File: "the new visit" + heading}
}

// sound refuses a sheet that has errors before anything is asked or added: rows added to it would be lost in them.
func (l *logger) sound() error {
	sound := true
	for _, p := range l.problems.All() {
		if p.Grade == content.Error && p.At.File == l.sheet {
			l.problems.Print(l.c.err, p)
			sound = false
		}
	}
	if !sound {
		return build.Misused("%s has errors; put them right first, then log the visit", l.sheet)
	}
	return nil
}

// replace puts a file's new text in place in one step: it is whole at every moment.
func replace(name string, text []byte) error {
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*.tmp")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // gone already once it was renamed
	_, err = f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(name); err == nil {
		mode = info.Mode().Perm()
	}
	if err := os.Chmod(f.Name(), mode); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

var (
	numbered = regexp.MustCompile(`^(.*?)(\d+)$`)
	// dated marks hold a date or end like a month or a year: the next number would name another one.
	dated = regexp.MustCompile(`\d{4}[-./]\d\d[-./]\d\d|(^|\D)(1[89]|20)\d\d([-./]?(0[1-9]|1[0-2])([-./]?(0[1-9]|[12]\d|3[01]))?)?$|(^|\D)\d\d(0[1-9]|1[0-2])(0[1-9]|[12]\d|3[01])$`)
)

// mark makes up a mark for a visit: the next after the sheet's last, or one of
// water and date where that looks like a date.
func (l *logger) mark(sheet []byte) string {
	used := map[string]bool{}
	for _, v := range l.guide.Visits {
		used[v.ID] = true
	}
	all := marks(sheet, l.dialect())
	for _, m := range all {
		used[m] = true
	}
	if len(all) > 0 && !dated.MatchString(all[len(all)-1]) {
		if m := numbered.FindStringSubmatch(all[len(all)-1]); m != nil && len(m[2]) < 9 {
			for n, _ := strconv.Atoi(m[2]); ; {
				n++
				if id := fmt.Sprintf("%s%0*d", m[1], len(m[2]), n); !used[id] {
					return id
				}
			}
		}
	}
	id := l.water.Address + "-" + l.form.date
	for n := 2; used[id]; n++ {
		id = fmt.Sprintf("%s-%s-no%d", l.water.Address, l.form.date, n)
	}
	return id
}

// marks lists the visits of a sheet as they stand in it.
func marks(sheet []byte, d content.Dialect) []string {
	ps := &content.Problems{}
	f := content.NewFile("sheet.csv", bytes.Clone(sheet))
	f.Dialect = d
	s := content.OpenCSV(f, ps)
	if s == nil {
		return nil
	}
	column := slices.IndexFunc(s.Headings, func(h content.Text) bool {
		return content.Fold(h.S) == "visit" || content.Fold(h.S) == "eventid"
	})
	var l []string
	for row := range s.Rows(ps) {
		if m := row.String(column); m != "" && !slices.Contains(l, m) {
			l = append(l, m)
		}
	}
	return l
}
