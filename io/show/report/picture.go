package report

// Picture is a drawing with its title. What it shows is also in Says and in the text
// beside it, so a renderer without pictures leaves it out.
type Picture struct {
	Question string // its title
	Says     string // the same in words
	Drawing  Drawing
}

func (Picture) block() {}

// Drawing is one of Squares, Curves, Spans or Columns. Values are dollars unless an
// axis says otherwise.
type Drawing interface{ drawing() }

// Squares is a bar of squares, one for each of 100 outcomes, in kinds.
type Squares []Square

// Square is how many of the squares are of one kind; the counts add to 100.
type Square struct {
	Kind  string
	Count int
	Words string // the count in words, "less than 1"; "": there is none to tell
}

// Curves are payments against a price, with the prices at which the lead changes.
type Curves struct {
	XAxis, YAxis string
	Lines        []Curve
	Changes      []Change  // rising
	Ends         [2]Change // of the x axis
	Band         *Band     // of the price in use; nil: none
}

// Curve is one line; X rises, and has as many values as Y. Short names the line within
// its Family.
type Curve struct {
	Name          string
	Family, Short string // both or neither
	X, Y          []float64
}

// Band is the price in use, At, and the prices between which most outcomes lie; Low
// and High are At where those are not known.
type Band struct {
	Low, At, High float64
	Text          string // the same in words
}

// Change marks a place on the x axis.
type Change struct {
	At   float64
	Text string
}

// Spans are bars from poor to good case, side by side.
type Spans struct {
	YAxis string
	Names []string // of the members of a group
	Group []SpanGroup
}

// SpanGroup is one place on the x axis; Members are in the order of Names.
type SpanGroup struct {
	Label   string
	Members []Span
}

// Span is the poor, middle and good case, and the average; NaN: not known.
type Span struct{ Poor, Middle, Good, Average float64 }

// Columns are values side by side; NaN: not known.
type Columns struct {
	YAxis  string
	Names  []string
	Labels []string    // of the places on the x axis
	Values [][]float64 // [name][label]
}

func (Squares) drawing() {}
func (Curves) drawing()  {}
func (Spans) drawing()   {}
func (Columns) drawing() {}

// Sheet begins a new sheet of paper.
type Sheet struct{}

func (Sheet) block() {}

func (r *Report) sheet()            { r.Blocks = append(r.Blocks, Sheet{}) }
func (r *Report) picture(p Picture) { r.Blocks = append(r.Blocks, p) }
