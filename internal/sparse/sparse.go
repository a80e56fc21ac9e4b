// Package sparse solves symmetric positive definite systems whose matrix is
// mostly zero, such as those of pipe networks.
//
// The pattern of the matrix is analysed once; values may then be factored and
// solved for many times without allocation. The factorization is L D Lᵀ without
// square roots or pivoting, after a minimum-degree ordering.
package sparse

import (
	"container/heap"
	"errors"
	"fmt"
	"math"
	"slices"
)

// ErrNotPositive marks a matrix that is not positive definite: in a network, a
// part that no fixed head holds.
var ErrNotPositive = errors.New("sparse: the matrix is not positive definite")

// Matrix is a symmetric matrix with a fixed pattern, its factor and workspace.
// One goroutine may use it at a time.
type Matrix struct {
	n    int
	perm []int // perm[k] is the row that is eliminated k-th
	inv  []int // inv[perm[k]] = k

	// Entries above the diagonal in elimination order, by column.
	start []int // of column k in row and value
	row   []int
	value []float64
	diag  []float64
	slot  map[[2]int]int // place in value of a pair of rows as given

	parent []int // elimination tree
	lstart []int // of column k in lrow and l
	lrow   []int
	l      []float64
	d      []float64

	work    []float64
	pattern []int
	flag    []int
	fill    []int
	rhs     []float64
}

// New analyses the pattern of an n by n matrix with nonzeros at the given pairs
// of rows off the diagonal; pairs may repeat and come in either order. All
// values start at zero.
func New(n int, pairs [][2]int) (*Matrix, error) {
	m := &Matrix{n: n, slot: map[[2]int]int{}}
	near := make([]map[int]bool, n)
	for i := range near {
		near[i] = map[int]bool{}
	}
	for _, p := range pairs {
		i, j := p[0], p[1]
		if i < 0 || j < 0 || i >= n || j >= n || i == j {
			return nil, fmt.Errorf("sparse: pair %d, %d is not off the diagonal of a matrix of %d rows", i, j, n)
		}
		near[i][j], near[j][i] = true, true
	}
	m.order(near)
	m.place(near)
	m.symbolic()
	m.work, m.rhs = make([]float64, n), make([]float64, n)
	m.pattern, m.flag, m.fill = make([]int, n), make([]int, n), make([]int, n)
	return m, nil
}

// order chooses the elimination order: always a row with the fewest neighbours
// left, the lowest first.
func (m *Matrix) order(near []map[int]bool) {
	graph := make([]map[int]bool, m.n)
	queue := &byDegree{}
	for i := range near {
		graph[i] = make(map[int]bool, len(near[i]))
		for j := range near[i] {
			graph[i][j] = true
		}
		heap.Push(queue, degree{len(near[i]), i})
	}
	m.perm, m.inv = make([]int, 0, m.n), make([]int, m.n)
	for len(m.perm) < m.n {
		next := heap.Pop(queue).(degree)
		v := next.row
		if graph[v] == nil || len(graph[v]) != next.degree { // out of date
			continue
		}
		m.inv[v] = len(m.perm)
		m.perm = append(m.perm, v)
		around := sorted(graph[v])
		for _, i := range around { // the neighbours become a clique
			delete(graph[i], v)
			for _, j := range around {
				if i != j {
					graph[i][j] = true
				}
			}
			heap.Push(queue, degree{len(graph[i]), i})
		}
		graph[v] = nil
	}
}

// degree is a row with the number of its neighbours when it was queued.
type degree struct{ degree, row int }

// byDegree is a heap of rows, fewest neighbours first, then lowest.
type byDegree []degree

func (q byDegree) Len() int { return len(q) }
func (q byDegree) Less(i, j int) bool {
	return q[i].degree < q[j].degree || q[i].degree == q[j].degree && q[i].row < q[j].row
}
func (q byDegree) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *byDegree) Push(x any)   { *q = append(*q, x.(degree)) }
func (q *byDegree) Pop() any {
	last := len(*q) - 1
	d := (*q)[last]
	*q = (*q)[:last]
	return d
}

func sorted(set map[int]bool) []int {
	out := make([]int, 0, len(set))
	for i := range set {
		out = append(out, i)
	}
	slices.Sort(out)
	return out
}

// place lays the upper triangle out by column in elimination order.
func (m *Matrix) place(near []map[int]bool) {
	m.start = make([]int, m.n+1)
	for k, v := range m.perm {
		for _, j := range sorted(near[v]) {
			if i := m.inv[j]; i < k {
				m.slot[[2]int{min(v, j), max(v, j)}] = len(m.row)
				m.row = append(m.row, i)
			}
		}
		m.start[k+1] = len(m.row)
	}
	m.value, m.diag = make([]float64, len(m.row)), make([]float64, m.n)
}

// symbolic finds the elimination tree and the size of every column of L: row k
// of L is what the tree paths from the entries of column k of the matrix pass.
func (m *Matrix) symbolic() {
	m.parent = make([]int, m.n)
	count, flag := make([]int, m.n), make([]int, m.n)
	for k := range m.n {
		m.parent[k], flag[k] = -1, k
		for p := m.start[k]; p < m.start[k+1]; p++ {
			for i := m.row[p]; flag[i] != k; i = m.parent[i] {
				if m.parent[i] < 0 {
					m.parent[i] = k
				}
				count[i]++
				flag[i] = k
			}
		}
	}
	m.lstart = make([]int, m.n+1)
	for k, c := range count {
		m.lstart[k+1] = m.lstart[k] + c
	}
	m.lrow, m.l = make([]int, m.lstart[m.n]), make([]float64, m.lstart[m.n])
	m.d = make([]float64, m.n)
}

// Slot returns the handle of the entry at rows i and j for [Matrix.Add], or -1
// when the pattern has none.
func (m *Matrix) Slot(i, j int) int {
	if s, ok := m.slot[[2]int{min(i, j), max(i, j)}]; ok {
		return s
	}
	return -1
}

// Clear sets all values to zero.
func (m *Matrix) Clear() {
	clear(m.value)
	clear(m.diag)
}

// AddDiagonal adds v to the diagonal at row i.
func (m *Matrix) AddDiagonal(i int, v float64) { m.diag[m.inv[i]] += v }

// Add adds v to the entry with the given slot and to its mirror image.
func (m *Matrix) Add(slot int, v float64) { m.value[slot] += v }

// Factor computes L and D from the values. It returns ErrNotPositive when a
// pivot is not above zero.
func (m *Matrix) Factor() error {
	for i := range m.flag {
		m.flag[i] = -1
	}
	clear(m.fill)
	for k := range m.n {
		// Scatter column k and list, in tree order, the columns it touches.
		top := m.n
		m.work[k], m.flag[k] = 0, k
		for p := m.start[k]; p < m.start[k+1]; p++ {
			i := m.row[p]
			m.work[i] += m.value[p]
			length := 0
			for ; m.flag[i] != k; i = m.parent[i] {
				m.pattern[length] = i
				length++
				m.flag[i] = k
			}
			for length > 0 {
				length--
				top--
				m.pattern[top] = m.pattern[length]
			}
		}
		pivot := m.diag[k]
		for _, i := range m.pattern[top:] {
			y := m.work[i]
			m.work[i] = 0
			end := m.lstart[i] + m.fill[i]
			for p := m.lstart[i]; p < end; p++ {
				m.work[m.lrow[p]] -= m.l[p] * y
			}
			lki := y / m.d[i]
			pivot -= lki * y
			m.lrow[end], m.l[end] = k, lki
			m.fill[i]++
		}
		if !(pivot > 0) || math.IsInf(pivot, 1) {
			clear(m.work)
			return fmt.Errorf("%w: pivot %g at row %d", ErrNotPositive, pivot, m.perm[k])
		}
		m.d[k] = pivot
	}
	return nil
}

// Solve replaces b by the solution x of A x = b, with the factor of the last
// [Matrix.Factor].
func (m *Matrix) Solve(b []float64) {
	x := m.rhs
	for k, v := range m.perm {
		x[k] = b[v]
	}
	for k := range m.n {
		for p := m.lstart[k]; p < m.lstart[k+1]; p++ {
			x[m.lrow[p]] -= m.l[p] * x[k]
		}
	}
	for k := m.n - 1; k >= 0; k-- {
		x[k] /= m.d[k]
		for p := m.lstart[k]; p < m.lstart[k+1]; p++ {
			x[k] -= m.l[p] * x[m.lrow[p]]
		}
	}
	for k, v := range m.perm {
		b[v] = x[k]
	}
}
