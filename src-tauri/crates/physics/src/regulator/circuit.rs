//! A regulator brought to one oil: every law as plain SI numbers, ready to be solved often.

use std::sync::Arc;

use uom::si::area::square_meter;
use uom::si::f64::Ratio;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use super::description::{Demand, Drain, MAX_LEAKS, Node, Regulator};
use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::gap_oil;
use crate::loss::SeriesLoss;
use crate::opening::{Opening, OpeningLaw};
use crate::orifice::OrificeLaw;
use crate::range::{self, within};
use crate::relief::ReliefLaw;
use crate::root::bracketed;

/// A regulator in one oil, checked and ready to be solved for any line pressure.
#[derive(Debug, Clone)]
pub struct Circuit {
    pub(super) laws: Laws,
    pub(super) assumptions: Arc<[Assumption]>,
}

/// Pressures, Pa over sump.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pressures {
    pub line: f64,
    pub feed: f64,
    pub reaction: f64,
    pub chamber: f64,
}

/// One end of a leak.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum End {
    Line,
    Feed,
    Reaction,
    Chamber,
    Held(f64),
}

impl Pressures {
    #[inline]
    pub fn at(&self, end: End) -> f64 {
        match end {
            End::Line => self.line,
            End::Feed => self.feed,
            End::Reaction => self.reaction,
            End::Chamber => self.chamber,
            End::Held(p) => p,
        }
    }
}

#[derive(Debug, Clone, Copy)]
pub(super) struct LeakLaw {
    pub loss: SeriesLoss,
    pub from: End,
    pub to: End,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum DrainLaw {
    Open,
    Blocked,
    Orifice(OrificeLaw),
}

#[derive(Debug, Clone, Copy)]
pub(crate) struct DemandLaw {
    outlets: f64,
    outlet: OrificeLaw,
}

impl DemandLaw {
    #[inline]
    pub fn flow(&self, feed: f64) -> f64 {
        self.outlets * self.outlet.flow(feed)
    }

    /// How the flow grows with feed.
    #[inline]
    pub fn slope(&self, feed: f64) -> f64 {
        self.outlets * self.outlet.slope(feed)
    }

    /// The same outlets, `scale` times as many.
    pub fn scaled(self, scale: f64) -> Self {
        Self {
            outlets: self.outlets * scale,
            ..self
        }
    }
}

/// Everything of [`Regulator`] that the balance needs, in SI.
#[derive(Debug, Clone)]
pub(super) struct Laws {
    pub reaction_area: f64,
    pub chamber_area: f64,
    pub load: f64,
    pub rate: f64,
    pub stroke: f64,
    pub friction: f64,
    pub density: f64,
    pub viscosity: f64,
    pub supply: OpeningLaw,
    pub exhaust: Option<OpeningLaw>,
    pub orifice: Option<OrificeLaw>,
    pub drain: DrainLaw,
    pub demand: Option<DemandLaw>,
    pub relief: Option<ReliefLaw>,
    leaks: [Option<LeakLaw>; MAX_LEAKS],
    /// Solve in the feed pressure rather than in the reaction pressure.
    pub feed_first: bool,
    /// The reaction chamber trades oil with the spring chamber.
    pub reaction_meets_chamber: bool,
    /// The highest pressure that a neighbour is held at.
    pub highest_held: f64,
}

impl Laws {
    pub fn leaks(&self) -> impl Iterator<Item = &LeakLaw> {
        self.leaks.iter().map_while(Option::as_ref)
    }

    pub fn leaks_mut(&mut self) -> impl Iterator<Item = &mut LeakLaw> {
        self.leaks.iter_mut().map_while(Option::as_mut)
    }

    /// Settles in which unknown the balance is solved.
    ///
    /// From the reaction pressure the feed pressure follows at once, unless the reaction chamber
    /// meets feed or the spring chamber. Where its leaks pass far more than the orifice, the
    /// reaction pressure is pinned to a neighbour's and no longer tells feed.
    pub fn choose_unknown(&mut self) {
        let meet = |a: End, b: End| {
            self.leaks()
                .any(|l| (l.from == a && l.to == b) || (l.from == b && l.to == a))
        };
        let pinned = self.orifice.is_some_and(|o| {
            let touches = |l: &&LeakLaw| l.from == End::Reaction || l.to == End::Reaction;
            let passes: f64 = self
                .leaks()
                .filter(touches)
                .map(|l| 1.0 / l.loss.linear)
                .sum();
            o.steepest(range::OIL_PRESSURE.high) * passes > 100.0
        });
        let reaction_meets_chamber = meet(End::Reaction, End::Chamber);
        self.feed_first = self.orifice.is_some()
            && (pinned || reaction_meets_chamber || meet(End::Reaction, End::Feed));
        self.reaction_meets_chamber = reaction_meets_chamber;
    }

    /// Net flow into `node` from all land leaks.
    #[inline]
    pub fn leaks_into(&self, node: End, p: &Pressures) -> f64 {
        let mut sum = 0.0;
        for leak in self.leaks() {
            if leak.to == node {
                sum += leak.loss.flow(p.at(leak.from) - p.at(leak.to));
            } else if leak.from == node {
                sum -= leak.loss.flow(p.at(leak.from) - p.at(leak.to));
            }
        }
        sum
    }
}

impl Regulator {
    /// Checks every number, refuses a valve that can't work, and brings the rest to one oil.
    ///
    /// # Errors
    /// [`PhysicsError::Regulator`] with the first of [`Regulator::findings`];
    /// [`PhysicsError::OutOfRange`] or [`PhysicsError::Contradiction`] naming the field.
    pub fn circuit(&self, oil: &OilState) -> Result<Circuit, PhysicsError> {
        let (mu, rho) = oil.si()?;
        let mut leaks = [None; MAX_LEAKS];
        let mut highest_held: f64 = 0.0;
        let mut end = |node: Node| -> Result<End, PhysicsError> {
            Ok(match node {
                Node::Line => End::Line,
                Node::Feed => End::Feed,
                Node::Reaction => End::Reaction,
                Node::SpringChamber => End::Chamber,
                Node::Sump => End::Held(0.0),
                Node::Fixed(p) => {
                    let p = range::NEIGHBOUR_PRESSURE.check(p.get::<pascal>())?;
                    highest_held = highest_held.max(p);
                    End::Held(p)
                }
            })
        };
        for (slot, leak) in leaks.iter_mut().zip(&self.leaks) {
            *slot = Some(LeakLaw {
                loss: gap_oil::law(&leak.annulus, mu, rho),
                from: end(leak.from)?,
                to: end(leak.to)?,
            });
        }
        let orifice = self.balance_orifice.map(|o| o.law(mu, rho)).transpose()?;
        let mut laws = Laws {
            reaction_area: range::SPOOL_AREA
                .check_as("reaction_area_m2", self.reaction_area.get::<square_meter>())?,
            chamber_area: range::SPOOL_AREA.check_as(
                "spring_side_area_m2",
                self.spring_side_area.get::<square_meter>(),
            )?,
            load: range::SPRING_LOAD.check(self.spring.load_at_rest.get::<newton>())?,
            rate: range::SPRING_RATE.check(self.spring.rate.get::<newton_per_meter>())?,
            stroke: range::STROKE.check(self.stroke.get::<meter>())?,
            friction: range::FRICTION.check(self.friction.get::<newton>())?,
            density: rho,
            viscosity: mu,
            supply: self.supply.law(mu, rho)?,
            exhaust: self.exhaust.map(|e| e.law(mu, rho)).transpose()?,
            orifice,
            drain: match self.spring_chamber_drain {
                Drain::Open => DrainLaw::Open,
                Drain::Blocked => DrainLaw::Blocked,
                Drain::Orifice(o) => DrainLaw::Orifice(o.law(mu, rho)?),
            },
            demand: demand_law(&self.demand, mu, rho)?,
            relief: self.relief.map(|r| r.law(mu, rho)).transpose()?,
            leaks,
            feed_first: false,
            reaction_meets_chamber: false,
            highest_held,
        };
        laws.choose_unknown();
        // After the numbers, so that a nonsensical one is told as such.
        if let Some(&finding) = self.findings().first() {
            return Err(finding.into());
        }
        Ok(Circuit {
            laws,
            assumptions: self.assumptions(oil),
        })
    }

    fn assumptions(&self, oil: &OilState) -> Arc<[Assumption]> {
        let mut list = vec![
            Assumption::PressuresOverSump,
            Assumption::SquareLands,
            Assumption::JetAngle,
        ];
        let windows = |o: &Opening| o.window.is_some();
        if windows(&self.supply) || self.exhaust.as_ref().is_some_and(windows) {
            list.extend([
                Assumption::WindowUnrolled,
                Assumption::CoveredWindowFilm,
                Assumption::JetOfWindow,
            ]);
        }
        if !self.leaks.is_empty() {
            list.extend([
                Assumption::LaminarFilm,
                Assumption::EntryExitLoss,
                Assumption::LandLengthsFixed,
            ]);
        }
        if self.orifices().next().is_some() {
            note(&mut list, Assumption::OrificeLaw);
        }
        if self.demand.flow.value > 0.0 {
            note(&mut list, Assumption::DemandAsEdges);
        }
        if self.spring_chamber_drain == Drain::Open {
            note(&mut list, Assumption::ChamberDrainedFreely);
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

impl Circuit {
    /// What every result of this circuit assumes.
    #[must_use]
    pub fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    /// The same circuit with a balance orifice that passes `scale` times what its law says (0.1
    /// to 10). With `flow_low / flow` and `flow_high / flow` of
    /// [`crate::orifice::Discharge`] the spread of the published laws goes through to feed.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
    pub fn with_orifice_scale(mut self, scale: Ratio) -> Result<Self, PhysicsError> {
        let s = range::ORIFICE_SCALE.check(scale.get::<ratio>())?;
        self.laws.orifice = self.laws.orifice.map(|o| o.scaled(s));
        Ok(self)
    }
}

/// Equal sharp-edged outlets that pass the stated flow at the stated pressure in the stated oil.
pub(crate) fn demand_law(
    demand: &Demand,
    mu: f64,
    rho: f64,
) -> Result<Option<DemandLaw>, PhysicsError> {
    let flow = range::DEMAND_FLOW.check(demand.flow.get::<cubic_meter_per_second>())?;
    let p = range::DEMAND_PRESSURE.check(demand.at_pressure.get::<pascal>())?;
    let outlets = within(
        "demand_outlets_ratio",
        f64::from(demand.outlets),
        1.0,
        64.0,
        "1",
    )?;
    let (mu_stated, rho_stated) = demand.stated_in.si()?;
    if flow == 0.0 {
        return Ok(None);
    }
    let share = flow / outlets;
    let shortfall = |d: f64| OrificeLaw::new(d, 0.0, mu_stated, rho_stated).flow(p) / share - 1.0;
    let (low, high) = (1e-7, 0.5);
    let d = bracketed(shortfall, low, shortfall(low), high, shortfall(high), 0.0);
    if shortfall(d).abs() > 1e-6 {
        return Err(PhysicsError::NoSolution {
            what: "demand_outlet_diameter_m",
        });
    }
    Ok(Some(DemandLaw {
        outlets,
        outlet: OrificeLaw::new(d, 0.0, mu, rho),
    }))
}
