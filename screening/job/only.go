package job

// Only says which features of a file belong to a layer.
type Only struct {
	From       string   `yaml:"from"`
	AnyOf      []string `yaml:"any_of"`
	StartsWith []string `yaml:"starts_with"`
	// Others are the values that are known to be something else, "*" for all. With
	// them, a feature of any other value cannot be used.
	Others []string `yaml:"others"`
}

// AnyOther stands for every value that does not belong.
const AnyOther = "*"
