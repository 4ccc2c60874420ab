module millmaths.example

go 1.25.0

require (
	github.com/google/go-cmp v0.7.0
	github.com/shopspring/decimal v1.6.0
	github.com/spf13/pflag v1.1.0
	golang.org/x/image v0.30.0
	golang.org/x/text v0.40.0
	gonum.org/v1/gonum v0.17.0
)

require github.com/pelletier/go-toml/v2 v2.4.3
