package delaunay

// Inside returns the triangles inside the rings: those that an even-odd count
// of ring edges on the way out from them calls inside, so that a ring within a
// ring is a hole. Without a ring it is every triangle.
func (t *Triangulation) Inside() [][3]int32 {
	ring := false
	for _, f := range t.forced {
		ring = ring || f.ring
	}
	if !ring {
		return t.Triangles()
	}
	const unseen = 2
	side := make([]uint8, len(t.origin)/3) // 0 outside, 1 inside
	for i := range side {
		side[i] = unseen
	}
	var queue []int32
	for e := int32(0); e < int32(len(t.origin)); e += 3 {
		if t.ghost(e) >= 0 {
			side[e/3] = 0
			queue = append(queue, e)
		}
	}
	for len(queue) > 0 {
		e := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		for i := e; i < e+3; i++ {
			f := t.twin[i]
			if side[f/3] != unseen {
				continue
			}
			s := side[e/3]
			if t.forced[key(t.origin[i], t.origin[next(i)])].ring {
				s ^= 1
			}
			side[f/3] = s
			queue = append(queue, f-f%3)
		}
	}
	var out [][3]int32
	for e := 0; e < len(t.origin); e += 3 {
		if side[e/3] == 1 {
			out = append(out, [3]int32{t.origin[e], t.origin[e+1], t.origin[e+2]})
		}
	}
	return out
}
