package build_test

// Which test holds which rule of the figures. Sections are numbered as on the page "Figures explained"; 0 stands above all,
// 15 are the prompts, which the check prints.

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"guidegen/templates"
)

// rules lists, by section, a rule in few words and the tests that fail when it is broken: package, a dot, the test's name.
var rules = []struct {
	section int
	rule    string
	tests   string
}{
	{0, "found, looked for and nobody looked are three states", "build/page.TestThreeStatesEverywhere build/page.TestNothingExpectedWhereNobodyLooked"},
	{0, "two flights are never averaged", "rivers/season.TestTwoFlightsAreNeverAveraged build/figures.TestTwoFlightsAreNeverAveraged build/figures.TestNothingIsPooledOverTwoFlights"},
	{0, "every figure carries what it is based on", "build/page.TestModelsHoldNoBareNumbers build/page.TestEveryPageNamesItsFigures content.TestBasisIsInherited"},

	{1, "days run from 1 to 365, 29 February with the 28th", "content/calendar.TestDaysOfTheYear rivers/season.TestLeapDay"},
	{1, "the year is a circle", "content/calendar.TestTheCircle rivers/season.TestTheYearIsACircle rivers/season.TestFlightAcrossNewYear"},
	{1, "half-months part the year", "content/calendar.TestCellsPartTheYear content/calendar.TestMiddleOfACell"},
	{1, "a fly's year, and its name", "rivers/season.TestFlysYear rivers/season.TestSeasonOfAndItsName build/figures.TestSeasonsOfAWinterFlight"},
	{1, "early, mid, late and bare months", "content/calendar.TestParseDay content/calendar.TestParseWhen"},

	{2, "what a visit says of a fly", "build/guide.TestWhatAVisitSays build/guide.TestUnnamedFinds"},
	{2, "what counts as a find", "build/guide.TestWhatCounts"},
	{2, "methods are never pooled; catch rates are per standard effort", "rivers/season.TestProtocolsAreNotPooled rivers/season.TestRatesPerStandardEffort"},
	{2, "the same event counts once", "build/guide.TestSameEventCountsOnce rivers/season.TestPartsOfAVisitSumTheSameInAnyOrder"},

	{3, "the account's bell, and how flights join", "rivers/season.TestAgainstANaiveRewriting"},
	{3, "a missing peak lies in the middle, rounded towards the start", "rivers/season.TestMissingPeakIsRoundedTowardsTheStart"},
	{3, "a flight of one day", "rivers/season.TestOneDayFlightAcrossNewYear"},

	{4, "by warmth", "rivers/season.TestWarmth rivers/season.TestWarmingNeverDelaysASpringFlight"},
	{4, "by altitude and latitude", "rivers/season.TestAltitude"},
	{4, "the turn from spring to autumn", "rivers/season.TestTurn"},
	{4, "rounded once, then limited", "rivers/season.TestRounding"},
	{4, "not moved, and why", "rivers/season.TestWhyNotMoved"},
	{4, "rows further off than the rule reaches", "rivers/season.TestFarRows build/figures.TestFlightsTooFarOff"},
	{4, "nothing crosses the equator", "build/figures.TestNothingIsLentAcrossTheEquator"},
	{4, "softening keeps the year's sum", "rivers/season.TestSofteningKeepsTheYearsSum"},

	{5, "the kernel", "rivers/season.TestKernel"},
	{5, "the chance of a day", "rivers/season.TestOneVisit build/figures.TestChanceOfOneDayByHand rivers/season.TestNoEvidenceIsExactlyTheAccount"},
	{5, "effort against its standard", "rivers/season.TestEffort build/guide.TestEffortAgainstItsStandard"},
	{5, "the account's worth is measured", "rivers/season.TestTrustByHand build/figures.TestWorthOfAccounts"},
	{5, "many visits of one season", "rivers/season.TestOneYearSaysNoMoreThanFourVisits rivers/season.TestTheCapCountsSeasons"},
	{5, "what is lent, and how far it weighs", "rivers/season.TestLend rivers/season.TestLentNeverOutweighTheAccount rivers/season.TestEqualDistanceLendsByTheFirstFlight build/figures.TestReachOfLenders"},
	{5, "a month's range", "rivers/season.TestRangeByHand rivers/season.TestBetaQuantiles rivers/season.TestRangesHoldTheTruth content/demo.TestMadeHeld"},
	{5, "a fly that the list lacks", "rivers/season.TestAFlyFoundButNotListed"},
	{5, "not expected, and nobody looked", "rivers/season.TestNotExpectedIsBelowNotAt"},
	{5, "finds held until somebody has reviewed them", "rivers/season.TestHeldFinds build/figures.TestHeldFinds"},
	{5, "thin evidence", "rivers/season.TestThinEvidence build/figures.TestThinMonths"},

	{6, "which flight a record belongs to", "rivers/season.TestAssign"},
	{6, "weights and dates of the running sum", "rivers/season.TestMiddleDateByHand content/demo.TestMadeHeld rivers/season.TestTheEndsOfTheLine rivers/season.TestAShiftOfEightDays"},
	{6, "no middle date across a gap", "rivers/season.TestNoMiddleDateAcrossAGap"},
	{6, "how many visits and seasons dates need", "rivers/season.TestWhatFlightDatesNeed"},
	{6, "two flights where the account gives one", "rivers/season.TestGaps"},
	{6, "two waters by seasons on both", "rivers/season.TestCompareBySeasonsOnBoth rivers/season.TestCompareLeavesTornSeasonsOut"},

	{7, "on now", "rivers/season.TestOnNow"},
	{7, "starting and just over", "rivers/season.TestStartingComesBeforeJustOver"},
	{7, "building up and tailing off", "rivers/season.TestTendency"},
	{7, "no advice from a stray find, and to come from a flight's start", "rivers/season.TestBorne"},
	{7, "no word against the middle of a flight", "rivers/season.TestAgreed"},
	{7, "between flights", "rivers/season.TestBetweenFlights"},
	{7, "short flights in words", "rivers/season.TestShortFlights"},
	{7, "the order of flies", "rivers/season.TestOrder build/figures.TestThoseOnStandFirst build/figures.TestFliesAreListedInOneOrder"},
	{7, "a chance in thousandths rounds on as it would have rounded at once", "build/figures.TestPerMille"},
	{7, "one number for a fly and date, on pages as in the book", "build/page.TestTheScriptShowsWhatTheBookSays"},
	{7, "pages, data, card, trips, calendar and terminal say the same of every day", "cmd/guidegen.TestEverySurfaceSaysTheSame"},
	{7, "never now in a file", "build/page.TestNothingSaysNow build.TestPaperSaysNothingRelative"},

	{8, "sunrise and sunset", "rivers/daylight.TestAgainstEphemerides rivers/daylight.TestMeeusExample"},
	{8, "polar day and night", "rivers/daylight.TestPolarDaysAndNights"},
	{8, "hours of the very date, by the water's clock", "build/figures.TestHoursOnTheVeryDate build/figures.TestTheSunNeedsAClock"},

	{9, "body and overall are never pooled", "build/figures.TestBodyAndOverallStayApart"},
	{9, "medians, and the hook's length", "build/figures.TestSizesAndHooks build/figures.TestFlightsThatSpeakForAMonth"},
	{9, "the body goes on the shank", "build/figures.TestTheBodyGoesOnTheShank build/figures.TestTenBodiesReplaceTheShare build/guide.TestSharesOfTheLengthOverall"},
	{9, "the nearest shank, never past the end of the table", "species/hook.TestSuggest species/hook.TestSuggestionProperties"},
	{9, "which models serve", "species/hook.TestModelsServe"},
	{9, "steps to the book's size; real order of sizes", "species/hook.TestSteps species/hook.TestSizesOrderByRealSize"},

	{10, "the yearly curve", "rivers/season.TestHarmonicFit rivers/season.TestFitFindsTheWave"},
	{10, "degree-days", "rivers/season.TestDegreeDaysZalom rivers/season.TestDegreeDaysMcMaster rivers/season.TestDegreeDaysByIntegration"},
	{10, "ahead or behind", "rivers/season.TestAheadAgainstTheSmoothCurve rivers/season.TestAheadAboveAThreshold rivers/season.TestAheadWithDaysMissing"},

	{11, "two stages side by side", "build/figures.TestWhatDiffersBetweenStages build/figures.TestDifferentRowsFirst"},
	{11, "who is a look-alike, and in which order", "species/key.TestWhoIsALookAlike build/figures.TestFearedPairsLead build/figures.TestNoOtherBuildUnlessWarnedOf"},
	{11, "flights that meet", "species/key.TestFlightsMeet"},
	{11, "told at a glance", "species/key.TestToldAtAGlance"},
	{11, "likeness", "species/key.TestLikenessWorkedByHand"},
	{11, "what separates and what helps", "species/key.TestLengthsSeparateOrHelp species/key.TestOrderOfSeparators"},
	{11, "verdicts", "species/key.TestVerdicts"},
	{11, "a key leads every specimen to itself", "species/key.TestKeyLeadsEverySpecimenToItself build/figures.TestKeysLeadToTheFly"},
	{11, "only what all in play can show is asked", "species/key.TestOnlyWhatAllCanShowIsAsked"},
	{11, "length and shade couplets", "species/key.TestLengthCoupletWorkedByHand species/key.TestShadeCouplets"},
	{11, "which question, and the order of looking", "species/key.TestGainOfQuinlansExample species/key.TestEasierWaysOfSeeingGoFirst species/key.TestTheOrderOfLooking"},
	{11, "both ways", "species/key.TestBothWays species/key.TestOneSideMayKeepAll"},
	{11, "the sieve", "build/page.TestSieveScriptAgreesWithTheKey"},

	{12, "CIEDE2000", "species/colour.TestDifferencePublishedPairs"},
	{12, "colours of names", "species/colour.TestLabOfNames species/colour.TestDifferenceOfNames"},

	{13, "stages that fish meet", "build/figures.TestOnlyStagesThatFishMeet"},
	{13, "a female that goes under water", "build/figures.TestLevelOfTheLayingFemale species/tying.TestNothingThatFloatsForAFemaleThatGoesUnder"},
	{13, "ruled out, with the reason", "species/tying.TestHabitsRuleOut species/tying.TestUnknownHabits species/tying.TestADressingOfTheOtherSexIsRuledOut species/tying.TestSizesRuleOut"},
	{13, "offered in three classes", "species/tying.TestClasses species/tying.TestClassesComeInOrder species/tying.TestKinIsOfferedSparingly"},
	{13, "what a water's rules allow", "species/tying.TestWhatTheRulesOfAWaterAllow"},
	{13, "the score", "species/tying.TestScoreOfTheRulesExample species/tying.TestScoreWorkedByHand species/tying.TestScoreIsSound"},

	{14, "species to be expected", "rivers/survey.TestChao2"},
	{14, "where one more visit would help most", "rivers/season.TestNarrowed build/figures.TestNext"},

	{15, "what each prompt says", "build/figures.TestWhatPromptsSay"},
	{15, "figures that nobody could mean", "build/guide.TestFiguresNobodyMeans build/guide.TestSignsOfLongitude build/guide.TestShanksInLine build/guide.TestSlippedLengths build/guide.TestBackwards"},

	{16, "each season left out in turn", "rivers/season.TestHowRightByHand rivers/season.TestLeftOutMeansLentOnesToo rivers/season.TestHowRightAgainstReckoning"},
	{16, "bands of chance", "rivers/season.TestBands"},

	{17, "flies to expect in a group", "rivers/season.TestSums"},
	{17, "the tying list is greedy", "species/tying.TestTripCases species/tying.TestTripIsSound build/figures.TestOwnDressingsGoFirst build/page.TestTripScriptAgreesWithTheFigures"},
	{17, "a short list holds the best class", "build/figures.TestShortListHoldsTheBestClass"},
	{17, "calendars say what dates are based on", "build/share.TestCalendarSaysWhatDatesRestOn"},
	{17, "what counts as a change", "build/share.TestChangesAreWhatAReaderCallsSo build/share.TestNoChangeWhereNoReaderSeesOne build/share.TestLimitsOfAChange"},
}

// Each rule names tests that are there, and each section of the page on figures has rules here.
func TestEveryRuleNamesItsTest(t *testing.T) {
	written := map[string]string{} // the tests of a package
	covered := map[string]bool{}
	for _, r := range rules {
		covered[fmt.Sprintf("t%d", r.section)] = true
		for _, name := range strings.Fields(r.tests) {
			at := strings.LastIndex(name, ".")
			pkg, test := name[:at], name[at+1:]
			if written[pkg] == "" {
				files, err := filepath.Glob(filepath.Join("..", filepath.FromSlash(pkg), "*_test.go"))
				require.NoError(t, err)
				for _, f := range files {
					text, err := os.ReadFile(f)
					require.NoError(t, err)
					written[pkg] += string(text)
				}
			}
			assert.Contains(t, written[pkg], "\nfunc "+test+"(t *testing.T) {", "%d: %s is held by no test %s", r.section, r.rule, name)
		}
		assert.NotEmpty(t, r.tests, r.rule)
	}
	text, err := templates.Files.ReadFile("words/en.yaml")
	require.NoError(t, err)
	var words struct{ Rules map[string]string }
	require.NoError(t, yaml.Unmarshal(text, &words))
	title := regexp.MustCompile(`^t\d+$`)
	for key, words := range words.Rules {
		if title.MatchString(key) {
			assert.True(t, covered[key], "no rule of %q names its test", words)
		}
	}
}
