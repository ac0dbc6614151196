package rivers

// Measurements in a sample file: lengths of flies, temperatures of the water.

import (
	"errors"
	"strings"
	"unicode"

	"guidegen/content"
	"guidegen/content/measure"
)

// MeasurementTypes is the list of what a measurement can be.
var MeasurementTypes = []string{"body length", "overall length", "wing length", "water temperature", "air temperature"}

// measurement reads what a row measured: of its find, or of the water.
func (r *sampleReader) measurement(row content.Row, v *visit, f *find) {
	part := r.lengthsPart(row)
	for _, t := range r.text(row, lengthsMany).Split(" ;\t\u00a0") {
		if f != nil {
			r.length(f, t, r.lengthUnit, part, "")
		}
	}
	kind, value := r.text(row, measuredType), r.text(row, measuredValue)
	unit, method := r.text(row, measuredUnit), r.cell(row, measuredMethod)
	switch what := content.Fold(kind.S); {
	case kind.S == "" && value.S == "":
	case kind.S == "":
		r.ps.Errorf("half-measurement", value.At, "one of: "+strings.Join(MeasurementTypes, ", "), "a value stands here, but not what was measured")
	case value.S == "":
		r.ps.Errorf("half-measurement", kind.At, "give the value and its unit", "this names a measurement, but no value")
	case strings.HasSuffix(what, " temperature"):
		if unit.S == "" {
			r.ps.Errorf("missing-unit", value.At, "write °C or °F under measurementUnit", "this temperature has no unit")
			return
		}
		if c, ok := celsius(value, unit.S, r.ps); ok {
			v.readings = append(v.readings, Reading{what, c, method, value.At})
		}
	case what == "body length" || what == "overall length" || what == "wing length":
		switch {
		case f == nil:
			r.ps.Errorf("no-fly", kind.At, "name the fly in this row", "a length of a fly stands here, but the row names no fly")
		case unit.S == "":
			r.ps.Errorf("missing-unit", value.At, "write mm or in under measurementUnit", "this length has no unit")
		default:
			r.length(f, value, unit.S, what, method)
		}
	default:
		r.ps.Warnf("measurement-not-read", kind.At, "read are: "+strings.Join(MeasurementTypes, ", "), "the measurement %q is not read%s", kind.S, content.DidYouMean(kind.S, MeasurementTypes))
	}
}

// lengthsPart is what a row's plain lengths measure; "" where it doesn't say.
func (r *sampleReader) lengthsPart(row content.Row) string {
	switch t := r.text(row, lengthsPart); content.Fold(t.S) {
	case "":
	case "body", Body:
		return Body
	case "overall", Overall:
		return Overall
	default:
		r.ps.Errorf("unknown-choice", t.At, "one of: body, overall", "%q isn't what a length can measure%s", t.S, content.DidYouMean(t.S, []string{"body", "overall"}))
	}
	return ""
}

// length reads one length, in the unit that stands with it, else in the column's.
func (r *sampleReader) length(f *find, t content.Text, unit, part, method string) {
	text := t.S
	if !strings.ContainsFunc(text, unicode.IsLetter) {
		text += " " + unit
	}
	l, err := measure.ParseLength(text)
	if e, ok := errors.AsType[*measure.Error](err); ok && e.Found == text {
		e.Found = t.S // nobody wrote the column's unit there
	}
	if err != nil {
		r.ps.Refuse("bad-length", t, err)
		return
	}
	if !l.Single() {
		r.ps.Errorf("bad-length", t.At, "write each length that was measured", "%q is a range, but a measurement is one value", t.S)
		return
	}
	m := content.Fold(method)
	f.lengths = append(f.lengths, Length{Millimetres: float64(l.Low), Digits: l.DigitsIn(measure.MM), Method: method, Part: part, At: t.At,
		WithTails: strings.Contains(m, "tail") && !strings.Contains(m, "without") && !strings.Contains(m, "excluding") && !strings.Contains(m, "no tail")})
}
