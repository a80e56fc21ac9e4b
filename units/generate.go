package units

//go:generate go run pondwright.example/internal/unitgen
//go:generate go run pondwright.example/internal/check/sources .
