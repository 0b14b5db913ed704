package scenario

import (
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Of so many scenarios and more, prices and county yields are not kept: what is made of
// them is made block by block, a block at a time, so that only the results take memory for
// every scenario. It takes longer, because a block makes the crop years before it anew.
const fewestInBlocks = 1 << 17

// blockScenarios is how many scenarios a block has.
const blockScenarios = 1 << 14

// InBlocks reports whether scenarios are made so: not those that depend on all others.
func (d *Year) InBlocks() bool {
	return d.Size.N() >= fewestInBlocks && !d.PastYears && !d.sampled
}

// replicates returns how many replicates of the scenarios a block has.
func (d *Year) replicates() int { return max(1, blockScenarios/d.Size.Points) }

// EachBlock calls do for the same crop year in one block of scenarios after the other, in
// their order; first is the first scenario of the block. With few scenarios that is the
// year itself. Series of a block do not outlive do.
func (d *Year) EachBlock(do func(block *Year, first int)) {
	if !d.InBlocks() {
		do(d, 0)
		return
	}
	for r := 0; r < d.Size.Replicates; r += d.replicates() {
		block, release := d.block(r)
		do(block, r*d.Size.Points)
		release()
	}
}

// FirstBlock returns the first block of scenarios, at least 16,384 where there are so many.
// Call release when done.
func (d *Year) FirstBlock() (block *Year, release func()) {
	if !d.InBlocks() {
		return d, func() {}
	}
	return d.block(0)
}

// PricesBefore returns PriceBefore of all scenarios. It may be shared: read it only. Call
// release when done.
func (d *Year) PricesBefore(c crop.Commodity) (prices []crop.Price, release func()) {
	if !d.InBlocks() {
		return d.PriceBefore(c), func() {}
	}
	d.EachBlock(func(block *Year, first int) {
		if one := block.PriceBefore(c); one != nil {
			if prices == nil {
				prices = d.Acquire()
			}
			copy(prices[first:], one)
		}
	})
	return prices, func() { d.Release(prices) }
}

// block returns the crop year in the block of scenarios that begins with a replicate.
func (d *Year) block(replicate int) (block *Year, release func()) {
	n := d.replicates()
	buffers := d.acquireBlock(d.Size.Part(replicate, n))
	part := &Paths{Sources: d.Sources, Buffers: buffers, extremesTogether: d.extremesTogether, sampled: d.sampled}
	part.sampler = func(y crop.CropYear) (*odds.Sampler, error) {
		whole, err := d.Year(y)
		if err != nil {
			return nil, err
		}
		return whole.Sampler.Part(replicate, n, buffers.Acquire), nil
	}
	block, err := part.Year(d.CropYear)
	if err != nil { // the whole year was made: its parts can be
		panic("sim/scenario: " + err.Error())
	}
	return block, func() { d.releaseBlock(buffers) }
}

// acquireBlock returns buffers for a block, those of an earlier one where there are any.
func (p *Paths) acquireBlock(size odds.Scenarios) *Buffers {
	p.blocks.Lock()
	defer p.blocks.Unlock()
	b := &Buffers{}
	if last := len(p.blocks.free) - 1; last >= 0 {
		b, p.blocks.free = p.blocks.free[last], p.blocks.free[:last]
	}
	b.Size, b.withoutErrors, b.keep = size, p.withoutErrors, true
	return b
}

// releaseBlock takes all series of a block back.
func (p *Paths) releaseBlock(b *Buffers) {
	b.free = append(b.free[:0], b.made...)
	p.blocks.Lock()
	defer p.blocks.Unlock()
	p.blocks.free = append(p.blocks.free, b)
}
