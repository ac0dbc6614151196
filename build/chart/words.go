package chart

// The words that stand in a chart, so that a site in another language can bring its own.

// Words are the few words a chart adds to what its caller gives.
type Words struct {
	Months [12]string // table and titles
	Short  [12]string // under the bars; cut to three letters where longer than four

	Own, Thin, Unlooked string // what a bar rests on, in the legend
	Unexpected          string // in place of a number
	Unlisted            string // in place of a number
	NoNumber            string // the empty cell of a table
	Range               string // before a range, in a bar's title
	Found               string // this year's finds, in the legend
	Today               string // the reader's date

	Percent func(share float64) string     // one share, 0 … 1, as a reader wants it
	Span    func(low, high float64) string // two of them
	Amount  func(v float64) string         // a sum of chances, flies
	Unit    string                         // after a figure on the axis of shares
}

// short cuts a month's label to what a narrow column can hold.
func short(label string) string {
	if r := []rune(label); len(r) > 4 {
		return string(r[:3])
	}
	return label
}

// basis is the word for what a month rests on.
func (w *Words) basis(s State) string {
	switch s {
	case Own:
		return w.Own
	case Thin:
		return w.Thin
	case Unlooked:
		return w.Unlooked
	case Unexpected:
		return w.Unexpected
	}
	return w.Unlisted
}
