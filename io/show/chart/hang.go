package chart

// tag is a text below a place, at the end of a thin line where it is not right under it.
type tag struct {
	text string
	from float64 // the x that it belongs to
	name bool    // not a price: names stand in rows below those of the prices
	row  int
	path []float64 // the x of its line at the top of each row, its own last
}

// label is the text in its row, below a place.
func (t *tag) label(bottom float64) *note {
	const step = leaderTall + lead - 1
	return &note{text: t.text, x: t.path[len(t.path)-1], y: bottom + float64(t.row+1)*step - 3, align: centered, size: small}
}

// hang places tags, given from left to right, in as few rows as have room for them, and
// returns how many. The lines of lower rows pass between the texts of higher ones, so that
// no line crosses another or a text.
func hang(all []tag) (placed []tag, rows int) {
	const most = 6
	for names := 1; names <= most; names++ {
		for prices := 1; prices <= most; prices++ {
			if placed, rows, fits := hangIn(all, prices, names); fits || names == most && prices == most {
				return placed, rows
			}
		}
	}
	return nil, 0
}

// hangIn places tags in so many rows of prices and below them of names.
func hangIn(all []tag, prices, names int) (placed []tag, rows int, fits bool) {
	const apart, lineWidth = 5.0, 1.0
	placed = make([]tag, len(all))
	var counts [2]int
	kinds := [2]int{prices, names}
	for i, t := range all {
		kind := 0
		if t.name {
			kind = 1
		}
		t.row = counts[kind] % kinds[kind]
		if t.name && hasPrices(all) {
			t.row += prices
		}
		counts[kind]++
		rows = max(rows, t.row+1)
		placed[i] = t
	}
	for row := range rows {
		var wanted, widths []float64
		total := -apart
		for _, t := range placed {
			if t.row < row {
				continue
			}
			wide := lineWidth
			if t.row == row {
				wide = (&note{text: t.text, size: small}).width()
			}
			from := t.from
			if row > 0 {
				from = t.path[row-1]
			}
			wanted, widths = append(wanted, from), append(widths, wide)
			total += wide + apart
		}
		if total > acrossPx-1 {
			return placed, rows, false
		}
		next := 0
		places := spread(wanted, widths, apart, 0.5, acrossPx-0.5)
		for i := range placed {
			if t := &placed[i]; t.row >= row {
				t.path = append(t.path, places[next])
				next++
			}
		}
	}
	return placed, rows, true
}

func hasPrices(all []tag) bool {
	for _, t := range all {
		if !t.name {
			return true
		}
	}
	return false
}

// hung draws tags and their lines below a place.
func (c *canvas) hung(all []tag, bottom float64) {
	const step = leaderTall + lead - 1
	for _, t := range all {
		points := []point{{t.from, bottom}}
		for row, x := range t.path {
			y := bottom + float64(row)*step
			points = append(points, point{x, y + leaderTall})
			if row < t.row {
				points = append(points, point{x, y + step})
			}
		}
		c.stroke(points, black, thin, "")
		c.note(t.label(bottom))
	}
}
