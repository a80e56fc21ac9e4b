package star

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const root = "../.."

// floor lists the calculation packages; none may import another.
var floor = []string{"hydraulics", "drawdown", "pumpsizing", "icing", "transport", "biomass"}

type goPackage struct {
	ImportPath                         string
	Imports, TestImports, XTestImports []string
}

func packages(t *testing.T) (module string, all []goPackage) {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports,TestImports,XTestImports", "./...")
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	dec := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p goPackage
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	name := exec.Command("go", "list", "-m")
	name.Dir = root
	m, err := name.Output()
	if err != nil {
		t.Fatalf("go list -m: %v", err)
	}
	return strings.TrimSpace(string(m)), all
}

// faults returns every import, tests included, that breaks the star: units
// stands on the standard library, internal on units, a calculation package on
// units and internal.
func faults(module string, all []goPackage) []string {
	var out []string
	for _, p := range all {
		place := strings.TrimPrefix(p.ImportPath, module+"/")
		top, _, _ := strings.Cut(place, "/")
		for i, list := range [][]string{p.Imports, p.TestImports, p.XTestImports} {
			inTest := i > 0
			for _, imp := range list {
				rest, own := strings.CutPrefix(imp, module+"/")
				target, _, _ := strings.Cut(rest, "/")
				outside := !own && strings.Contains(strings.SplitN(imp, "/", 2)[0], ".")
				var bad bool
				switch {
				case top == "units":
					bad = own && target != "units" && !(inTest && target == "internal") || outside && !inTest
				case top == "internal":
					bad = own && target != "units" && target != "internal"
				case slices.Contains(floor, top):
					bad = own && target != "units" && target != "internal" && target != top
				default:
					out = append(out, p.ImportPath+" stands where no package belongs")
				}
				if bad {
					out = append(out, p.ImportPath+" imports "+imp)
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func TestImportsFormAStar(t *testing.T) {
	module, all := packages(t)
	for _, f := range faults(module, all) {
		t.Error(f)
	}
}

func TestFaultsAreSeen(t *testing.T) {
	for _, bad := range []goPackage{
		{ImportPath: "m/icing", Imports: []string{"m/transport"}},
		{ImportPath: "m/icing", XTestImports: []string{"m/biomass"}},
		{ImportPath: "m/units", Imports: []string{"m/internal/root"}},
		{ImportPath: "m/units", Imports: []string{"gonum.org/v1/gonum/stat"}},
		{ImportPath: "m/internal/root", Imports: []string{"m/hydraulics"}},
		{ImportPath: "m/extra", Imports: []string{"fmt"}},
	} {
		if len(faults("m", []goPackage{bad})) == 0 {
			t.Errorf("%+v passes", bad)
		}
	}
	good := goPackage{ImportPath: "m/icing", Imports: []string{"m/units", "m/internal/root", "gonum.org/v1/gonum/stat"}}
	if f := faults("m", []goPackage{good}); len(f) != 0 {
		t.Errorf("%+v: %v", good, f)
	}
}

func TestTopLevel(t *testing.T) {
	allowed := append([]string{"units", "examples", "internal", "README.md", "DEVELOPERS.md", "go.mod", "go.sum", "LICENSE", "CHANGELOG.md"}, floor...)
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(allowed, e.Name()) {
			t.Errorf("%s stands at the top level", e.Name())
		}
	}
}

func TestDirectDependencies(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	allowed := []string{"gonum.org/v1/gonum", "github.com/google/go-cmp", "github.com/stretchr/testify"}
	for line := range strings.Lines(string(data)) {
		f := strings.Fields(line)
		if len(f) < 2 || strings.Contains(line, "// indirect") || !strings.Contains(f[0], ".") {
			continue
		}
		if !slices.Contains(allowed, f[0]) {
			t.Errorf("go.mod requires %s directly", f[0])
		}
	}
}
