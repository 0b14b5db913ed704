package elect

// route is a way of payments: of one series to one producer under one limit. Many flips can
// go along it, each by an amount of its own.
type route struct {
	series         []float64
	pool, producer int

	moved       float64 // by set: how much of the series is added
	dot, weight float64 // by supergradient: the worth of the series and, where a stake is off, of a dollar in every scenario
	off         bool    // some stake is
}

// stakeOn is what a flip moves along a route.
type stakeOn struct {
	route      int // place in routes.all
	share, off float64
}

// routes are all ways of an operation's flips.
type routes struct {
	all    []route // as flips come
	byFlip [][]stakeOn
}

// prepare finds the routes of some flips.
func (r *routes) prepare(flips []Flip) {
	type way struct {
		series         *float64
		pool, producer int
	}
	places := map[way]int{}
	for _, flip := range flips {
		var stakes []stakeOn
		for _, c := range flip {
			for _, s := range c.Stakes {
				key := way{&c.Series[0], s.Pool, s.Producer}
				at, has := places[key]
				if !has {
					at = len(r.all)
					places[key], r.all = at, append(r.all, route{series: c.Series, pool: s.Pool, producer: s.Producer})
				}
				r.all[at].off = r.all[at].off || s.Off != 0
				stakes = append(stakes, stakeOn{at, s.Share, s.Off})
			}
		}
		r.byFlip = append(r.byFlip, stakes)
	}
}

// clear forgets what is moved.
func (r *routes) clear() {
	for i := range r.all {
		r.all[i].moved = 0
	}
}

// move adds an amount of a flip, 1 for the whole, to what is moved.
func (r *routes) move(k int, amount float64) {
	for _, s := range r.byFlip[k] {
		r.all[s.route].moved += amount * s.share
	}
}
