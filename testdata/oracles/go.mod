module millmaths.example/oracles

go 1.25.0

require (
	golang.org/x/text v0.40.0
	gonum.org/v1/gonum v0.17.0
	millmaths.example v0.0.0
)

require (
	github.com/pelletier/go-toml/v2 v2.4.3 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
)

replace millmaths.example => ../..
