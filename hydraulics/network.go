package hydraulics

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"pondwright.example/internal/sparse"
	"pondwright.example/units"
)

// NetworkNode is a place where lines meet: a junction whose head is sought, or
// a pond, sump or open end whose level is known.
type NetworkNode struct {
	Name   string        `json:"name"`
	Demand units.Flow    `json:"demand"`          // taken out of the network here; negative is put in
	Level  *units.Length `json:"level,omitempty"` // known head above the network's datum; nil is a junction
}

// NetworkLink is a line between two nodes. Flow from From to To is positive.
type NetworkLink struct {
	Name   string `json:"name"`
	From   string `json:"from"`
	To     string `json:"to"`
	Line   Line   `json:"-"`               // built, so not in JSON: a Pipeline with zero Lift, a Series, a SquareLine ...
	OneWay bool   `json:"oneWay,omitzero"` // a check valve lets no flow back from To to From
}

// NetworkSpec describes a branched or looped network.
type NetworkSpec struct {
	Nodes []NetworkNode `json:"nodes"`
	Links []NetworkLink `json:"links"`
}

// Network is a validated network, safe to copy and to solve from many
// goroutines.
type Network struct{ n *network }

type network struct {
	spec  NetworkSpec
	from  []int // of each link, index into Nodes
	to    []int
	row   []int // of each node among the junctions, -1 where the level is known
	count int   // of junctions
	pairs [][2]int
}

// Validate reports every fault that can be told without solving, joined: names
// that are empty, repeated or unknown, links without a line or from a node to
// itself, no known level at all, and junctions that no line joins to one.
func (s NetworkSpec) Validate() error {
	_, err := newNetwork(s)
	return err
}

// NewNetwork validates spec and builds the network.
func NewNetwork(spec NetworkSpec) (Network, error) {
	n, err := newNetwork(spec)
	if err != nil {
		return Network{}, err
	}
	return Network{n}, nil
}

func newNetwork(s NetworkSpec) (*network, error) {
	const fn = "hydraulics.NetworkSpec"
	fault := func(field, reason string) error {
		return &units.InputError{Func: fn, Field: field, Value: math.NaN(), Reason: reason}
	}
	var errs []error
	index := map[string]int{}
	n := &network{spec: NetworkSpec{slices.Clone(s.Nodes), slices.Clone(s.Links)}}
	for i, node := range s.Nodes {
		field := fmt.Sprintf("nodes[%d]", i)
		if _, twice := index[node.Name]; twice || node.Name == "" {
			errs = append(errs, fault(field+".name", fmt.Sprintf("%q is empty or used twice", node.Name)))
		}
		index[node.Name] = i
		errs = append(errs, units.Finite(fn, field+".demand", node.Demand.CubicMetresPerSecond(), "m3/s"))
		n.row = append(n.row, -1)
		if node.Level == nil {
			n.row[i] = n.count
			n.count++
			continue
		}
		level := *node.Level
		n.spec.Nodes[i].Level = &level
		errs = append(errs, units.Finite(fn, field+".level", level.Metres(), "m"))
	}
	if n.count == len(s.Nodes) {
		errs = append(errs, fault("nodes", "no node has a known level: heads float"))
	}
	names := map[string]bool{}
	for i, l := range s.Links {
		field := fmt.Sprintf("links[%d]", i)
		if l.Name == "" || names[l.Name] {
			errs = append(errs, fault(field+".name", fmt.Sprintf("%q is empty or used twice", l.Name)))
		}
		names[l.Name] = true
		from, okFrom := index[l.From]
		to, okTo := index[l.To]
		switch {
		case !okFrom:
			errs = append(errs, fault(field+".from", fmt.Sprintf("no node is named %q", l.From)))
		case !okTo:
			errs = append(errs, fault(field+".to", fmt.Sprintf("no node is named %q", l.To)))
		case from == to:
			errs = append(errs, fault(field+".to", "the link ends where it begins"))
		}
		if l.Line == nil {
			errs = append(errs, fault(field+".line", "missing"))
		}
		n.from, n.to = append(n.from, from), append(n.to, to)
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	if lost := n.unreached(); len(lost) > 0 {
		return nil, fault("nodes", "no line joins these junctions to a known level: "+strings.Join(lost, ", "))
	}
	for k := range n.from {
		if i, j := n.row[n.from[k]], n.row[n.to[k]]; i >= 0 && j >= 0 {
			n.pairs = append(n.pairs, [2]int{i, j})
		}
	}
	return n, nil
}

// unreached returns the names of the nodes that no chain of links joins to a
// known level.
func (n *network) unreached() []string {
	seen := make([]bool, len(n.row))
	next := make([][]int, len(n.row))
	for k := range n.from {
		next[n.from[k]] = append(next[n.from[k]], n.to[k])
		next[n.to[k]] = append(next[n.to[k]], n.from[k])
	}
	var stack []int
	for i, row := range n.row {
		if row < 0 {
			seen[i] = true
			stack = append(stack, i)
		}
	}
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, j := range next[i] {
			if !seen[j] {
				seen[j] = true
				stack = append(stack, j)
			}
		}
	}
	var lost []string
	for i, ok := range seen {
		if !ok {
			lost = append(lost, n.spec.Nodes[i].Name)
		}
	}
	return lost
}

// NetworkState is a solved network. Nodes and Links are in the order of the
// spec.
type NetworkState struct {
	Nodes      []NodeState    `json:"nodes"`
	Links      []LinkState    `json:"links"`
	Iterations int            `json:"iterations"`
	Notices    []units.Notice `json:"notices,omitempty"` // of the links that are pipelines, as Pipeline.At gives them
}

// NodeState is one node of a solved network.
type NodeState struct {
	Name   string       `json:"name"`
	Head   units.Length `json:"head"`
	Supply units.Flow   `json:"supply,omitzero"` // put into the network at a known level; zero at a junction
}

// LinkState is one link of a solved network.
type LinkState struct {
	Name   string       `json:"name"`
	Flow   units.Flow   `json:"flow"`
	Head   units.Length `json:"head"`            // head at From less head at To
	Closed bool         `json:"closed,omitzero"` // a one-way link that holds against the head
}

const (
	networkSteps = 200
	networkTol   = 1e-13 // of the greatest flow
	networkFloor = 1e-10 // of the greatest flow, once steps no longer shrink
	leastSlope   = 1e-6  // s/m2, for lines that resist nothing near zero flow
	shutSlope    = 1e10  // s/m2, of a closed check: 1e-9 m3/s at 10 m
)

// Solve finds the heads and flows at which every junction's flow balances and
// every link's head is that of its line.
//
// Equation: Newton's method on heads and flows together; each step solves
// Σ (H_i - H_j)/h'_k = -(demand + Σ (q - h/h')) for the heads.
//
// Accuracy: flows to 1e-10 of the greatest or better; junctions balance to
// rounding.
//
// Errors: ErrNoConvergence after 200 steps; ErrNoSolution when no flows balance.
//
// Source: Todini & Pilati 1988, A gradient algorithm for the analysis of pipe
// networks.
func (w Network) Solve() (NetworkState, error) {
	const fn = "hydraulics.Network.Solve"
	if w.n == nil {
		return NetworkState{}, &units.InputError{Func: fn, Field: "network", Value: math.NaN(), Reason: "build it with NewNetwork"}
	}
	n := w.n
	m, err := sparse.New(n.count, n.pairs)
	if err != nil {
		return NetworkState{}, fmt.Errorf("%s: %w", fn, err)
	}
	s := newNetworkSolver(n, m)
	last := math.Inf(1)
	for step := 1; step <= networkSteps; step++ {
		moved, scale, err := s.step()
		if err != nil {
			return NetworkState{}, fmt.Errorf("%s: %w: %w", fn, units.ErrNoSolution, err)
		}
		// Done, or down to the rounding of the heads.
		if moved <= networkTol*scale || moved <= networkFloor*scale && moved > last/2 {
			return s.state(step), nil
		}
		last = moved
	}
	return NetworkState{}, &units.InputError{Func: fn, Field: "iterations", Value: networkSteps,
		Reason: "the flows did not settle: look for a pump whose curve rises or check valves that work against each other",
		Kind:   units.ErrNoConvergence}
}

type networkSolver struct {
	n           *network
	m           *sparse.Matrix
	slot        []int
	heads       []float64
	flows       []float64
	target      []float64 // flow of each link at the present heads
	conductance []float64
	out         []float64 // imbalance of each junction, then its change of head
}

func newNetworkSolver(n *network, m *sparse.Matrix) *networkSolver {
	s := &networkSolver{n: n, m: m, heads: make([]float64, len(n.row)), out: make([]float64, n.count)}
	known, levels := 0, 0.0
	for _, node := range n.spec.Nodes {
		if node.Level != nil {
			known++
			levels += node.Level.Metres()
		}
	}
	for i, node := range n.spec.Nodes {
		s.heads[i] = levels / float64(known)
		if node.Level != nil {
			s.heads[i] = node.Level.Metres()
		}
	}
	for k, l := range n.spec.Links {
		slot := -1
		if i, j := n.row[n.from[k]], n.row[n.to[k]]; i >= 0 && j >= 0 {
			slot = m.Slot(i, j)
		}
		s.slot = append(s.slot, slot)
		s.flows = append(s.flows, math.Min(float64(l.Line.Flow(l.Line.Head(0)+1)), 1e3)) // of one metre of head
	}
	s.target, s.conductance = make([]float64, len(s.flows)), make([]float64, len(s.flows))
	return s
}

// law returns head and slope of link k at flow q.
func (s *networkSolver) law(k int, q float64) (h, slope float64) {
	l := &s.n.spec.Links[k]
	if l.OneWay && q < 0 {
		h, _ = l.Line.lineLoss(0)
		return h + shutSlope*q, shutSlope
	}
	h, slope = l.Line.lineLoss(q)
	return h, max(slope, leastSlope)
}

// step makes one Newton step and returns how far the flows moved and the
// greatest of them.
func (s *networkSolver) step() (moved, scale float64, err error) {
	n := s.n
	s.m.Clear()
	for i, node := range n.spec.Nodes {
		if r := n.row[i]; r >= 0 {
			s.out[r] = -node.Demand.CubicMetresPerSecond()
		}
	}
	for k, q := range s.flows {
		i, j := n.from[k], n.to[k]
		h, slope := s.law(k, q)
		c := 1 / slope
		s.conductance[k] = c
		s.target[k] = q + c*(s.heads[i]-s.heads[j]-h)
		ri, rj := n.row[i], n.row[j]
		if ri >= 0 {
			s.out[ri] -= s.target[k]
			s.m.AddDiagonal(ri, c)
		}
		if rj >= 0 {
			s.out[rj] += s.target[k]
			s.m.AddDiagonal(rj, c)
		}
		if ri >= 0 && rj >= 0 {
			s.m.Add(s.slot[k], -c)
		}
	}
	if err := s.m.Factor(); err != nil {
		return 0, 0, err
	}
	s.m.Solve(s.out)
	for i, r := range n.row {
		if r >= 0 {
			s.heads[i] += s.out[r]
		}
	}
	for k := range s.flows {
		q := s.target[k]
		if r := n.row[n.from[k]]; r >= 0 {
			q += s.conductance[k] * s.out[r]
		}
		if r := n.row[n.to[k]]; r >= 0 {
			q -= s.conductance[k] * s.out[r]
		}
		if math.IsNaN(q) || math.IsInf(q, 0) {
			return 0, 0, fmt.Errorf("the flow of link %q runs away", n.spec.Links[k].Name)
		}
		moved = max(moved, math.Abs(q-s.flows[k]))
		scale = max(scale, math.Abs(q))
		s.flows[k] = q
	}
	return moved, max(scale, 1e-300), nil
}

func (s *networkSolver) state(steps int) NetworkState {
	out := NetworkState{Iterations: steps}
	supply := make([]float64, len(s.heads))
	for k, l := range s.n.spec.Links {
		q, i, j := s.flows[k], s.n.from[k], s.n.to[k]
		supply[i] += q
		supply[j] -= q
		out.Links = append(out.Links, LinkState{l.Name, units.Flow(q), units.Length(s.heads[i] - s.heads[j]), l.OneWay && q <= 0})
		if line, ok := l.Line.(Pipeline); ok {
			out.Notices = append(out.Notices, line.noticesAt(units.Flow(q), fmt.Sprintf("links[%d].", k))...)
		}
	}
	for i, node := range s.n.spec.Nodes {
		state := NodeState{Name: node.Name, Head: units.Length(s.heads[i])}
		if node.Level != nil {
			state.Supply = units.Flow(supply[i]) + node.Demand
		}
		out.Nodes = append(out.Nodes, state)
	}
	return out
}
