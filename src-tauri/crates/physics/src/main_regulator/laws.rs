//! A main regulator brought to one oil: every law as plain SI numbers.

use std::sync::Arc;

use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::surface_tension::newton_per_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use super::description::{MainNode, MainRegulator, Pump};
use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::gap_oil;
use crate::loss::SeriesLoss;
use crate::opening::OpeningLaw;
use crate::orifice::OrificeLaw;
use crate::range;
use crate::regulator::{DemandLaw, demand_law};
use crate::relief::ReliefLaw;

/// A main regulator in one oil, checked and ready to be solved for any pump and boost.
#[derive(Debug, Clone)]
pub struct MainCircuit {
    pub(super) laws: MainLaws,
    pub(super) viscosity: f64,
    pub(super) assumptions: Arc<[Assumption]>,
}

/// Pressures, Pa over sump.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MainPressures {
    pub line: f64,
    pub reaction: f64,
    pub boost: f64,
    /// What the solenoid gives.
    pub supply: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum MainEnd {
    Line,
    Reaction,
    Boost,
    Held(f64),
}

impl MainPressures {
    #[inline]
    fn at(&self, end: MainEnd) -> f64 {
        match end {
            MainEnd::Line => self.line,
            MainEnd::Reaction => self.reaction,
            MainEnd::Boost => self.boost,
            MainEnd::Held(p) => p,
        }
    }
}

#[derive(Debug, Clone, Copy)]
pub(super) struct MainLeakLaw {
    loss: SeriesLoss,
    from: MainEnd,
    to: MainEnd,
}

impl MainLeakLaw {
    #[inline]
    pub fn flow(&self, p: &MainPressures) -> f64 {
        self.loss.flow(p.at(self.from) - p.at(self.to))
    }
}

/// A pump in one oil.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PumpLaw {
    pub ideal: f64,
    pub slip_per_pascal: f64,
}

impl PumpLaw {
    #[inline]
    pub fn flow(&self, line: f64) -> f64 {
        self.ideal - self.slip_per_pascal * line
    }
}

/// Everything of [`MainRegulator`] that the balance needs, in SI.
#[derive(Debug, Clone)]
pub(super) struct MainLaws {
    pub reaction_area: f64,
    pub boost_area: f64,
    pub load: f64,
    pub rate: f64,
    pub stroke: f64,
    pub friction: f64,
    pub density: f64,
    pub dump: OpeningLaw,
    /// The edge and the pressure behind it.
    pub overflow: Option<(OpeningLaw, f64)>,
    pub balance: Option<OrificeLaw>,
    pub boost_orifice: Option<OrificeLaw>,
    pub demand: Option<DemandLaw>,
    pub relief: Option<ReliefLaw>,
    pub leaks: Vec<MainLeakLaw>,
    /// The highest pressure that a neighbour is held at.
    pub highest_held: f64,
}

impl MainLaws {
    /// Net flow into `node` from all land leaks.
    #[inline]
    pub fn leaks_into(&self, node: MainEnd, p: &MainPressures) -> f64 {
        let mut sum = 0.0;
        for leak in &self.leaks {
            if leak.to == node {
                sum += leak.flow(p);
            } else if leak.from == node {
                sum -= leak.flow(p);
            }
        }
        sum
    }

    pub fn touched(&self, node: MainEnd) -> bool {
        self.leaks.iter().any(|l| l.from == node || l.to == node)
    }

    pub fn reaction_meets_boost(&self) -> bool {
        let (a, b) = (MainEnd::Reaction, MainEnd::Boost);
        self.leaks
            .iter()
            .any(|l| (l.from, l.to) == (a, b) || (l.from, l.to) == (b, a))
    }
}

impl MainRegulator {
    /// Checks every number, refuses a valve that can't work, and brings the rest to one oil.
    ///
    /// # Errors
    /// [`PhysicsError::MainRegulator`] with the first of [`MainRegulator::findings`];
    /// [`PhysicsError::OutOfRange`] or [`PhysicsError::Contradiction`] naming the field.
    pub fn circuit(&self, oil: &OilState) -> Result<MainCircuit, PhysicsError> {
        let (mu, rho) = oil.si()?;
        let mut highest_held: f64 = 0.0;
        let mut end = |node: MainNode| -> Result<MainEnd, PhysicsError> {
            Ok(match node {
                MainNode::Line => MainEnd::Line,
                MainNode::Reaction => MainEnd::Reaction,
                MainNode::Boost => MainEnd::Boost,
                MainNode::Sump => MainEnd::Held(0.0),
                MainNode::Fixed(p) => {
                    let p = range::NEIGHBOUR_PRESSURE.check(p.get::<pascal>())?;
                    highest_held = highest_held.max(p);
                    MainEnd::Held(p)
                }
            })
        };
        let mut leaks = Vec::with_capacity(self.leaks.len());
        for leak in &self.leaks {
            leaks.push(MainLeakLaw {
                loss: gap_oil::law(&leak.annulus, mu, rho),
                from: end(leak.from)?,
                to: end(leak.to)?,
            });
        }
        let area = |field, area: uom::si::f64::Area| {
            range::SPOOL_AREA.check_as(field, area.get::<square_meter>())
        };
        let overflow = match &self.overflow {
            None => None,
            Some(o) => {
                let p = range::NEIGHBOUR_PRESSURE
                    .check_as("overflow_pressure_pa", o.pressure.get::<pascal>())?;
                highest_held = highest_held.max(p);
                Some((o.edge.law(mu, rho)?, p))
            }
        };
        let laws = MainLaws {
            reaction_area: area("reaction_area_m2", self.reaction_area)?,
            boost_area: area("boost_area_m2", self.boost_area)?,
            load: range::SPRING_LOAD.check(self.spring.load_at_rest.get::<newton>())?,
            rate: range::SPRING_RATE.check(self.spring.rate.get::<newton_per_meter>())?,
            stroke: range::STROKE.check(self.stroke.get::<meter>())?,
            friction: range::FRICTION.check(self.friction.get::<newton>())?,
            density: rho,
            dump: self.dump.law(mu, rho)?,
            overflow,
            balance: self.balance_orifice.map(|o| o.law(mu, rho)).transpose()?,
            boost_orifice: self.boost_orifice.map(|o| o.law(mu, rho)).transpose()?,
            demand: demand_law(&self.demand, mu, rho)?,
            relief: self.relief.map(|r| r.law(mu, rho)).transpose()?,
            leaks,
            highest_held,
        };
        // After the numbers, so that a nonsensical one is told as such.
        if let Some(&finding) = self.findings().first() {
            return Err(finding.into());
        }
        Ok(MainCircuit {
            laws,
            viscosity: mu,
            assumptions: self.assumptions(oil),
        })
    }

    fn assumptions(&self, oil: &OilState) -> Arc<[Assumption]> {
        let mut list = vec![
            Assumption::PressuresOverSump,
            Assumption::SquareLands,
            Assumption::JetAngle,
            Assumption::ChamberDrainedFreely,
            Assumption::PumpSlipLaminar,
        ];
        if !self.leaks.is_empty() {
            list.extend([
                Assumption::LaminarFilm,
                Assumption::EntryExitLoss,
                Assumption::LandLengthsFixed,
            ]);
        }
        if self.balance_orifice.is_some() || self.boost_orifice.is_some() {
            note(&mut list, Assumption::OrificeLaw);
        }
        if self.demand.flow.value > 0.0 {
            note(&mut list, Assumption::DemandAsEdges);
        }
        if self.friction.value > 0.0 {
            note(&mut list, Assumption::DryFriction);
        }
        if self.relief.is_some() {
            note(&mut list, Assumption::ReliefWithoutFlowForce);
        }
        if oil.extrapolated {
            note(&mut list, Assumption::ViscosityExtrapolated);
        }
        list.into()
    }
}

impl Pump {
    pub(super) fn law(&self, viscosity: f64) -> Result<PumpLaw, PhysicsError> {
        let ideal = range::PUMP_FLOW.check(self.ideal_flow.get::<cubic_meter_per_second>())?;
        let slip = range::PUMP_FLOW.check_as(
            "pump_slip_m3_per_s",
            self.slip.get::<cubic_meter_per_second>(),
        )?;
        let at = range::DEMAND_PRESSURE
            .check_as("pump_slip_pressure_pa", self.at_pressure.get::<pascal>())?;
        self.stated_in.si()?;
        let thinner = self.stated_in.viscosity.get::<pascal_second>() / viscosity;
        Ok(PumpLaw {
            ideal,
            slip_per_pascal: slip / at * thinner,
        })
    }
}
