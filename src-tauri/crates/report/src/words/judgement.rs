//! Judgements in words. A verdict also has a mark, so that it is never told by colour alone.

use diagnosis::judgement::{
    BandSource, ConsequenceRefusal, Judgement, LeakRefusal, RegulationState, SpecificationAnswer,
    UncertaintySource,
};
use model::bench::{Setup, Verdict};
use model::finding::FindingCode;
use model::unit::{LeakLaw, TestPoint, ValvePosition};

use crate::describe::Fate;

/// The mark of a judgement, drawn by [`crate::draw::mark`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Mark {
    Within,
    Close,
    Outside,
    NotJudged,
}

/// A verdict's mark.
pub(crate) fn mark_of(verdict: Option<Verdict>) -> Mark {
    match verdict {
        Some(Verdict::WithinLimit) => Mark::Within,
        Some(Verdict::TooCloseToCall) => Mark::Close,
        Some(Verdict::OutsideLimit) => Mark::Outside,
        None => Mark::NotJudged,
    }
}

/// A verdict, or that there is none.
pub(crate) fn verdict(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::WithinLimit) => "Within limit",
        Some(Verdict::TooCloseToCall) => "Too close to call",
        Some(Verdict::OutsideLimit) => "Outside limit",
        None => "Not judged",
    }
}

/// A probability in words; the interface has the same steps.
pub(crate) fn chance(probability: f64) -> &'static str {
    if probability >= 0.95 {
        "almost sure"
    } else if probability >= 0.8 {
        "likely"
    } else if probability >= 0.2 {
        "could go either way"
    } else if probability >= 0.05 {
        "unlikely"
    } else {
        "very unlikely"
    }
}

/// By which law a limit was carried.
pub(crate) fn law(law: LeakLaw) -> &'static str {
    match law {
        LeakLaw::Gap => "as a gap’s leak",
        LeakLaw::Hole => "as a hole’s leak",
    }
}

/// Where an uncertainty comes from.
pub(crate) fn uncertainty(source: UncertaintySource) -> &'static str {
    match source {
        UncertaintySource::GaugeError => "the gauge’s limits of error",
        UncertaintySource::GaugeResolution => "the smallest step of the gauge",
        UncertaintySource::Repeats => "scatter of the readings",
        UncertaintySource::Barometer => "the barometer, through the limit",
    }
}

/// Why there is no decision.
pub(crate) fn not_judged(
    judgement: &Judgement,
    setup: Option<&Setup>,
    point: &TestPoint,
    checked: bool,
    readings: usize,
) -> &'static str {
    let has = |code| judgement.findings.iter().any(|found| found.code == code);
    match setup {
        _ if point.limit.is_none() => {
            "The profile has no limit for this test point, so there is nothing to judge by."
        }
        None => "The air and the set-up aren’t recorded.",
        Some(setup) if setup.valve_position == ValvePosition::ValveAbsent => {
            "Without its valve in the bore the limit doesn’t apply."
        }
        Some(_) if !checked => {
            "The stand’s closed-hose reading isn’t recorded; without it the limit can’t be \
             carried to the day’s air."
        }
        Some(_) if readings == 0 => "No reading stands.",
        Some(_) if judgement.readings.is_none() => {
            "A reading contradicts the air, the stand or the blank."
        }
        Some(_) if has(FindingCode::SetupDiffers) => {
            "The bore wasn’t set up as the limit asks, so the limit says nothing about this \
             reading."
        }
        Some(_) if has(FindingCode::OiledReadsDeeper) => {
            "Oil on the lands reads deeper than the gap is tight: within the limit it proves \
             nothing."
        }
        Some(_) => "The limit couldn’t be carried to this stand and the day’s air.",
    }
}

/// Why a reading says nothing about the gap.
pub(crate) fn leak_refusal(reason: LeakRefusal) -> &'static str {
    match reason {
        LeakRefusal::NoBarometer => "How thick the air was isn’t known.",
        LeakRefusal::NoSetup => "How the bore was set up isn’t recorded.",
        LeakRefusal::NoCalibratedStand => {
            "The stand wasn’t calibrated that day, so its own pull can’t be told from the bore’s \
             leak."
        }
        LeakRefusal::Oiled => {
            "Oil on the lands closes the gap, so the reading says nothing about how wide it is."
        }
        LeakRefusal::OrificeTakesDrop => {
            "The balance orifice takes nearly the whole drop: the reading shows the orifice, not \
             the bore."
        }
        LeakRefusal::ValveAbsent => {
            "There was no valve in the bore, so there was no gap to measure."
        }
        LeakRefusal::ReadingContradicts => {
            "A reading contradicts the air, the stand or the blank; see what was found."
        }
        LeakRefusal::TooTight => {
            "The bore reads as deep as the closed hose: its leak is too small for this stand to \
             see."
        }
        LeakRefusal::ProfileIncomplete => {
            "The unit’s profile lacks the lands or the orifice that this test needs."
        }
        LeakRefusal::OutsideModel => {
            "No gap that the leak’s law was checked for gives this reading."
        }
    }
}

/// Why there is no pressure prediction.
pub(crate) fn consequence_refusal(reason: ConsequenceRefusal) -> &'static str {
    match reason {
        ConsequenceRefusal::NoLeak => "The leak isn’t known, so what it does can’t be either.",
        ConsequenceRefusal::ProfileIncomplete => {
            "The profile lacks a dimension that the prediction needs, or two contradict each \
             other."
        }
        ConsequenceRefusal::NoBalance => {
            "With these figures the model finds no position where the valve is in balance."
        }
        ConsequenceRefusal::NoDimensions => "The repair’s dimensions weren’t entered, or can’t be.",
    }
}

/// What the valve does with the leak as measured.
pub(crate) fn measured_state(state: RegulationState) -> &'static str {
    match state {
        RegulationState::Regulating => "It holds the pressure here.",
        RegulationState::FollowsLine => {
            "Not regulating: line is below what the valve is set to hold, so the supply stands \
             wide open and feed follows line."
        }
        RegulationState::LostControl => {
            "Lost control: the supply is shut and feed climbs all the same."
        }
    }
}

/// Why there is nothing to compare with, where the new valve doesn't regulate.
pub(crate) fn new_state(state: RegulationState) -> Option<&'static str> {
    match state {
        RegulationState::Regulating => None,
        RegulationState::FollowsLine => Some(
            "As new the supply would still stand wide open here and feed follow line, so there \
             is no shift to give.",
        ),
        RegulationState::LostControl => Some(
            "By its profile even the new valve doesn’t hold the pressure here, so there is no \
             shift to give.",
        ),
    }
}

/// What else the band holds than its likely value.
pub(crate) fn worst_state(state: RegulationState) -> Option<&'static str> {
    match state {
        RegulationState::Regulating => None,
        RegulationState::FollowsLine => {
            Some("At one end of the band the supply stands wide open and feed follows line.")
        }
        RegulationState::LostControl => Some(
            "A leak at the large end of the band would lose control here: feed would climb with \
             the supply shut.",
        ),
    }
}

/// Where a predicted span stands to the specified one.
pub(crate) fn specification(answer: SpecificationAnswer) -> &'static str {
    match answer {
        SpecificationAnswer::Inside => "Inside the specification, the whole band",
        SpecificationAnswer::LikelyInside => {
            "Likely inside the specification; an end of the band is outside"
        }
        SpecificationAnswer::LikelyOutside => {
            "Likely outside the specification; an end of the band is inside"
        }
        SpecificationAnswer::Outside => "Outside the specification, the whole band",
    }
}

/// What makes a band wide.
pub(crate) fn band(source: BandSource) -> &'static str {
    match source {
        BandSource::Eccentricity => {
            "how far off-centre the valve lay in the test and lies in service"
        }
        BandSource::Reading => "the uncertainty of the reading",
        BandSource::UntestedSeals => "seals that the test doesn’t reach",
        BandSource::Friction => "sliding friction, one way and the other",
        BandSource::OrificeModel => "published laws of small orifices that differ",
        BandSource::SpringLoad => "how well the spring’s load is known",
        BandSource::OrificeBore => "how well the orifice’s bore was measured",
        BandSource::SleeveSeat => "how loosely the sleeve sits in its bore",
    }
}

/// What became of a record.
pub(crate) fn fate(fate: Fate) -> &'static str {
    match fate {
        Fate::Stands => "stands",
        Fate::Corrected => "corrected since",
        Fate::Struck => "struck out or undone",
    }
}
