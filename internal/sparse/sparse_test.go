package sparse

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// random draws a positive definite matrix of n rows with about degree
// neighbours a row, sparse and dense.
func random(t *testing.T, rnd *rand.Rand, n, degree int) (*Matrix, *mat.SymDense) {
	t.Helper()
	var pairs [][2]int
	for i := range n {
		for range degree {
			if j := rnd.IntN(n); j != i {
				pairs = append(pairs, [2]int{i, j})
			}
		}
	}
	m, err := New(n, pairs)
	if err != nil {
		t.Fatal(err)
	}
	dense := mat.NewSymDense(n, nil)
	for _, p := range pairs {
		v := rnd.Float64()
		m.Add(m.Slot(p[0], p[1]), -v)
		dense.SetSym(p[0], p[1], dense.At(p[0], p[1])-v)
		for _, i := range p {
			m.AddDiagonal(i, v)
			dense.SetSym(i, i, dense.At(i, i)+v)
		}
	}
	for i := range n {
		v := 0.01 + rnd.Float64()
		m.AddDiagonal(i, v)
		dense.SetSym(i, i, dense.At(i, i)+v)
	}
	return m, dense
}

func TestSolveAgreesWithDense(t *testing.T) {
	rnd := rand.New(rand.NewPCG(8, 9))
	for range 60 {
		n := 1 + rnd.IntN(60)
		m, dense := random(t, rnd, n, rnd.IntN(4))
		b := make([]float64, n)
		for i := range b {
			b[i] = rnd.NormFloat64()
		}
		var chol mat.Cholesky
		if !chol.Factorize(dense) {
			t.Fatal("the dense matrix is not positive definite")
		}
		var want mat.VecDense
		if err := chol.SolveVecTo(&want, mat.NewVecDense(n, append([]float64(nil), b...))); err != nil {
			t.Fatal(err)
		}
		if err := m.Factor(); err != nil {
			t.Fatal(err)
		}
		m.Solve(b)
		for i := range b {
			if math.Abs(b[i]-want.AtVec(i)) > 1e-11*(1+math.Abs(want.AtVec(i))) {
				t.Fatalf("n %d: x[%d] = %g, dense %g", n, i, b[i], want.AtVec(i))
			}
		}
	}
}

func TestFactorTwiceAndAllocateNothing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	m, _ := random(t, rnd, 50, 2)
	b := make([]float64, 50)
	if n := testing.AllocsPerRun(20, func() {
		if err := m.Factor(); err != nil {
			t.Fatal(err)
		}
		b[0] = 1
		m.Solve(b)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestSingularAndBadPairs(t *testing.T) {
	m, err := New(3, [][2]int{{0, 1}, {1, 2}})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range [][2]int{{0, 1}, {1, 2}} { // a Laplacian without a fixed row
		m.Add(m.Slot(p[0], p[1]), -1)
		m.AddDiagonal(p[0], 1)
		m.AddDiagonal(p[1], 1)
	}
	if err := m.Factor(); !errors.Is(err, ErrNotPositive) {
		t.Errorf("a floating network factors: %v", err)
	}
	m.AddDiagonal(0, 1)
	if err := m.Factor(); err != nil {
		t.Errorf("after a failure: %v", err)
	}
	if m.Slot(0, 2) != -1 {
		t.Error("a slot outside the pattern")
	}
	for _, p := range [][2]int{{0, 0}, {0, 3}, {-1, 0}} {
		if _, err := New(3, [][2]int{p}); err == nil {
			t.Errorf("pair %v accepted", p)
		}
	}
}

// A tree has no fill: L holds as many entries as the tree has edges.
func TestTreeHasNoFill(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 2))
	var pairs [][2]int
	for i := 1; i < 300; i++ {
		pairs = append(pairs, [2]int{i, rnd.IntN(i)})
	}
	m, err := New(300, pairs)
	if err != nil {
		t.Fatal(err)
	}
	if len(m.l) != 299 {
		t.Errorf("%d entries in L for a tree of 299 edges", len(m.l))
	}
}
