package calc

// A Picture shows a result as curves and marks over two axes. It holds numbers, so that
// any front end can draw it. Use black and grey only: it may be printed.
type Picture struct {
	Title  string
	X, Y   Axis
	Equal  bool // both axes have the same scale, as in the section of an object
	Curves []Curve
	Marks  []Mark
}

// An Axis has a label, which includes the unit. It spans all that is drawn, and also
// From to To if they differ.
type Axis struct {
	Label    string
	From, To float64
}

// A Curve is a line through points. Its label is drawn at the last point.
type Curve struct {
	Label  string
	X, Y   []float64
	Light  bool // grey: a reference, not the result itself
	Dashed bool
}

// Add appends a point.
func (c *Curve) Add(x, y float64) { c.X, c.Y = append(c.X, x), append(c.Y, y) }

// A Mark is a labelled point.
type Mark struct {
	Label string
	X, Y  float64
}

// Picture returns the picture of the results, nil if the calculation has none. The
// sheet must have run.
func (s *Sheet) Picture() *Picture {
	if !s.ran || s.picture == nil {
		return nil
	}
	return s.picture()
}
