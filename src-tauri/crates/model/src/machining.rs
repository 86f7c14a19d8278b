//! The machining sheet of a bore: what a reamer and a sleeve are to leave, the steps on the way,
//! what was measured between them, and who signed for it.
//!
//! Figures of the sheet are the shop's own, or taken over from a repair option. Torque and sequence
//! of bolts come from the service information and nowhere else: the app has none.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, Range, in_range, join};
use crate::repair::{RepairOption, RepairWork};
use crate::unit::Material;
use crate::{Finding, Finite, Id};

/// The machining sheet of one bore in one job. Kind `machining`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Machining {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The sheet as it stands.
    pub sheet: MachiningSheet,
    /// Whoever wrote this record signs for the sheet; none: not signed, or changed since.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signed: Option<MachiningSignOff>,
}

/// What is machined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MachiningWay {
    /// The bore is reamed for an oversize valve.
    #[default]
    Ream,
    /// The bore takes a sleeve, in which a smaller valve runs.
    Sleeve,
}

impl MachiningWay {
    /// The repair that it is part of.
    #[must_use]
    pub const fn option(self) -> RepairOption {
        match self {
            Self::Ream => RepairOption::ReamedOversize,
            Self::Sleeve => RepairOption::SleeveSmallerValve,
        }
    }
}

/// How a sleeve is to sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SeatFit {
    /// It slides in, and is held otherwise.
    Slip,
    /// It is pressed in, larger than its bore.
    Press,
}

/// One cut of a reamer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cut {
    /// The reamer, in the shop's words.
    #[serde(default)]
    pub reamer: String,
    /// Diameter that it leaves at 20 °C, m.
    pub diameter_m: Finite,
    /// How far that may be off either way, m.
    pub tolerance_m: Finite,
    /// True: it finishes; false: it roughs.
    #[serde(default)]
    pub finishing: bool,
}

/// A step of the work, in its order.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum MachiningStep {
    /// The worn bore measured, largest and smallest.
    MeasureStart,
    /// Guide and pilot tried: the pilot goes into the unworn part and lies on its axis.
    GuideAndPilot,
    /// The body held without distortion, the reamer in line.
    Clamp,
    /// Roughing cuts.
    Rough,
    /// The finishing cut.
    Finish,
    /// The finished bore measured.
    MeasureFinished,
    /// Edges of ports broken without rounding lands.
    Deburr,
    /// Washed, blown out, looked through: no chip left in any passage.
    CleanAfter,
    /// The sleeve measured before it goes in.
    MeasureSleeve,
    /// The sleeve put in.
    FitSleeve,
    /// Its openings stand over the ports.
    AlignPorts,
    /// Its end seals on its face and nothing stands proud.
    SealingFace,
    /// Its inside measured in place.
    MeasureInPlace,
    /// The valve measured.
    MeasureValve,
    /// The valve falls and turns freely, dry and oiled.
    FreeMovement,
    /// Spring, end plug and clip put in and seated.
    PlugAndClip,
    /// Bolted by the sequence and torque of the service information; the valve still moves.
    BoltDown,
}

impl MachiningStep {
    /// The steps of a way, in their order. `cuts`: a sleeve may go in without any.
    #[must_use]
    pub fn of(way: MachiningWay, cuts: bool) -> Vec<Self> {
        let cutting: &[Self] = if cuts {
            &[
                Self::GuideAndPilot,
                Self::Clamp,
                Self::Rough,
                Self::Finish,
                Self::MeasureFinished,
                Self::Deburr,
            ]
        } else {
            &[Self::MeasureFinished]
        };
        let sleeve: &[Self] = match way {
            MachiningWay::Ream => &[],
            MachiningWay::Sleeve => &[
                Self::MeasureSleeve,
                Self::FitSleeve,
                Self::AlignPorts,
                Self::SealingFace,
                Self::MeasureInPlace,
            ],
        };
        let mut steps = vec![Self::MeasureStart];
        steps.extend(cutting);
        steps.push(Self::CleanAfter);
        steps.extend(sleeve);
        steps.extend([
            Self::MeasureValve,
            Self::FreeMovement,
            Self::PlugAndClip,
            Self::BoltDown,
        ]);
        steps
    }

    /// What is measured at it.
    #[must_use]
    pub const fn measures(self) -> &'static [MachinedSize] {
        match self {
            Self::MeasureStart => &[MachinedSize::StartBore],
            Self::GuideAndPilot => &[MachinedSize::UnwornBore],
            // After each roughing cut, so only where there is one.
            Self::Rough => &[MachinedSize::AfterCut],
            Self::MeasureFinished => &[MachinedSize::FinishedBore],
            Self::MeasureSleeve => &[MachinedSize::SleeveOuter],
            Self::AlignPorts => &[MachinedSize::PortOffset],
            Self::MeasureInPlace => &[MachinedSize::SleeveInner],
            Self::MeasureValve => &[MachinedSize::Valve],
            _ => &[],
        }
    }
}

/// What is measured on the way.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum MachinedSize {
    /// The worn bore.
    StartBore,
    /// The part of the bore that didn't wear and guides the pilot.
    UnwornBore,
    /// The bore after a roughing cut.
    AfterCut,
    /// The bore after the last cut.
    FinishedBore,
    /// How deep the reamer went, from the plug's end.
    Depth,
    /// The sleeve's outside.
    SleeveOuter,
    /// How far its openings stand beside the ports, along the bore.
    PortOffset,
    /// The sleeve's inside, in place.
    SleeveInner,
    /// The valve's reaction land.
    Valve,
}

impl MachinedSize {
    /// True for a diameter.
    #[must_use]
    pub const fn is_diameter(self) -> bool {
        !matches!(self, Self::Depth | Self::PortOffset)
    }
}

/// One measurement on the way.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MachiningMeasurement {
    /// Of what.
    pub size: MachinedSize,
    /// As it was read, m.
    pub read_m: Finite,
    /// Temperature of the part, K; none: taken as 20 °C.
    #[serde(default)]
    pub temperature_k: Option<Finite>,
    /// What it was measured with.
    #[serde(default)]
    pub instrument: Option<Id>,
    /// After which cut, from 0: of [`MachinedSize::AfterCut`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut: Option<u32>,
}

/// A signature under a sheet: its record says who and when.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MachiningSignOff {
    /// What was measured and isn't sure to lie inside its tolerance.
    pub not_inside: Vec<MachinedSize>,
    /// What the sheet asks to be measured and nobody did.
    pub not_measured: Vec<MachinedSize>,
    /// Steps that weren't ticked.
    pub not_done: Vec<MachiningStep>,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
}

/// A machining sheet. Sizes are at 20 °C; each may be missing, which the answer says.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct MachiningSheet {
    /// What is machined.
    pub way: MachiningWay,
    /// The worn bore where it is smallest, m.
    pub start_smallest_m: Option<Finite>,
    /// Where it is largest, m.
    pub start_largest_m: Option<Finite>,
    /// The unworn part of the bore that guides the pilot, m.
    pub unworn_m: Option<Finite>,
    /// Pilot, m.
    pub pilot_m: Option<Finite>,
    /// How far that may be off either way, m.
    pub pilot_tolerance_m: Option<Finite>,
    /// The most play on the diameter that the pilot may have, m.
    pub most_pilot_play_m: Option<Finite>,
    /// Who says so.
    pub pilot_source: String,
    /// How deep the reamer goes, from the plug's end, m.
    pub depth_m: Option<Finite>,
    /// The cuts, in their order.
    pub cuts: Vec<Cut>,
    /// The most that a roughing cut takes off the diameter, m; none: a usual figure is taken.
    pub most_rough_stock_m: Option<Finite>,
    /// The most that a finishing cut takes off the diameter, m.
    pub most_finish_stock_m: Option<Finite>,
    /// The least that it takes off, m.
    pub least_finish_stock_m: Option<Finite>,
    /// Who says so.
    pub stock_source: String,
    /// Nominal size of the finished bore, for its class, m.
    pub finished_nominal_m: Option<Finite>,
    /// Its class of ISO 286, such as H7; empty: none is said.
    pub finished_class: String,
    /// Smallest size of the finished bore, m; none: that of the class.
    pub finished_low_m: Option<Finite>,
    /// Largest size of it, m; none: that of the class.
    pub finished_high_m: Option<Finite>,
    /// The sleeve's outer diameter, m.
    pub sleeve_outer_m: Option<Finite>,
    /// How far that may be off either way, m.
    pub sleeve_outer_tolerance_m: Option<Finite>,
    /// Its inner diameter in place, m.
    pub sleeve_inner_m: Option<Finite>,
    /// How far that may be off either way, m.
    pub sleeve_inner_tolerance_m: Option<Finite>,
    /// Its length, m.
    pub sleeve_length_m: Option<Finite>,
    /// What it is made of; none: as the body.
    pub sleeve_material: Option<Material>,
    /// How it is to sit.
    pub seat: Option<SeatFit>,
    /// The valve's reaction land, m.
    pub valve_m: Option<Finite>,
    /// How far that may be off either way, m.
    pub valve_tolerance_m: Option<Finite>,
    /// Thinnest metal between the bore as new and the next passage or face, m.
    pub wall_m: Option<Finite>,
    /// The least that must be left of it, m.
    pub least_wall_m: Option<Finite>,
    /// Who says so.
    pub least_wall_source: String,
    /// End plug and clip: which, how they go in.
    pub plug: String,
    /// In which order the bolts are tightened, by the service information.
    pub bolt_sequence: String,
    /// Their torque by the service information, N·m.
    pub bolt_torque_nm: Option<Finite>,
    /// Which service information that is.
    pub bolt_source: String,
    /// The repair that the sheet belongs to, as planned: its parts, valve and spring.
    pub planned: Option<RepairWork>,
    /// Steps that are done.
    pub done: Vec<MachiningStep>,
    /// What was measured, in the order in which it was.
    pub measurements: Vec<MachiningMeasurement>,
    /// Anything worth keeping.
    pub notes: String,
}

impl MachiningSheet {
    /// The cuts that rough, by their places in `cuts`: after each the bore is measured.
    pub fn roughing(&self) -> impl Iterator<Item = usize> {
        let cuts = self.cuts.iter().enumerate();
        cuts.filter(|(_, cut)| !cut.finishing).map(|(at, _)| at)
    }

    /// The cut that a measurement was taken after; none: it says none, or one that isn't on the
    /// sheet.
    #[must_use]
    pub fn cut_of(&self, measured: &MachiningMeasurement) -> Option<&Cut> {
        let at = usize::try_from(measured.cut?).ok()?;
        self.cuts.get(at)
    }

    /// True when a size that a step asks for stands nowhere on the sheet. The worn and the unworn
    /// bore may come from the inspection; of a bore that is roughed each cut is asked by itself.
    #[must_use]
    pub fn lacks(&self, size: MachinedSize) -> bool {
        let mut measured = self.measurements.iter().filter(|it| it.size == size);
        match size {
            MachinedSize::AfterCut => {
                let after = |at: usize| {
                    let mut of = self.measurements.iter().filter(|it| it.size == size);
                    of.any(|it| it.cut.and_then(|cut| usize::try_from(cut).ok()) == Some(at))
                };
                self.roughing().any(|at| !after(at))
            }
            MachinedSize::StartBore => self.start_largest_m.is_none() && measured.next().is_none(),
            MachinedSize::UnwornBore => self.unworn_m.is_none() && measured.next().is_none(),
            _ => measured.next().is_none(),
        }
    }

    /// Each figure with its field, and what can be true of it.
    #[must_use]
    pub fn figures(&self) -> [(&'static str, Option<Finite>, Range); 22] {
        let (diameter, tolerance) = (limits::DIAMETER_M, limits::DIAMETER_UNCERTAINTY_M);
        let stock = limits::REAM_STOCK_M;
        [
            ("start_smallest_m", self.start_smallest_m, diameter),
            ("start_largest_m", self.start_largest_m, diameter),
            ("unworn_m", self.unworn_m, diameter),
            ("pilot_m", self.pilot_m, diameter),
            ("pilot_tolerance_m", self.pilot_tolerance_m, tolerance),
            (
                "most_pilot_play_m",
                self.most_pilot_play_m,
                limits::DIAMETRAL_CLEARANCE_M,
            ),
            ("depth_m", self.depth_m, limits::AXIAL_M),
            ("most_rough_stock_m", self.most_rough_stock_m, stock),
            ("most_finish_stock_m", self.most_finish_stock_m, stock),
            ("least_finish_stock_m", self.least_finish_stock_m, stock),
            ("finished_nominal_m", self.finished_nominal_m, diameter),
            ("finished_low_m", self.finished_low_m, diameter),
            ("finished_high_m", self.finished_high_m, diameter),
            ("sleeve_outer_m", self.sleeve_outer_m, diameter),
            (
                "sleeve_outer_tolerance_m",
                self.sleeve_outer_tolerance_m,
                tolerance,
            ),
            ("sleeve_inner_m", self.sleeve_inner_m, diameter),
            (
                "sleeve_inner_tolerance_m",
                self.sleeve_inner_tolerance_m,
                tolerance,
            ),
            ("sleeve_length_m", self.sleeve_length_m, limits::AXIAL_M),
            ("valve_m", self.valve_m, diameter),
            ("valve_tolerance_m", self.valve_tolerance_m, tolerance),
            ("wall_m", self.wall_m, limits::WALL_M),
            ("least_wall_m", self.least_wall_m, limits::WALL_M),
        ]
    }
}

impl Check for MachiningSheet {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        for (field, value, range) in self.figures() {
            if let Some(value) = value {
                in_range(*value, range, at, field, findings);
            }
        }
        if let Some(torque) = self.bolt_torque_nm {
            in_range(
                *torque,
                limits::BOLT_TORQUE_NM,
                at,
                "bolt_torque_nm",
                findings,
            );
        }
        let source = |missing: bool, field: &str, findings: &mut Vec<Finding>| {
            if missing {
                let code = FindingCode::SourceMissing;
                findings.push(Finding::at(Severity::Doubt, code, join(at, field)));
            }
        };
        let bolts = self.bolt_torque_nm.is_some() || !self.bolt_sequence.trim().is_empty();
        source(
            bolts && self.bolt_source.trim().is_empty(),
            "bolt_source",
            findings,
        );
        source(
            self.least_wall_m.is_some() && self.least_wall_source.trim().is_empty(),
            "least_wall_source",
            findings,
        );
        source(
            self.most_pilot_play_m.is_some() && self.pilot_source.trim().is_empty(),
            "pilot_source",
            findings,
        );
        let stock = [
            self.most_rough_stock_m,
            self.most_finish_stock_m,
            self.least_finish_stock_m,
        ];
        source(
            stock.iter().any(Option::is_some) && self.stock_source.trim().is_empty(),
            "stock_source",
            findings,
        );
        for (i, cut) in self.cuts.iter().enumerate() {
            let here = join(at, &format!("cuts[{i}]"));
            in_range(
                *cut.diameter_m,
                limits::DIAMETER_M,
                &here,
                "diameter_m",
                findings,
            );
            let tolerance = limits::DIAMETER_UNCERTAINTY_M;
            in_range(*cut.tolerance_m, tolerance, &here, "tolerance_m", findings);
        }
        for (i, measured) in self.measurements.iter().enumerate() {
            let here = join(at, &format!("measurements[{i}]"));
            let range = match measured.size {
                MachinedSize::Depth => limits::AXIAL_M,
                MachinedSize::PortOffset => limits::POSITION_M,
                _ => limits::DIAMETER_M,
            };
            in_range(*measured.read_m, range, &here, "read_m", findings);
            if let Some(temperature) = measured.temperature_k {
                let range = limits::AIR_TEMPERATURE_K;
                in_range(*temperature, range, &here, "temperature_k", findings);
            }
            if measured.size == MachinedSize::AfterCut && self.cut_of(measured).is_none() {
                let code = FindingCode::CutNotOnSheet;
                findings.push(Finding::at(Severity::Doubt, code, join(&here, "cut")));
            }
        }
        let crossed = [
            (
                self.start_smallest_m,
                self.start_largest_m,
                "start_largest_m",
            ),
            (self.finished_low_m, self.finished_high_m, "finished_high_m"),
            (self.sleeve_inner_m, self.sleeve_outer_m, "sleeve_outer_m"),
        ];
        for (low, high, field) in crossed {
            if let (Some(low), Some(high)) = (low, high)
                && *low > *high
            {
                let code = FindingCode::DimensionsContradict;
                let found = Finding::at(Severity::Wrong, code, join(at, field));
                findings.push(found.with_bounds(*low, *high));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(sheet: &MachiningSheet) -> Vec<(FindingCode, String)> {
        let found = sheet.findings().into_iter();
        found.map(|found| (found.code, found.field)).collect()
    }

    #[test]
    fn a_torque_without_its_source_and_a_bore_turned_round_are_found_at_their_fields() {
        let sheet = MachiningSheet {
            start_smallest_m: Finite::new(8.1e-3),
            start_largest_m: Finite::new(8.0e-3),
            bolt_torque_nm: Finite::new(9.0),
            ..MachiningSheet::default()
        };
        assert_eq!(
            told(&sheet),
            [
                (FindingCode::SourceMissing, "bolt_source".to_owned()),
                (
                    FindingCode::DimensionsContradict,
                    "start_largest_m".to_owned()
                ),
            ]
        );
        assert_eq!(MachiningSheet::default().findings(), []);
    }

    #[test]
    fn a_sleeve_that_drops_in_asks_for_no_reamer() {
        let steps = MachiningStep::of(MachiningWay::Sleeve, false);
        assert!(!steps.contains(&MachiningStep::Finish));
        assert!(steps.contains(&MachiningStep::AlignPorts));
        let steps = MachiningStep::of(MachiningWay::Ream, true);
        assert!(steps.contains(&MachiningStep::GuideAndPilot));
        assert!(!steps.contains(&MachiningStep::FitSleeve));
    }

    #[test]
    fn a_reading_after_a_cut_that_is_not_there_is_found_at_its_cut() {
        let cut = |finishing| Cut {
            reamer: String::new(),
            diameter_m: Finite::new(8.3e-3).unwrap(),
            tolerance_m: Finite::ZERO,
            finishing,
        };
        let after = |cut| MachiningMeasurement {
            size: MachinedSize::AfterCut,
            read_m: Finite::new(8.3e-3).unwrap(),
            temperature_k: None,
            instrument: None,
            cut,
        };
        let sheet = MachiningSheet {
            cuts: vec![cut(false), cut(false), cut(true)],
            measurements: vec![after(Some(0)), after(None), after(Some(3))],
            ..MachiningSheet::default()
        };
        let at = |field: &str| (FindingCode::CutNotOnSheet, field.to_owned());
        assert_eq!(
            told(&sheet),
            [at("measurements[1].cut"), at("measurements[2].cut")]
        );
        // The second roughing cut is asked for by itself, the finishing one isn't.
        assert!(sheet.lacks(MachinedSize::AfterCut));
        let whole = MachiningSheet {
            measurements: vec![after(Some(0)), after(Some(1))],
            ..sheet
        };
        assert!(!whole.lacks(MachinedSize::AfterCut));
    }
}
