package paper

import (
	"guidegen/build/trial"
)

var demoBook = trial.Demo

type fakeSite = trial.Site
