package calc

// A Warning says that a result stands, but is less certain than it looks.
type Warning struct {
	Code string // stable, for programs: "air-filled"
	Text string // for people
}

// Warnings are the warnings of one result. A calculation keeps its warnings as package
// variables, so that giving one costs nothing.
type Warnings []*Warning

var moreRoots = Warning{"several-roots", "there can be more values of the input than the roots here: they lie closer together than the search goes"}

// A Caution says that somebody could be hurt. It is shown with every result.
type Caution struct {
	Code string // stable, for programs: "heavy-reel"
	Text string // for people
}

// Cautions shared by several calculations.
var (
	HeavyReel = Caution{"heavy-reel", "A reel can weigh tonnes, and it rolls: keep clear of moving reels and winder nips; " +
		"handling and guarding follow local codes and the mill's own safety rules."}
	ConfinedSpace = Caution{"confined-space", "A pulper or chest is a confined space with moving parts, and stock at rest gives off hydrogen sulphide: " +
		"no entry without a permit; local codes and licensed practice come first."}
	Chemicals = Caution{"chemicals", "Papermaking chemicals and their dust can burn, poison or explode: " +
		"follow the safety data sheet, local codes and licensed practice."}
	MovingMachine = Caution{"moving-machine", "Nips, rolls, discs, knives, wires and running webs draw in, cut and maim, a jet cuts too, and what was switched off coasts on: " +
		"guards stay on; measuring, threading and opening follow isolation, local codes and the mill's own safety rules."}
	Steam = Caution{"steam", "Steam, hot condensate and hot starch scald, and lines and vessels under pressure hammer and burst: " +
		"local codes for pressure equipment and licensed practice come first."}
	HotLiquid = Caution{"hot-liquid", "Hot stock and water scald and can spurt when streams meet: " +
		"keep lines and vents guarded; local codes and licensed practice come first."}
	StarchDust = Caution{"starch-dust", "Dust of starch and of other powders explodes in air: keep it down, keep sparks and flames away; " +
		"local codes and licensed practice come first."}
	LabChemicals = Caution{"lab-chemicals", "Reagents and samples can harm skin, eyes and lungs: " +
		"follow the safety data sheet, the laboratory's own rules, local codes and licensed practice."}
)
