package page

// Keys in numbered couplets.

import (
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
)

func (p *Printer) wholeKey() view.KeyModel {
	w := p.words
	m := p.KeyModel(view.KeyPage, w.Plain("key.title"), w.Plain("key.about"), p.book.Key())
	m.OtherHead = w.Plain("key.waters")
	for _, x := range p.book.Waters {
		m.Others = append(m.Others, p.Link(view.KeyPage, view.WaterKeyPage(x), x.Name.S))
	}
	return m
}

func (p *Printer) waterMonthKey(x *figures.Water, i int) view.KeyModel {
	w, at := p.words, view.WaterMonthKeyPage(x, i)
	m := p.KeyModel(at, w.Plain("key.month_title", "water", x.Name.S, "month", w.Month(i)),
		w.Plain("key.month_about", "water", x.Name.S, "month", w.Month(i)), x.MonthKeys[i-1]())
	m.Way = []lang.Link{p.Link(at, view.KeyPage, w.Plain("nav.key")), p.Link(at, view.WaterKeyPage(x), x.Name.S)}
	if p.book.HasLesson(x, i) {
		m.OtherHead = w.Plain("lesson.heading")
		m.Others = []lang.Link{p.Link(at, view.LessonPage(x, i), w.Plain("lesson.title", "water", x.Name.S, "month", w.Month(i)))}
	}
	return m
}
