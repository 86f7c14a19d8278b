//! The machining sheet in words.

use diagnosis::machining::FitAnswer;
use model::machining::{MachinedSize, MachiningStep, MachiningWay};

/// What is machined.
pub(crate) fn machining_way(way: MachiningWay) -> &'static str {
    match way {
        MachiningWay::Ream => "reamed for an oversize valve",
        MachiningWay::Sleeve => "a sleeve with a smaller valve",
    }
}

/// How a sleeve sits.
pub(crate) fn seat_fit(fit: FitAnswer) -> &'static str {
    match fit {
        FitAnswer::Clearance => "it slides in",
        FitAnswer::Transition => "loose or tight",
        FitAnswer::Interference => "it presses in",
    }
}

/// A step.
pub(crate) fn machining_step(step: MachiningStep) -> &'static str {
    match step {
        MachiningStep::MeasureStart => "Measure the worn bore, largest and smallest",
        MachiningStep::GuideAndPilot => "Try guide and pilot in the unworn part",
        MachiningStep::Clamp => "Hold the body without distortion, reamer in line",
        MachiningStep::Rough => "Ream: roughing cuts",
        MachiningStep::Finish => "Ream: finishing cut",
        MachiningStep::MeasureFinished => "Measure the finished bore",
        MachiningStep::Deburr => "Break the edges of the ports",
        MachiningStep::CleanAfter => "Wash, blow out, look through every passage",
        MachiningStep::MeasureSleeve => "Measure the sleeve’s outside",
        MachiningStep::FitSleeve => "Put the sleeve in",
        MachiningStep::AlignPorts => "Openings over their ports",
        MachiningStep::SealingFace => "End sealing on its face, nothing proud",
        MachiningStep::MeasureInPlace => "Measure the sleeve’s inside in place",
        MachiningStep::MeasureValve => "Measure the valve",
        MachiningStep::FreeMovement => "Valve moves freely, dry and oiled",
        MachiningStep::PlugAndClip => "Spring, end plug and clip in and seated",
        MachiningStep::BoltDown => "Bolt down by the service information; the valve still moves",
    }
}

/// What is measured.
pub(crate) fn machined_size(size: MachinedSize) -> &'static str {
    match size {
        MachinedSize::StartBore => "Worn bore",
        MachinedSize::UnwornBore => "Unworn part of the bore",
        MachinedSize::AfterCut => "Bore after a cut",
        MachinedSize::FinishedBore => "Finished bore",
        MachinedSize::Depth => "Depth reamed",
        MachinedSize::SleeveOuter => "Sleeve, outside",
        MachinedSize::PortOffset => "Offset of the openings from their ports",
        MachinedSize::SleeveInner => "Sleeve, inside in place",
        MachinedSize::Valve => "Valve, reaction land",
    }
}
