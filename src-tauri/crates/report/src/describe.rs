//! What a report is made from. Whoever has the records fills this in; the report reads nothing
//! else and knows no store.

use chrono::{DateTime, FixedOffset, NaiveDate};
use diagnosis::card::BoreCard;
use diagnosis::judgement::{ConsequenceAnswer, Judgement, LimitDecision, Span};
use diagnosis::machining::MachiningAnswer;
use diagnosis::oil_check::OilCheckAnswer;
use diagnosis::relief::ReliefAnswer;
use diagnosis::repair::{OpenPoint, RepairForecast};
use diagnosis::tap::TapAnswer;
use model::bench::{Blank, Decision, Instrument, Reading, Setup, Stand, StandCheck, Verdict};
use model::caution::Hazard;
use model::inspection::{CheckName, Inspection, Outcome};
use model::job::{Customer, Vehicle};
use model::machining::{MachiningSheet, MachiningSignOff};
use model::oil_check::OilCheckFigures;
use model::relief_check::ReliefFigures;
use model::repair::RepairWork;
use model::shop_part::PartName;
use model::tap_reading::TapFigures;
use model::unit::{BoreProfile, Tap, TestPoint};
use model::{Finding, Finite, Id};

use crate::handover::Handover;
use crate::quantity::Shown;

/// One job, ready to be printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Units and decimal sign.
    pub shown: Shown,
    /// The shop; empty before it is named.
    pub shop: String,
    /// True for the shop that comes with the program.
    pub demo: bool,
    /// Who made the report, and when.
    pub made: Written,
    /// Version of the program.
    pub program: String,
    /// Digest of the whole store when the report was made.
    pub store_digest: String,
    /// The device that made it, by its key's fingerprint.
    pub device: String,
    /// The job's subject.
    pub job: Id,
    /// The shop's number of the job.
    pub number: String,
    /// Day opened.
    pub opened_on: NaiveDate,
    /// Who opened it.
    pub opened_by: String,
    /// The unit's name.
    pub unit: String,
    /// The vehicle; none: withheld.
    pub vehicle: Option<Vehicle>,
    /// The complaint; none: withheld or erased.
    pub complaint: Option<String>,
    /// Free notes; none: withheld or erased.
    pub notes: Option<String>,
    /// The customer.
    pub customer: Personal,
    /// Hazards and who has read each caution.
    pub cautions: Vec<Caution>,
    /// The bores, in the unit's order; those that nothing was done on too.
    pub bores: Vec<BoreReport>,
    /// Checks of the body and the case, oldest first.
    pub body_checks: Vec<CheckShown>,
    /// The photos, oldest first, without those that are left out.
    pub photos: Vec<PhotoShown>,
    /// How many that may show a person or a plate are left out because they weren't asked for.
    pub photos_left_out: usize,
    /// What was agreed and handed over.
    pub handover: Handover,
    /// What is odd about the job itself.
    pub findings: Vec<Finding>,
    /// Records whose content isn't here.
    pub withheld: Vec<Withheld>,
    /// Taps of the unit at which something was read.
    pub taps: Vec<TapReport>,
    /// Parts of the shop's own list that the work names.
    pub shop_parts: Vec<ShopPartShown>,
}

/// A part of the shop's own list, with where its sizes come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShopPartShown {
    /// What it is.
    pub part: PartName,
    /// Its name in the list.
    pub name: String,
    /// Where its sizes come from.
    pub source: String,
}

/// Who wrote something, and when by that device's clock, told in the time of this one.
#[derive(Debug, Clone, PartialEq)]
pub struct Written {
    /// Name; empty: not known.
    pub by: String,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// A photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoShown {
    /// The picture; none: it isn't on the device.
    pub picture: Option<Picture>,
    /// What it shows, in words; empty: nobody said.
    pub caption: String,
    /// The bore that it shows; none: it is of the job.
    pub bore: Option<String>,
    /// When it was taken, by the device that it came from.
    pub taken_at: DateTime<FixedOffset>,
    /// Who put it on record, or changed it last.
    pub recorded: Recorded,
}

/// A JPEG file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Its bytes.
    pub jpeg: Vec<u8>,
    /// Its width in pixels.
    pub width_px: u32,
    /// Its height in pixels.
    pub height_px: u32,
}

/// A record's name and who wrote it.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    /// The record.
    pub record: Id,
    /// Who and when.
    pub written: Written,
}

/// What is known of the customer, and whether it was asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum Personal {
    /// Nothing is recorded.
    NotRecorded,
    /// It is recorded and was left out of this report.
    LeftOut,
    /// It is recorded and its content isn't on this device.
    Withheld,
    /// It was erased on request.
    Erased,
    /// It was asked for.
    Shown(Customer),
}

/// A hazard of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// Which.
    pub hazard: Hazard,
    /// Who read the caution; none: nobody yet.
    pub read: Option<Written>,
}

/// A record that is known but whose content is not here.
#[derive(Debug, Clone, PartialEq)]
pub struct Withheld {
    /// Its kind, as the journal names it.
    pub kind: String,
    /// The record.
    pub recorded: Recorded,
}

/// One bore in the job.
#[derive(Debug, Clone, PartialEq)]
pub struct BoreReport {
    /// The bore as the unit's profile has it now.
    pub profile: BoreProfile,
    /// Its tests, oldest first.
    pub tests: Vec<TestReport>,
    /// The relief of its circuit; none: not checked.
    pub relief: Option<ReliefReport>,
    /// Its machining sheet; none: there is none.
    pub machining: Option<MachiningReport>,
    /// Its repairs, oldest first.
    pub repairs: Vec<RepairReport>,
    /// What its checks say together; none: no check but vacuum tests is on record, and none was
    /// left out on purpose.
    pub inspection: Option<BoreInspection>,
    /// Hot-oil checks of its circuit, oldest first.
    pub oil_checks: Vec<OilCheckReport>,
}

/// A tap with what was read there.
#[derive(Debug, Clone, PartialEq)]
pub struct TapReport {
    /// The tap; none: it is no longer in the profile.
    pub tap: Option<Tap>,
    /// Its circuit's name.
    pub circuit: String,
    /// What was read, oldest first.
    pub readings: Vec<TapLine>,
}

/// A reading at a tap.
#[derive(Debug, Clone, PartialEq)]
pub struct TapLine {
    /// What was read.
    pub figures: TapFigures,
    /// The gauge at the tap.
    pub gauge: Option<Instrument>,
    /// What it says of its window; none: the tap is no longer in the profile.
    pub answer: Option<TapAnswer>,
    /// What a bore's leak says of it; none where the model can't say.
    pub beside: Option<TapBesideLeak>,
    /// Who and when.
    pub recorded: Recorded,
}

/// A reading at a tap beside what a bore's leak predicts.
#[derive(Debug, Clone, PartialEq)]
pub struct TapBesideLeak {
    /// The bore's name.
    pub bore_name: String,
    /// Within the predicted band, outside it, or too close to call.
    pub verdict: Verdict,
    /// As predicted, Pa.
    pub predicted_pa: Span,
}

/// A hot-oil check.
#[derive(Debug, Clone, PartialEq)]
pub struct OilCheckReport {
    /// What was read.
    pub figures: OilCheckFigures,
    /// The gauge of the regulated pressure.
    pub feed_gauge: Option<Instrument>,
    /// The gauge of line.
    pub line_gauge: Option<Instrument>,
    /// The thermometer.
    pub thermometer: Option<Instrument>,
    /// The repair that it proves; none: the circuit as it was found.
    pub repair: Option<Id>,
    /// What is specified, lowest and highest, Pa.
    pub specified_pa: [Option<f64>; 2],
    /// Who and when.
    pub recorded: Recorded,
    /// What it says.
    pub answer: OilCheckAnswer,
}

/// The inspection of a bore.
#[derive(Debug, Clone, PartialEq)]
pub struct BoreInspection {
    /// What all checks say together.
    pub card: BoreCard,
    /// The checks on record, oldest first.
    pub checks: Vec<CheckShown>,
    /// Those left out on purpose.
    pub left_out: Vec<LeftOutShown>,
}

/// A check on record.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckShown {
    /// What was recorded.
    pub record: Inspection,
    /// The instruments that it names, each once; one that isn't on record is left out.
    pub instruments: Vec<Instrument>,
    /// What it says by itself.
    pub outcome: Outcome,
    /// Who and when.
    pub recorded: Recorded,
    /// What is odd about it.
    pub findings: Vec<Finding>,
}

/// A check left out on purpose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOutShown {
    /// Which.
    pub check: CheckName,
    /// Why; empty: nobody said.
    pub why: String,
}

/// One vacuum test.
#[derive(Debug, Clone, PartialEq)]
pub struct TestReport {
    /// The test's subject.
    pub id: Id,
    /// Who began it.
    pub begun: Written,
    /// True when a repair on record came before it.
    pub after_repair: bool,
    /// Where the stand connected.
    pub test_point: TestPoint,
    /// The stand; none: one that nobody entered.
    pub stand: Option<Stand>,
    /// Its gauge.
    pub gauge: Option<Instrument>,
    /// How the bore was set up.
    pub setup: Option<Part<Setup>>,
    /// The stand by itself, that day.
    pub stand_check: Option<Part<StandCheck>>,
    /// Plug and plate alone.
    pub blank: Option<Part<Blank>>,
    /// All readings, those corrected and struck out too, in the order in which they were taken.
    pub readings: Vec<ReadingLine>,
    /// What it says now.
    pub judgement: Judgement,
    /// Decisions on record, oldest first.
    pub decisions: Vec<DecisionLine>,
}

/// A part of a test and who recorded it.
#[derive(Debug, Clone, PartialEq)]
pub struct Part<T> {
    /// Its content.
    pub body: T,
    /// Who and when.
    pub recorded: Recorded,
}

/// What became of a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It counts.
    Stands,
    /// A later record says something else instead.
    Corrected,
    /// It was struck out.
    Struck,
}

/// A reading, whatever became of it.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingLine {
    /// Its content; none: withheld.
    pub reading: Option<Reading>,
    /// Who and when.
    pub recorded: Recorded,
    /// What became of it.
    pub fate: Fate,
}

/// A decision, whatever became of it.
#[derive(Debug, Clone, PartialEq)]
pub struct DecisionLine {
    /// Its content; none: withheld.
    pub decision: Option<Decision>,
    /// Who and when.
    pub recorded: Recorded,
    /// What became of it.
    pub fate: Fate,
    /// True when a reading, the profile or the physics has changed since.
    pub outdated: bool,
}

/// A relief check.
#[derive(Debug, Clone, PartialEq)]
pub struct ReliefReport {
    /// What was entered.
    pub figures: ReliefFigures,
    /// Who and when.
    pub recorded: Recorded,
    /// What it says.
    pub answer: ReliefAnswer,
}

/// A machining sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct MachiningReport {
    /// The sheet on record.
    pub sheet: MachiningSheet,
    /// Who wrote it last and when: whoever signed it, if it is signed.
    pub recorded: Recorded,
    /// The signature under it.
    pub signed: Option<MachiningSignOff>,
    /// What it says.
    pub answer: MachiningAnswer,
    /// Names of the instruments that its measurements name, in their order; empty: none named, or
    /// not on record.
    pub instruments: Vec<String>,
}

/// A repair with before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct RepairReport {
    /// The repair's subject.
    pub id: Id,
    /// What was done.
    pub work: RepairWork,
    /// Who and when.
    pub recorded: Recorded,
    /// The last judged test before it.
    pub before: Option<Stage>,
    /// What it should do; none: nothing could be said.
    pub forecast: Option<RepairForecast>,
    /// The last test since.
    pub after: Option<Stage>,
    /// What is open.
    pub open: Vec<OpenPoint>,
    /// What is odd.
    pub findings: Vec<Finding>,
}

/// A test beside a repair.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// The test.
    pub test: Id,
    /// Who began it.
    pub begun: Written,
    /// Mean of the readings that count, Pa below ambient.
    pub mean_vacuum_pa: Option<Finite>,
    /// The decision as it would be now.
    pub decision: Option<LimitDecision>,
    /// The decision on record.
    pub decided: Option<Verdict>,
    /// The pressure.
    pub consequence: Option<ConsequenceAnswer>,
}
