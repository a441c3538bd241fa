module fullfree

go 1.25.0

require (
	codeberg.org/go-fonts/liberation v0.6.0
	codeberg.org/go-pdf/fpdf v0.12.0
	github.com/ajstarks/svgo v0.0.0-20211024235047-1546f124cd8b
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/hashicorp/hcl/v2 v2.25.0
	github.com/spf13/pflag v1.1.0
	github.com/stretchr/testify v1.12.1
	github.com/zclconf/go-cty v1.19.0
	golang.org/x/image v0.40.0
	gonum.org/v1/gonum v0.17.0
)

require (
	github.com/agext/levenshtein v1.2.1 // indirect
	github.com/apparentlymart/go-textseg/v15 v15.0.0 // indirect
	github.com/apparentlymart/go-textseg/v17 v17.0.1 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/mitchellh/go-wordwrap v1.0.1 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/mod v0.35.0 // indirect
	golang.org/x/sync v0.20.0 // indirect
	golang.org/x/text v0.37.0 // indirect
	golang.org/x/tools v0.44.0 // indirect
)
