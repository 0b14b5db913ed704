package report

// Picture is a drawing with its title. What it shows is also in Says and in the text
// beside it, so a renderer without pictures leaves it out.
type Picture struct {
	Question string // its title
	Says     string // the same in words
	Drawing  Drawing
}

func (Picture) block() {}

// Drawing is one of Squares, Dots or PriceLine.
type Drawing interface{ drawing() }

// Squares is a block of squares, one for each of 100 outcomes, in kinds.
type Squares []Square

// Square is how many of the squares are of one kind; the counts add to 100. How they are
// filled goes by the first word of Kind: a program's name, or "both"; else they are empty.
type Square struct {
	Kind  string
	Count int
	Words string // the count in words, "less than 1"; "": there is none to tell
}

// Dots are the outcomes of two or three programs on one axis of USD per base acre.
type Dots []ProgramDots

// ProgramDots is what one program pays: as many dots as Values, each of which stands for
// the same part of 100 outcomes (50 values: 2 of 100). All are USD per base acre.
type ProgramDots struct {
	Name        string    // "ARC-CO"; dots are filled by it
	Values      []float64 // rising from 0 up, as many for every program; 100 is a multiple of them
	Average     float64
	AverageText string // as people read it: "$31"
	Most        float64
	MostText    string // "": the most it can pay is not known
}

// PriceLine is the national price with who is ahead at it, and the price in use.
type PriceLine struct {
	Segments []PriceSegment
	At       float64
	AtText   string // of the price in use, "$4.55"; "": there is none
	Low      float64
	LowText  string // the price that 1 of 10 outcomes is below; "": not known
	High     float64
	HighText string // the price that 1 of 10 outcomes is above
	Unit     string // "dollars a bushel"
}

// PriceSegment is a run of prices at which the same is ahead, from where the one before it
// ends.
type PriceSegment struct {
	Ahead  string  // "PLC more", "neither pays"; filled by its first word, as Square
	To     float64 // rising; of the last segment NaN or infinite
	ToText string  // "$3.20"
}

func (Squares) drawing()   {}
func (Dots) drawing()      {}
func (PriceLine) drawing() {}

// Sheet begins a new sheet of paper.
type Sheet struct {
	Corner string // beside the first heading of it, "Sheet 3 of 60"; "": nothing
}

func (Sheet) block() {}

func (r *Report) sheet(corner string) { r.Blocks = append(r.Blocks, Sheet{corner}) }
