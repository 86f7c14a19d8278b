//! What a shift of the feed does to each clutch of the circuit: how much of it the solenoid passes
//! on, and what that costs or adds in torque.
//!
//! The shift of the clutch's pressure follows [`physics::solenoid::passed_shift`], its torque
//! [`physics::clutch`]. The span takes the ends of the feed's shift and the spread of the solenoid's
//! kind and adds the deviations of each side in quadrature, as the feed's own span is made. The
//! friction coefficient is taken as entered; the share of the torque doesn't depend on it.

use model::Finite;
use model::unit::{Clutch, SolenoidKind};
use physics::clutch::{Annulus, ClutchPack};
use physics::solenoid::{self, passed_shift};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uom::si::f64::{Force, Pressure, Ratio};
use uom::si::force::newton;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::torque::newton_meter;

use super::Case;
use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::judgement::{Consequence, OperatingPoint, RegulationState, Span};
use crate::pressure::deviations::Deviations;
use crate::valve::metres;

/// What the bore does to one clutch.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClutchEffect {
    /// Its name.
    pub name: String,
    /// How its solenoid makes its pressure; none: nobody entered that.
    pub solenoid_kind: Option<SolenoidKind>,
    /// At hot idle; none where a figure that it needs is missing, the new valve doesn't regulate, or
    /// a figure lies outside what the laws hold for.
    pub idle: Option<ClutchAt>,
    /// At the highest line pressure.
    pub highest_line: Option<ClutchAt>,
    /// Fields of the clutch that nobody entered, and that cost one of these or the torque.
    pub lacks: Vec<String>,
}

/// A clutch at one line pressure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClutchAt {
    /// Its pressure with the bore as new, Pa.
    pub before_pa: Finite,
    /// The shift of its pressure, Pa.
    pub shift_pa: Span,
    /// True where the solenoid is told to give nearly all the feed, so that its output may follow
    /// the feed whatever its kind.
    pub near_feed: bool,
    /// What that does to its torque; none where a dimension is missing.
    pub torque: Option<ClutchTorque>,
}

/// The torque that a clutch loses (less than zero) or gains.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClutchTorque {
    /// What it holds with the bore as new, N m.
    pub before_n_m: Finite,
    /// Change, N m.
    pub change_n_m: Span,
    /// The same as a part of that before; none where it held nothing.
    pub share: Option<Span>,
}

impl Case<'_> {
    /// What the prediction does to each clutch; nothing while there is none.
    pub(super) fn clutches(
        &mut self,
        computed: Option<&Consequence>,
    ) -> Result<Vec<ClutchEffect>, DiagnosisError> {
        let Some(computed) = computed else {
            return Ok(Vec::new());
        };
        let circuits_kind = self.evidence.profile.circuit.solenoid_kind;
        let mut effects = Vec::new();
        for clutch in self.evidence.clutches {
            let kind = clutch.solenoid_kind.or(circuits_kind);
            let at = |command: Option<Finite>, point| -> Result<_, DiagnosisError> {
                let (Some(kind), Some(command)) = (kind, command) else {
                    return Ok(None);
                };
                match at_line(clutch, kind, *command, point) {
                    Ok(found) => Ok(found),
                    Err(DiagnosisError::Physics(_)) => Ok(None),
                    Err(other) => Err(other),
                }
            };
            let idle = at(clutch.command_idle_pa, &computed.idle)?;
            let highest_line = at(clutch.command_highest_pa, &computed.highest_line)?;
            if idle.is_some() || highest_line.is_some() {
                self.assumptions.push(Assumed::SolenoidKindTypical);
            }
            let torque = |at: &Option<ClutchAt>| at.as_ref().is_some_and(|at| at.torque.is_some());
            if torque(&idle) || torque(&highest_line) {
                self.assumptions.extend([
                    Assumed::FrictionConstant,
                    Assumed::FacesShareForce,
                    Assumed::ClutchFacesRunIn,
                    Assumed::ClutchOilAtRest,
                ]);
            }
            effects.push(ClutchEffect {
                name: clutch.name.clone(),
                solenoid_kind: kind,
                idle,
                highest_line,
                lacks: clutch
                    .lacks(circuits_kind)
                    .into_iter()
                    .map(str::to_owned)
                    .collect(),
            });
        }
        Ok(effects)
    }
}

fn at_line(
    clutch: &Clutch,
    kind: SolenoidKind,
    command_pa: f64,
    point: &OperatingPoint,
) -> Result<Option<ClutchAt>, DiagnosisError> {
    if point.new_state != RegulationState::Regulating {
        return Ok(None);
    }
    let feed = *point.new_feed_pa.likely;
    // Where the worn valve no longer regulates, its feed is known all the same.
    let ends = match &point.shift_pa {
        Some(shift) => [*shift.low, *shift.likely, *shift.high],
        None => {
            let measured = &point.measured_feed_pa;
            [*measured.low, *measured.likely, *measured.high].map(|pa| pa - feed)
        }
    };
    let pa = Pressure::new::<pascal>;
    let gain = Ratio::new::<ratio>(*clutch.gain_ratio);
    let passed = |shift: f64| {
        let kind = match kind {
            SolenoidKind::Bleed => solenoid::SolenoidKind::Bleed,
            SolenoidKind::PulseWidth => solenoid::SolenoidKind::PulseWidth,
            SolenoidKind::ClosedLoop => solenoid::SolenoidKind::ClosedLoop,
        };
        passed_shift(kind, pa(command_pa), pa(feed), pa(shift), gain)
    };
    let [low, likely, high] = [passed(ends[0])?, passed(ends[1])?, passed(ends[2])?];
    let middle = likely.shift.get::<pascal>();
    let mut spread = Deviations::default();
    spread.add([low.shift, high.shift].map(|end| end.get::<pascal>() - middle));
    spread.add([likely.span.low, likely.span.high].map(|end| end.get::<pascal>() - middle));
    let line = *point.line_pa;
    // A valve that multiplies its solenoid's pressure gives line at most.
    let wanted = *clutch.gain_ratio * command_pa.min(feed);
    let before = wanted.min(line);
    let told = |by: Finite| Finite::try_from((wanted + *by).clamp(0.0, line) - before);
    let wide = spread.around(middle, f64::MIN, f64::MAX)?;
    let shift = Span {
        low: told(wide.low)?,
        likely: told(wide.likely)?,
        high: told(wide.high)?,
    };
    Ok(Some(ClutchAt {
        before_pa: Finite::try_from(before)?,
        shift_pa: shift,
        near_feed: likely.near_feed || low.near_feed || high.near_feed,
        torque: pack(clutch)
            .map(|pack| torque(&pack, before, &shift))
            .transpose()?,
    }))
}

/// The clutch as the physics takes it; none while a dimension is missing.
fn pack(clutch: &Clutch) -> Option<ClutchPack> {
    let ring = |inner: Finite, outer: Finite| Annulus {
        inner: metres(*inner / 2.0),
        outer: metres(*outer / 2.0),
    };
    Some(ClutchPack {
        piston: ring(clutch.piston_inner_m?, clutch.piston_outer_m?),
        face: ring(clutch.face_inner_m?, clutch.face_outer_m?),
        faces: clutch.faces?,
        friction: Ratio::new::<ratio>(*clutch.friction_coefficient?),
        return_spring: Force::new::<newton>(*clutch.return_spring_n?),
    })
}

fn torque(pack: &ClutchPack, before: f64, shift: &Span) -> Result<ClutchTorque, DiagnosisError> {
    let of = |shift: Finite| {
        pack.shift(
            Pressure::new::<pascal>(before),
            Pressure::new::<pascal>(*shift),
            None,
        )
    };
    let [low, likely, high] = [of(shift.low)?, of(shift.likely)?, of(shift.high)?];
    let finite = |torque: uom::si::f64::Torque| Finite::try_from(torque.get::<newton_meter>());
    let share = match (low.fraction, likely.fraction, high.fraction) {
        (Some(low), Some(likely), Some(high)) => Some(Span {
            low: Finite::try_from(low.get::<ratio>())?,
            likely: Finite::try_from(likely.get::<ratio>())?,
            high: Finite::try_from(high.get::<ratio>())?,
        }),
        _ => None,
    };
    Ok(ClutchTorque {
        before_n_m: finite(likely.before.uniform_wear)?,
        change_n_m: Span {
            low: finite(low.torque)?,
            likely: finite(likely.torque)?,
            high: finite(high.torque)?,
        },
        share,
    })
}
