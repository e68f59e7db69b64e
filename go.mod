module planset

go 1.26.8

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/go-pdf/fpdf v0.9.0
	github.com/klippa-app/go-pdfium v1.21.4
	github.com/pdfcpu/pdfcpu v0.15.0
	github.com/stretchr/testify v1.12.1
	golang.org/x/image v0.44.0
)

require (
	github.com/clipperhouse/uax29/v2 v2.7.0 // indirect
	github.com/google/uuid v1.6.0 // indirect
	github.com/hhrutter/tiff v1.0.6 // indirect
	github.com/jolestar/go-commons-pool/v2 v2.1.2 // indirect
	github.com/mattn/go-runewidth v0.0.27 // indirect
	github.com/tetratelabs/wazero v1.12.0 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/crypto v0.57.0 // indirect
	golang.org/x/sys v0.48.0 // indirect
	golang.org/x/text v0.43.0 // indirect
)
