package units

//go:generate go run pondwright.example/internal/unitgen
