//! What a reducing regulator is made of: the numbers a person can measure or look up.
//!
//! **Direction.** The spool position x is 0 where the spring has pushed the spool to its stop
//! with the supply wide open. The pressure in the reaction chamber drives the spool toward larger
//! x, against the spring; as it does, the supply must close and the exhaust, if there is one,
//! must open.
//!
//! **Pressures** are gauge pressures over the sump.

use uom::si::f64::{Area, Force, Length, Pressure, VolumeRate};

use crate::fluid::OilState;
use crate::gap::Annulus;
use crate::opening::Opening;
use crate::orifice::Orifice;
use crate::relief::BallRelief;
use crate::spring::Spring;

/// The most land leaks that one regulator may have.
pub const MAX_LEAKS: usize = 12;

/// A place with one pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Node {
    /// The line that supplies the regulator; its pressure is given.
    Line,
    /// The regulated outlet, which feeds the solenoids (P_S).
    Feed,
    /// The chamber behind the balance orifice, acting on the reaction area (P_F).
    Reaction,
    /// The chamber with the spring (P_drain).
    SpringChamber,
    /// The sump, 0 Pa.
    Sump,
    /// A neighbouring passage held at a known gauge pressure, 0 to 10 MPa.
    Fixed(Pressure),
}

/// Oil that passes a land from one passage to its neighbour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandLeak {
    /// The clearance at the regulating position.
    pub annulus: Annulus,
    /// Where flow counts as positive from.
    pub from: Node,
    /// Where flow counts as positive to.
    pub to: Node,
}

/// How the spring chamber is emptied.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Drain {
    /// Open to sump without a drop.
    Open,
    /// Shut: what leaks into the chamber can leave only past the lands.
    Blocked,
    /// Open to sump through an orifice.
    Orifice(Orifice),
}

/// What the solenoids take from the feed.
///
/// They are taken together as equal sharp-edged outlets to sump, sized so that they pass `flow`
/// at `at_pressure` in the oil `stated_in`; so the demand falls by itself in cold oil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// Flow of all outlets together, 0 to 30 L/min. Zero for a dead-headed circuit.
    pub flow: VolumeRate,
    /// The feed pressure at which `flow` was stated, 10 kPa to 10 MPa.
    pub at_pressure: Pressure,
    /// Through how many equal outlets it leaves, 1 to 64.
    pub outlets: u32,
    /// The oil in which it was stated, as a rule hot.
    pub stated_in: OilState,
}

/// A complete reducing regulator.
#[derive(Debug, Clone, PartialEq)]
pub struct Regulator {
    /// Area on which the reaction chamber's pressure acts (A_r), 1 mm2 to 50 cm2.
    pub reaction_area: Area,
    /// Area on which the spring chamber's pressure acts (A_c), 1 mm2 to 50 cm2. A difference
    /// between the two areas is taken to see sump pressure.
    pub spring_side_area: Area,
    /// The spring: its load at x = 0 and its rate.
    pub spring: Spring,
    /// Travel from the open stop (x = 0) to the closed stop, 0.1 to 50 mm.
    pub stroke: Length,
    /// The edge that lets line into feed. Must close as the spool advances.
    pub supply: Opening,
    /// The edge that lets feed out to sump, if this regulator has one. Must open as the spool
    /// advances.
    pub exhaust: Option<Opening>,
    /// The orifice between feed and reaction chamber; none when the two are one space.
    pub balance_orifice: Option<Orifice>,
    /// Every land that leaks, each to its own neighbour; at most [`MAX_LEAKS`].
    pub leaks: Vec<LandLeak>,
    /// How the spring chamber is emptied.
    pub spring_chamber_drain: Drain,
    /// Dry friction of the spool in its bore, 0 to 500 N; opposes whichever way it moves.
    pub friction: Force,
    /// What the solenoids take.
    pub demand: Demand,
    /// A relief valve from feed to sump, if there is one.
    pub relief: Option<BallRelief>,
}
