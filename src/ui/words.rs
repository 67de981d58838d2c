//! The words of the app: what the engine's answers are called on a screen.
//!
//! Short, plain, the trade's own. A sentence that warns says why and then what to do.

pub mod holes;
pub mod layout;
pub mod plan;
pub mod setup;

use crate::{
    engine::{
        answer::{
            Assumed, Because, Caution, Change, Concession, Limit, Reading, State, Trouble, Verdict,
        },
        convert::hardness::Scale,
        cutters::ToolMaterial,
        drills::Family,
        experience::Felt,
        machine::Class,
        pace::{Beat, Work},
        quantity::{Duration, Length, System, rounding},
        question::{Coolant, Feeding, Field, Holder, Style},
        source::sources_of,
        stock::{Fluid, IsoGroup},
    },
    shop::converter::Quantity,
};

/// A sentence that says what is the matter, and one that says what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advice {
    /// What is the matter, and why.
    pub why: String,
    /// What to do; may be empty.
    pub act: String,
}

fn advice(why: impl Into<String>, act: impl Into<String>) -> Advice {
    Advice { why: why.into(), act: act.into() }
}

fn length(value: Length, system: System) -> String {
    rounding::length(value, system).to_string()
}

fn chip(value: Length, system: System) -> String {
    rounding::chip(value, system).to_string()
}

/// The words of a table row as a sentence.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .map_or_else(String::new, |first| format!("{}{}.", first.to_uppercase(), letters.as_str()))
}

/// The label of a field.
#[must_use]
pub fn field(field: Field) -> &'static str {
    match field {
        Field::Machine => "Mill",
        Field::Stock => "Stock",
        Field::Operation => "Operation",
        Field::CutterKind => "Cutter",
        Field::ToolMaterial => "Made of",
        Field::Diameter => "Diameter",
        Field::Teeth => "Flutes or teeth",
        Field::FluteLength => "Flute length",
        Field::Shank => "Shank diameter",
        Field::Stickout => "Out of the holder",
        Field::Helix => "Helix angle",
        Field::Tip => "Tip",
        Field::CornerRadius => "Corner radius",
        Field::EnteringAngle => "Entering angle",
        Field::PointAngle => "Point angle",
        Field::Thickness => "Blade thickness",
        Field::Pitch => "Thread pitch",
        Field::Width => "Width of cut",
        Field::Depth => "Depth, whole",
        Field::CutLength => "Length of cut",
        Field::Pilot => "Pilot hole",
        Field::Hole => "Hole diameter",
        Field::Holder => "Held in",
        Field::Runout => "Runout, full reading",
        Field::Feeding => "Feed direction",
        Field::Coolant => "On the cut",
        Field::Style => "How hard to push",
        Field::SpindleSpeed => "Spindle speed",
        Field::SurfaceSpeed => "Surface speed",
        Field::Feed => "Feed per tooth",
        Field::Chip => "Chip thickness",
        Field::Passes => "Passes",
        Field::CuttingForce => "Specific cutting force",
        Field::UnitPower => "Unit power",
        Field::MachineName => "What you call it",
        Field::Speeds => "Speeds",
        Field::LowestSpeed => "Lowest speed",
        Field::HighestSpeed => "Highest speed",
        Field::BaseSpeed => "Full power from",
        Field::Lead => "One turn moves",
        Field::Divisions => "Marks on the dial",
        Field::Backlash => "Backlash",
        Field::Power => "Power at the cutter",
        Field::Stiffness => "Stiffness",
        Field::TableDrag => "Table drag",
        Field::ComfortableRate => "Comfortable turning",
        Field::HighestRate => "Fastest steady turning",
        Field::Screw => "Screw",
        Field::Fit => "Fit",
        Field::FullThread => "Length of full thread",
        Field::TapChamfer => "Chamfer of the tap, threads",
        Field::Spare => "Spare depth for chips",
        Field::Plate => "Thickness of the plate",
        Field::Spot => "Spot diameter",
        Field::Chamfer => "Chamfer",
        Field::Counterbore => "Counterbore diameter",
        Field::CounterboreDepth => "Counterbore depth",
        Field::Countersink => "Countersink diameter",
        Field::Wire => "Wire",
        Field::OverWires => "Reading over the wires",
        Field::PitchDiameter => "Pitch diameter",
        Field::FlankAngle => "Angle between the flanks",
        Field::CardEdge => "Long edge of the card",
        Field::Thread => "Thread",
        Field::Percent => "Thread wanted",
        Field::MeasuredDiameter => "Measured over the crests",
        Field::MeasuredPitch => "Pitch",
        Field::ThreadsCounted => "Threads counted",
        Field::CountedOver => "Over a length of",
        Field::Line => "Number",
        Field::Pieces => "Pieces of your own, with blanks between",
        Field::BatchPieces => "Pieces",
        Field::PlanOperation => "Operation",
        Field::SetUpTime => "To set up, min",
        Field::CycleTime => "In the cut, s a piece",
        Field::LoadTime => "To load and unload, s a piece",
        Field::ToolChangeTime => "Tool changes, s a piece",
        Field::ScrapRisk => "Pieces it may spoil, %",
        Field::After => "Comes after",
        Field::Walk => "Walk between mills, s",
        Field::CheckTime => "To check the first piece, min",
        Field::Stands => "Set-ups that stay on its table",
        Field::Holes => "Holes",
        Field::Rows => "Rows",
        Field::Circle => "Diameter of the circle",
        Field::Radius => "Radius of the outline",
        Field::StartAngle => "Angle of the first hole",
        Field::StepAngle => "Angle from hole to hole",
        Field::Span => "Whole angle of the arc",
        Field::CentreX => "Centre, X",
        Field::CentreY => "Centre, Y",
        Field::StepX => "From hole to hole in X",
        Field::StepY => "From hole to hole in Y",
        Field::SizeX => "Width, in X",
        Field::SizeY => "Height, in Y",
        Field::Turned => "Turned about its centre",
        Field::Copies => "Turned copies, all the way round",
        Field::DatumX => "Datum in use, X on the drawing",
        Field::DatumY => "Datum in use, Y on the drawing",
        Field::SkewAlong => "From touch to touch, in X",
        Field::SkewOff => "Second touch further back, in Y",
        Field::PartX => "Part, in X",
        Field::PartY => "Part, in Y",
        Field::TableX => "Travel of the table, X",
        Field::TableY => "Travel of the table, Y",
        Field::PlaceX => "X",
        Field::PlaceY => "Y",
        Field::PlaceRadius => "Radius",
        Field::PlaceAngle => "Angle",
        Field::FinderTip => "Tip of the finder, diameter",
        Field::Face => "Where the face is to be",
        Field::Travel => "Travel from touch to touch",
        Field::JawHeight => "Height of the jaws",
        Field::PartHeight => "Height of the part",
        Field::PartWidth => "Width of the part between the jaws",
        Field::SideCut => "Depth of the cut down its side",
        Field::Air => "Air under the cut",
        Field::Grip => "Least grip",
        Field::ParallelThickness => "Thickness of a parallel",
        Field::ParallelHeight => "Height of the parallels",
        Field::HoleCentre => "Centre of the hole, from the fixed jaw",
        Field::Torque => "Torque on the nut",
        Field::BoltDiameter => "Diameter of the bolt",
        Field::NutFactor => "Nut factor K",
        Field::ToWork => "From bolt to work",
        Field::ToHeel => "From bolt to heel",
        Field::Straps => "Straps",
        Field::Friction => "Friction under the straps",
        Field::SafetyFactor => "Safety factor",
        Field::SideForce => "Cutting force",
        Field::LeftReading => "Reading at the left",
        Field::RightReading => "Reading at the right",
        Field::Sweep => "From reading to reading",
        Field::RowStep => "From row to row",
        Field::Pivot => "From pivot to moving bolt",
        Field::PartLength => "Length of the part",
        Field::Wall => "Where the wall is",
        Field::Allowance => "Left for the finish",
        Field::SlotWidth => "Width of the slot",
        Field::LargestPass => "Deepest pass",
        Field::FinishPass => "Last pass",
        Field::SineBar => "Length of the sine bar",
        Field::SineAngle => "Angle",
        Field::Room => "Table to the holder's nose, at most",
        Field::Stack => "Table to the top of the work",
    }
}

/// What a quantity of the converter is called.
#[must_use]
pub fn quantity(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Length => "Length",
        Quantity::Angle => "Angle, slope",
        Quantity::SurfaceSpeed => "Surface speed",
        Quantity::FeedRate => "Feed rate",
        Quantity::Feed => "Feed per tooth, turn",
        Quantity::RemovalRate => "Removal rate",
        Quantity::Power => "Power",
        Quantity::Torque => "Torque",
        Quantity::Force => "Force",
        Quantity::Stress => "Pressure, stress",
        Quantity::Mass => "Mass",
        Quantity::Temperature => "Temperature",
        Quantity::Volume => "Volume",
        Quantity::Flow => "Flow",
        Quantity::Hardness => "Hardness",
    }
}

/// What a scale of hardness is called.
#[must_use]
pub fn scale(scale: Scale) -> &'static str {
    match scale {
        Scale::Hrc => "Rockwell C",
        Scale::Hrb => "Rockwell B",
        Scale::Hb => "Brinell",
        Scale::Hv => "Vickers",
        Scale::Hra => "Rockwell A",
    }
}

/// What the drills of a family are called.
#[must_use]
pub fn drills(family: Family) -> &'static str {
    match family {
        Family::Number => "Number",
        Family::Letter => "Letter",
        Family::Fraction => "Fraction",
        Family::Metric => "Metric",
    }
}

/// What a limit is called.
#[must_use]
pub fn limit(limit: Limit) -> &'static str {
    match limit {
        Limit::Speed => "Surface speed",
        Limit::BodyCap => "Body speed",
        Limit::Rubbing => "Rubbing",
        Limit::ChipLoad => "Chip load",
        Limit::Wheel => "Handwheel",
        Limit::Power => "Power",
        Limit::Bending => "Bending",
        Limit::Breakage => "Breakage",
        Limit::Runout => "Runout",
        Limit::Climb => "Climb",
        Limit::Depth => "Depth",
        Limit::Thrust => "Thrust",
    }
}

/// What happens beyond a limit, a full sentence.
#[must_use]
pub fn beyond(limit: Limit) -> &'static str {
    match limit {
        Limit::Speed => "The edge burns.",
        Limit::BodyCap => "The head throws its bit.",
        Limit::Rubbing => "The chip is too thin, and the edge rubs.",
        Limit::ChipLoad => "The chip is too thick for the tooth.",
        Limit::Wheel => "No hand turns the wheel that fast and evenly.",
        Limit::Power => "The spindle stalls.",
        Limit::Bending => "Cutter and machine give way.",
        Limit::Breakage => "The cutter snaps.",
        Limit::Runout => "The cutter wobbles, and one tooth does the work of all.",
        Limit::Climb => "The cutter pulls the table through its backlash.",
        Limit::Depth => "The chips pack.",
        Limit::Thrust => "The quill cannot push that hard.",
    }
}

/// What a limit compares: the value, and where it is over.
#[must_use]
pub fn figures(reading: &Reading, system: System) -> String {
    let value = reading.value.shown(system);
    let over_at = reading.over_at.shown(system);
    match reading.limit {
        // These two are over below their figure, not above it.
        Limit::Rubbing | Limit::Breakage => format!("{}, least {over_at}", value.digits),
        _ => format!("{} of {over_at}", value.digits),
    }
}

/// How a limit stands, in one word.
#[must_use]
pub fn state(state: State) -> &'static str {
    match state {
        State::Within => "within",
        State::Near => "near",
        State::Over => "over",
    }
}

/// The heading over an answer.
#[must_use]
pub fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Go => "Within every limit",
        Verdict::Care => "With care",
        Verdict::DoNotCut => "Do not cut like this",
    }
}

/// The state whose shape stands beside a verdict.
#[must_use]
pub fn verdict_state(verdict: Verdict) -> State {
    match verdict {
        Verdict::Go => State::Within,
        Verdict::Care => State::Near,
        Verdict::DoNotCut => State::Over,
    }
}

/// A caution about a cut.
#[must_use]
pub fn caution(caution: Caution, system: System) -> Advice {
    match caution {
        Caution::SlowCarbide => advice(
            "Carbide this slow builds up an edge and chips.",
            "Use a faster speed if there is one, or high-speed steel.",
        ),
        Caution::CountMarks => advice(
            "The wheel turns too slowly to keep a steady pace by feel.",
            "Count the marks of the dial as they pass.",
        ),
        Caution::BeginAt(depth) => advice(
            "A light machine may chatter at the full depth.",
            format!("Begin at {} and go on if it stays quiet.", length(depth, system)),
        ),
        Caution::ClearChips => advice(
            "In a slot this deep the chips stay where they are and are cut again.",
            "Stop and clear them with a brush as you go.",
        ),
        Caution::OneTooth(runout) => advice(
            "The runout is larger than the chip: one tooth does the work.",
            format!("{} would share it out.", length(runout, system)),
        ),
        Caution::BetterHolder(runout) => advice(
            "The highest tooth takes more than it should.",
            format!("Hold the cutter truer: {} or better.", length(runout, system)),
        ),
        Caution::ClimbBacklash => advice(
            "Cutting with the feed pulls the table along by its backlash.",
            "Snug the table lock, take little, and be ready for the pull.",
        ),
        Caution::DrillChuckMilling => advice(
            "A drill chuck grips in three lines, and its taper lets go under side load.",
            "Hold the cutter in a collet or an end mill holder.",
        ),
        Caution::BreakThrough => advice(
            "The drill grabs as its point comes through.",
            "Clamp the part, and ease the feed for the last turn.",
        ),
        Caution::Peck => advice(
            "Chips pack in the flutes.",
            "Pull the drill right out after each peck, and clear them.",
        ),
        Caution::Lubricant(what) => advice(format!("On the cut: {what}."), ""),
        Caution::Refused(refused) => advice(
            sentence(refused.why),
            match refused.fluid {
                Fluid::Water => "Cut without water.",
                Fluid::Oil => "Cut without oil.",
                Fluid::Air => "Do not blow at the chips.",
            },
        ),
        Caution::NeverDwell => advice(
            "This stock hardens under an edge that stands still or rubs.",
            "Keep the feed going; never dwell.",
        ),
        Caution::ChipFire => advice(
            "The chips catch fire, and water makes it worse.",
            "Keep the edge sharp, the chips thick and cleared away; keep dry sand at hand.",
        ),
        Caution::Hazard(words) => advice(sentence(words), ""),
        Caution::HssDulls => advice(
            "High-speed steel dulls within inches of this stock.",
            "Use carbide, or take one short cut and look at the edge.",
        ),
        Caution::SharpEdge => advice(
            "The chip is barely thicker than the edge is round.",
            "Use a sharp cutter; a worn one only rubs.",
        ),
        Caution::InterruptedCut => advice(
            "Each turn hits the bit once, and brazed carbide chips.",
            "Use a tough grade or high-speed steel, and take little.",
        ),
        Caution::NeverReverse => advice(
            "A reamer turned backwards loses its edges.",
            "Draw it out while it still turns forwards.",
        ),
        Caution::SpringPass => advice(
            "The finishing pass bends the cutter away from the wall.",
            "Go over it once more at the same setting.",
        ),
        Caution::PowerTap => advice(
            "A tap under power breaks if it does not turn back in time.",
            "Try the reverse in the air first, and stop short of the bottom.",
        ),
        Caution::SwitchUnknown => advice(
            "Which way the switch turns the spindle in this range is not known.",
            "Jog it with the cutter well away, look from above, and note it.",
        ),
        Caution::LowestTooFast => advice(
            "The slowest speed of this machine is still too fast for this cutter.",
            "Use a smaller cutter, or another machine.",
        ),
        Caution::FeedAboveTable(high) => advice(
            format!("Your feed lies above the table, which ends at {}.", chip(high, system)),
            "Begin with less, and look at the chip.",
        ),
        Caution::FeedBorrowed(group) => advice(
            format!("The feed table has no row for this stock; that of {group} was read."),
            "Begin with less, and look at the chip.",
        ),
        Caution::OutsideTable => advice(
            "The diameter lies outside the feed table; the nearest figure was used.",
            "Begin with less, and look at the chip.",
        ),
    }
}

/// Something that was taken on the safe side.
#[must_use]
pub fn assumed(assumed: Assumed, system: System) -> String {
    if let Assumed::BaseSpeed(value) = assumed {
        return format!("Full power taken to begin at {}.", value.shown(system));
    }
    let (what, value) = match assumed {
        Assumed::Power(value) => ("Power at the cutter", value),
        Assumed::Backlash(value) => ("Backlash", value),
        Assumed::Stiffness(value) => ("Stiffness", value),
        Assumed::TableDrag(value) => ("Table drag", value),
        Assumed::Runout(value) => ("Runout", value),
        Assumed::BaseSpeed(value) => ("Speed of full power", value),
    };
    format!("{what} taken as {}.", value.shown(system))
}

/// Why something was given up, to stand after "because".
#[must_use]
pub fn because(because: Because) -> &'static str {
    match because {
        Because::Machine => "the machine has no such speed",
        Because::Gentle => "a light machine begins at the low end",
        Because::Yours => "you set the other number",
        Because::Limit(limit) => match limit {
            Limit::Speed => "the edge would burn",
            Limit::BodyCap => "the head would throw its bit",
            Limit::Rubbing => "the edge would rub",
            Limit::ChipLoad => "the chip would be too thick",
            Limit::Wheel => "the hand cannot turn the wheel faster",
            Limit::Power => "the spindle would stall",
            Limit::Bending => "cutter and machine would give way",
            Limit::Breakage => "the cutter would snap",
            Limit::Runout => "one tooth would do all the work",
            Limit::Climb => "the cutter would pull the table",
            Limit::Depth => "the chips would pack",
            Limit::Thrust => "the quill cannot push harder",
        },
    }
}

/// What was given up on the way to the answer.
#[must_use]
pub fn concession(concession: &Concession, system: System) -> String {
    match concession {
        Concession::Speed { wanted, set, because: cause } => format!(
            "{} instead of {}, because {}.",
            rounding::spindle_speed(*set),
            rounding::spindle_speed(*wanted).digits,
            because(*cause)
        ),
        Concession::Feed { wanted, set, because: cause } => format!(
            "{} a tooth instead of {}, because {}.",
            chip(*set, system),
            rounding::chip(*wanted, system).digits,
            because(*cause)
        ),
        Concession::Passes { whole, passes, because: cause } => format!(
            "{passes} passes for {}, because {}.",
            length(*whole, system),
            match cause {
                Because::Yours => "you set their number",
                other => because(*other),
            }
        ),
    }
}

/// A change that relieves, as something to do.
#[must_use]
pub fn change(change: Change, system: System) -> String {
    match change {
        Change::Depth(depth) => format!("Take {} a pass.", length(depth, system)),
        Change::Width(width) => format!("Take {} of width.", length(width, system)),
        Change::Stickout(out) => {
            format!("Shorten the cutter to {} out of the holder.", length(out, system))
        }
        Change::Feed(feed) => format!("Feed {} a tooth.", chip(feed, system)),
        Change::Speed(speed) => format!("Set {}.", rounding::spindle_speed(speed)),
        Change::Teeth(teeth) => format!("Use a cutter with {teeth} flutes."),
        Change::Runout(runout) => {
            format!("Hold the cutter truer: {} or better.", length(runout, system))
        }
        Change::Conventional => "Feed against the cutter.".to_owned(),
        Change::Pilot(pilot) => format!("Drill a pilot hole of {} first.", length(pilot, system)),
        Change::OtherCutter(_) => "Use another cutter.".to_owned(),
        Change::OtherMachine(_) => "Use another machine.".to_owned(),
        Change::Carbide => "Use a carbide cutter.".to_owned(),
    }
}

/// Why nothing can be proposed, and the first change that mends it.
#[must_use]
pub fn trouble(trouble: &Trouble, system: System) -> Advice {
    let mended = |mend: &Option<Change>| match mend {
        Some(mend) => change(*mend, system),
        None => "None of the usual changes mends it.".to_owned(),
    };
    match trouble {
        Trouble::Alone { limit, mend } => {
            advice(format!("{} At every speed and depth.", beyond(*limit)), mended(mend))
        }
        Trouble::Between { at_least: (low, least), at_most: (high, most), mend } => advice(
            format!(
                "{} wants at least {} a tooth, {} allows at most {}.",
                self::limit(*low),
                chip(*least, system),
                self::limit(*high).to_lowercase(),
                chip(*most, system)
            ),
            mended(mend),
        ),
        Trouble::Yours { limit, mend } => {
            let beyond = beyond(*limit);
            let (first, rest) = beyond.split_at(1);
            let why = format!("With your number {}{rest}", first.to_lowercase());
            let several = "More than one of your numbers is in the way: take them back one by one.";
            advice(why, mend.map_or_else(|| several.to_owned(), |mend| change(mend, system)))
        }
    }
}

/// What a cutter is made of.
#[must_use]
pub fn tool_material(material: ToolMaterial) -> &'static str {
    match material {
        ToolMaterial::Hss => "High-speed steel",
        ToolMaterial::Cobalt => "Cobalt steel",
        ToolMaterial::Carbide => "Carbide",
    }
}

/// What holds a cutter.
#[must_use]
pub fn holder(holder: Holder) -> &'static str {
    match holder {
        Holder::Collet => "Collet",
        Holder::SetScrew => "End mill holder",
        Holder::DrillChuck => "Drill chuck",
        Holder::Arbor => "Arbor",
    }
}

/// What is put on a cut.
#[must_use]
pub fn coolant(coolant: Coolant) -> &'static str {
    match coolant {
        Coolant::Flood => "Flood",
        Coolant::Brush => "Oil by brush",
        Coolant::Dry => "Dry",
    }
}

/// Which way a side cut is fed, and what that means.
#[must_use]
pub fn feeding(feeding: Feeding) -> (&'static str, &'static str) {
    match feeding {
        Feeding::Conventional => ("Conventional", "against the cutter"),
        Feeding::Climb => ("Climb", "with the cutter"),
    }
}

/// How hard to push, and what that means.
#[must_use]
pub fn style(style: Style) -> (&'static str, &'static str) {
    match style {
        Style::Gentle => ("Gentle", "low end of the tables"),
        Style::Brisk => ("Brisk", "least time inside the limits"),
    }
}

/// How heavy a machine is, and how to tell.
#[must_use]
pub fn class(class: Class) -> (&'static str, &'static str) {
    match class {
        Class::LightBench => ("Light bench mill", "up to 200 lb (90 kg)"),
        Class::Bench => ("Bench mill", "200 to 450 lb (90 to 200 kg)"),
        Class::HeavyBench => ("Heavy bench mill", "450 to 1000 lb (200 to 450 kg)"),
        Class::Knee => ("Knee mill", "the table rises on a knee"),
    }
}

/// The group of a material.
#[must_use]
pub fn iso_group(group: IsoGroup) -> &'static str {
    match group {
        IsoGroup::P => "Steel",
        IsoGroup::M => "Stainless steel",
        IsoGroup::K => "Cast iron",
        IsoGroup::N => "Non-ferrous and plastic",
        IsoGroup::S => "Titanium and nickel",
    }
}

/// What a beat stands for.
#[must_use]
pub fn beat(beat: Beat) -> &'static str {
    match beat {
        Beat::Turn => "One turn of the wheel",
        Beat::Tenth => "A tenth of a turn",
        Beat::TenThou => "0.010 in of travel",
        Beat::FifthMm => "0.2 mm of travel",
        Beat::Eighth => "1/8 in of the quill",
        Beat::TapTurn => "One turn of the tap",
    }
}

/// Seconds for a beat, as a unit beside digits.
#[must_use]
pub fn a_beat(beat: Beat) -> String {
    match beat {
        Beat::Turn => "s a turn",
        Beat::Tenth => "s a tenth",
        Beat::TenThou => "s each 0.010 in",
        Beat::FifthMm => "s each 0.2 mm",
        Beat::Eighth => "s each 1/8 in",
        Beat::TapTurn => "s a turn",
    }
    .to_owned()
}

/// What a person does in a stretch of a paced run.
#[must_use]
pub fn work(work: Work) -> &'static str {
    match work {
        Work::GetReady => "Get ready",
        Work::Feed => "Feed",
        Work::GoBack => "Go back, set the depth",
        Work::NextRow => "Go back, over to the next row",
        Work::Clear => "Pull out, let the chips fall",
        Work::Tap => "Turn the tap",
    }
}

/// The same, as it is told at that moment; `None` when all of it is done. A tap is turned by hand,
/// the spindle dead.
#[must_use]
pub fn work_now(work: Option<Work>, beat: Beat) -> &'static str {
    match (work, beat) {
        (Some(Work::GetReady), Beat::TapTurn) => "To the tap",
        (Some(Work::GetReady), _) => "To the wheel",
        (Some(other), _) => self::work(other),
        (None, Beat::TapTurn) => "Over.",
        (None, _) => "Over. Stop the spindle.",
    }
}

/// How a cut was.
#[must_use]
pub fn felt(felt: Felt) -> &'static str {
    match felt {
        Felt::TooHot => "Too hot",
        Felt::Chatter => "Chatter",
        Felt::Fine => "Fine",
        Felt::CouldPush => "Could push",
    }
}

/// What is done between the start of a run and its first beat, and how it is fed.
#[must_use]
pub fn how_to_pace(beat: Beat) -> &'static str {
    match beat {
        Beat::TapTurn => {
            "A tap by hand is turned with the spindle off at the wall. After the start go to the tap, and turn it with the beat. Nothing here needs a touch until it is over."
        }
        _ => {
            "Set this with the spindle stopped. After the start go to the wheel, start the spindle, and feed with the beat. Nothing here needs a touch until it is over."
        }
    }
}

/// When a run may be stopped, beside the place to stop it.
#[must_use]
pub fn when_to_stop(beat: Beat) -> &'static str {
    match beat {
        Beat::TapTurn => "Nothing else needs a touch.",
        _ => "after the spindle stops. Nothing else needs a touch.",
    }
}

/// What a rest is for; `None` for a stretch of work.
#[must_use]
pub fn rest(work: Work) -> Option<&'static str> {
    match work {
        Work::GoBack => Some("Back and down again in"),
        Work::NextRow => Some("Back and over to the next row in"),
        Work::Clear => Some("Out, and in again, in"),
        Work::GetReady | Work::Feed | Work::Tap => None,
    }
}

/// A time as a clock shows it: 0:24, 12:05.
#[must_use]
pub fn clock(time: Duration) -> String {
    let seconds = libm::ceil(time.to_second().clamp(0.0, 1e6)) as u64;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// Sources in words, each with how sure it is.
#[must_use]
pub fn sources(tags: &str) -> String {
    let list: Vec<String> = sources_of(tags)
        .into_iter()
        .map(|s| {
            let sure = s.sureness.words();
            if s.text.eq_ignore_ascii_case(sure) {
                s.text.to_owned()
            } else {
                format!("{} ({sure})", s.text)
            }
        })
        .collect();
    format!("Source: {}.", list.join("; "))
}
