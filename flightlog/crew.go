package flightlog

import (
	"runtime"
	"sync"
)

// mostWorkers is where more parsers stop to pay: one at a time puts blocks together, which is up to a third of the
// work. It also bounds the memory beside the channels.
const mostWorkers = 4

// workersFor tells how many parsers to use for a text of a size; 0 means that nobody knows it.
func workersFor(size int64) int {
	if size > 0 && size < 2*chunkSize {
		return 1
	}
	return min(runtime.GOMAXPROCS(0), mostWorkers)
}

// crew reads a text with several parsers side by side. Each takes the chunk that is next in the text, and whoever
// finds the next block of the file ready puts it in its place, so that the order of the file is kept.
type crew struct {
	layout *layout
	join   *assembly

	in     sync.Mutex // of chunks and taken
	chunks *chunker
	taken  int // chunks so far

	out     sync.Mutex // of what follows
	moved   *sync.Cond // when placed has risen
	ready   map[int]*block
	placed  int // blocks so far
	placing bool
	free    []*block
}

// readAll parses the text and hands its blocks to join.
func readAll(chunks *chunker, l *layout, join *assembly, workers int) {
	c := &crew{layout: l, join: join, chunks: chunks, ready: map[int]*block{}}
	c.moved = sync.NewCond(&c.out)
	if workers == 1 {
		c.work(1)
		return
	}
	var group sync.WaitGroup
	for range workers {
		group.Go(func() { c.work(workers) })
	}
	group.Wait()
}

// work parses chunks until there are none.
func (c *crew) work(workers int) {
	p := parser{layout: c.layout}
	var buffer []byte
	for {
		b := c.blank()
		c.in.Lock()
		chunk, last := c.chunks.next(buffer)
		order := c.taken
		c.taken++
		c.in.Unlock()
		if len(chunk) == 0 {
			return
		}
		buffer = chunk
		c.wait(order - 2*workers)
		p.parse(chunk, last, b)
		b.order = order
		c.place(b)
	}
}

// blank gives an empty block, one that was used before where there is one.
func (c *crew) blank() *block {
	c.out.Lock()
	defer c.out.Unlock()
	if n := len(c.free); n > 0 {
		b := c.free[n-1]
		c.free = c.free[:n-1]
		return b
	}
	return newBlock(len(c.layout.plans))
}

// wait holds a parser back until a block is placed, so that none runs far ahead of a slow one.
func (c *crew) wait(order int) {
	c.out.Lock()
	defer c.out.Unlock()
	for c.placed <= order {
		c.moved.Wait()
	}
}

// place hands over a block. One worker at a time puts blocks in their places, the others go on parsing.
func (c *crew) place(b *block) {
	c.out.Lock()
	defer c.out.Unlock()
	c.ready[b.order] = b
	if c.placing {
		return
	}
	c.placing = true
	for b := c.ready[c.placed]; b != nil; b = c.ready[c.placed] {
		delete(c.ready, c.placed)
		c.out.Unlock()
		used := c.join.add(b)
		c.out.Lock()
		c.free = append(c.free, used...)
		c.placed++
		c.moved.Broadcast()
	}
	c.placing = false
}
