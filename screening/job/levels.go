package job

// Levels is what is known of water levels.
type Levels struct {
	Stations FileList      `yaml:"stations"` // tide stations: JSON of the tide service, or our own table
	Record   *RecordSource `yaml:"record"`   // of a gauge, observed; beats the predictions of the stations
	Accuracy Distance      `yaml:"accuracy"` // of the stations' datums, vertical at 95 %
	Oysters  string        `yaml:"oysters"`  // live oysters measured nearby
}

// RecordSource is a record of a gauge and what its table does not say.
type RecordSource struct {
	File  string `yaml:"file"`
	Unit  string `yaml:"unit"`
	Datum string `yaml:"datum"`
	Zone  string `yaml:"zone"`
	Epoch string `yaml:"epoch"` // of its datum, if that is a tidal one
}
