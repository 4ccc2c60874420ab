module millmaths.example/examples/browser

go 1.25.0

require (
	github.com/andybalholm/brotli v1.2.3
	millmaths.example v0.0.0
)

require (
	github.com/shopspring/decimal v1.6.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace millmaths.example => ../..
