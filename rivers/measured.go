package rivers

// What a length or a reading measures, in the words of a record.
const (
	Body             = "body length"
	Overall          = "overall length"
	WingLength       = "wing length"
	WaterTemperature = "water temperature"
)
