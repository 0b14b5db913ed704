package report

// Report is a document of blocks in reading order.
type Report struct {
	Blocks []Block
}

// Block is one of the types below, or a Picture or Sheet.
type Block interface{ block() }

// Heading opens a part. Level 1 is the document, 2 a crop year, 3 a farm, 4 a
// commodity.
type Heading struct {
	Level int
	Text  string
}

// Text is a paragraph.
type Text string

// Lead is the sentence that a reader takes away from a part.
type Lead string

// Banner is what must not be missed, set apart.
type Banner string

// Small is a note that does not stop the reading: what a figure stands on, a source.
type Small string

// Checklist is what to check, ask or know, a box before each.
type Checklist []string

// Beside sets two columns side by side where there is room, else one after the other.
type Beside struct{ Left, Right []Block }

// List is a list of points.
type List []Point

// Point is one entry of a list.
type Point struct {
	Mark string // "warning", "error", ... or ""
	Text string
}

// Table has a title with its unit, columns and rows of text. The first column
// is set left, the others right. A row of one cell is a heading of the rows below it.
type Table struct {
	Title   string
	Columns []string
	Rows    [][]string
	Notes   []string
	ToSheet bool // the last column numbers the sheets of the report after the first, for a page to link
}

func (Heading) block()   {}
func (Text) block()      {}
func (Lead) block()      {}
func (Banner) block()    {}
func (Small) block()     {}
func (Checklist) block() {}
func (Beside) block()    {}
func (List) block()      {}
func (Table) block()     {}

func (r *Report) heading(level int, text string) { r.Blocks = append(r.Blocks, Heading{level, text}) }

func (r *Report) text(text string) {
	if text != "" {
		r.Blocks = append(r.Blocks, Text(text))
	}
}

func (r *Report) list(points []Point) {
	if len(points) > 0 {
		r.Blocks = append(r.Blocks, List(points))
	}
}

// notes lists plain sentences.
func (r *Report) notes(notes []string) {
	var points List
	for _, note := range notes {
		points = append(points, Point{Text: note})
	}
	r.list(points)
}

func (r *Report) table(t Table) { r.Blocks = append(r.Blocks, t) }
