//! A spring-loaded relief on any seat: cracking, lift with the force of its own jet, override,
//! reseat, and the spring for a wanted setpoint.
//!
//! At the pressure p over sump the part stands at the lift x where
//!
//! `p A_s = F0 + k x + C_d C_v 2 p A(x) cos(theta)`
//!
//! with A_s the area inside the sealing circle, A(x) the opening ([`crate::relief::seat`]) and
//! theta the angle at which the jet leaves: the momentum of the oil carried along the axis pushes
//! the part shut (Merritt, *Hydraulic Control Systems*, ch. 5 and 7). Friction holds it back on
//! either way: it cracks at `(F0 + f) / A_s` and reseats at `(F0 - f) / A_s`. Flow is
//! `Cd A sqrt(2 p / rho)` behind the creeping resistance of a slit of that area (Roscoe 1949), the
//! law of [`crate::relief::BallRelief`]. Cracking as in Esposito, *Fluid Power with Applications*,
//! ex. 8-1.

use uom::si::area::square_meter;
use uom::si::f64::{Area, Force, Length, Pressure, Ratio, VolumeRate};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::flow_force::VELOCITY_COEFFICIENT;
use crate::fluid::OilState;
use crate::loss::SeriesLoss;
use crate::range;
use crate::relief::seat::{Seat, SeatLaw};
use crate::root;
use crate::spring::{Spring, SpringRate};

/// A relief that lets oil out to sump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeatedRelief {
    /// What seals.
    pub seat: Seat,
    /// Spring; its load at rest is that with the part on its seat.
    pub spring: Spring,
    /// How far the part can lift, 0 to 20 mm.
    pub lift_stop: Length,
    /// Discharge coefficient of the opening, 0.1 to 1; 0.6 to 0.7 as a rule (from memory).
    pub discharge_coefficient: Ratio,
    /// Friction of the moving part, 0 to 100 N.
    pub friction: Force,
    /// Whether the jet's force counts. Without it the relief passes more at a pressure.
    pub jet_force: bool,
}

/// A relief at one pressure.
#[derive(Debug, Clone, PartialEq)]
pub struct ReliefPoint {
    /// Pressure over sump.
    pub pressure: Pressure,
    /// Lift.
    pub lift: Length,
    /// Opening.
    pub area: Area,
    /// What it passes.
    pub flow: VolumeRate,
    /// Whether the opening is as wide as it gets: at the stop, or the seat's whole bore.
    pub wide_open: bool,
}

/// Pressure against flow.
#[derive(Debug, Clone, PartialEq)]
pub struct OverrideCurve {
    /// Where it cracks, friction included.
    pub cracking: Pressure,
    /// Where it shuts again; zero when friction holds the part off its seat for good.
    pub reseat: Pressure,
    /// From no flow to the flow asked for.
    pub points: Vec<ReliefPoint>,
    /// Pressure at the flow asked for, less cracking pressure.
    pub override_pressure: Pressure,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

struct Law {
    seat: SeatLaw,
    load: f64,
    rate: f64,
    stop: f64,
    cd: f64,
    friction: f64,
    jet_force: bool,
    mu: f64,
    rho: f64,
}

impl SeatedRelief {
    /// The pressure over sump at which the part leaves its seat, friction included.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for a ball no wider than its
    /// seat.
    pub fn cracking_pressure(&self) -> Result<Pressure, PhysicsError> {
        Ok(Pressure::new::<pascal>(self.law(None)?.cracking()))
    }

    /// The pressure over sump at which the part is back on its seat; zero if friction exceeds the
    /// spring's load.
    ///
    /// # Errors
    /// As [`SeatedRelief::cracking_pressure`].
    pub fn reseat_pressure(&self) -> Result<Pressure, PhysicsError> {
        Ok(Pressure::new::<pascal>(self.law(None)?.reseat()))
    }

    /// Opening at `lift` (0 to 20 mm).
    ///
    /// # Errors
    /// As [`SeatedRelief::cracking_pressure`].
    pub fn area_at(&self, lift: Length) -> Result<Area, PhysicsError> {
        let law = self.law(None)?;
        let x = range::LIFT.check(lift.get::<meter>())?;
        Ok(Area::new::<square_meter>(law.seat.opening(x)))
    }

    /// Lift, opening and flow at `pressure` (0 to 10 MPa over sump), rising.
    ///
    /// # Errors
    /// As [`SeatedRelief::cracking_pressure`].
    pub fn at(&self, pressure: Pressure, oil: &OilState) -> Result<ReliefPoint, PhysicsError> {
        let law = self.law(Some(oil))?;
        let p = range::OIL_PRESSURE.check(pressure.get::<pascal>())?;
        Ok(law.point(p))
    }

    /// Pressure against flow from nothing to `flow`, in `points` (2 to 200) even steps of flow.
    ///
    /// # Errors
    /// As [`SeatedRelief::cracking_pressure`]; [`PhysicsError::NoSolution`] for
    /// `relief_flow_m3_per_s` when the relief can't pass that below 10 MPa.
    pub fn override_curve(
        &self,
        flow: VolumeRate,
        points: u32,
        oil: &OilState,
    ) -> Result<OverrideCurve, PhysicsError> {
        let law = self.law(Some(oil))?;
        let most = range::RELIEF_FLOW.check(flow.get::<cubic_meter_per_second>())?;
        let n = range::within("point_count_ratio", f64::from(points), 2.0, 200.0, "1")?;
        let crack = law.cracking();
        let mut list = Vec::with_capacity(points as usize);
        for i in 0..points {
            let q = most * f64::from(i) / (n - 1.0);
            list.push(law.point(law.pressure(q)?));
        }
        let last = list.last().map_or(crack, |p| p.pressure.get::<pascal>());
        Ok(OverrideCurve {
            cracking: Pressure::new::<pascal>(crack),
            reseat: Pressure::new::<pascal>(law.reseat()),
            points: list,
            override_pressure: Pressure::new::<pascal>(last - crack),
            assumptions: self.assumptions(oil),
        })
    }

    /// The spring with which this seat cracks at `setpoint` and passes `flow` at
    /// `setpoint + allowed`: its load on the seat, and the highest rate that still does. A softer
    /// spring overrides less. The spring, and the stop only as far as it must lift, are otherwise
    /// as in `self`.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]: the inputs, or a load or rate beyond the table;
    /// [`PhysicsError::NoSolution`] for `spring_rate_n_per_m` when no spring can: the seat is too
    /// small for the flow, the stop too near, or the jet's force takes all of `allowed`.
    pub fn spring_for(
        &self,
        setpoint: Pressure,
        allowed: Pressure,
        flow: VolumeRate,
        oil: &OilState,
    ) -> Result<Spring, PhysicsError> {
        let law = self.law(Some(oil))?;
        let crack = range::SETPOINT.check(setpoint.get::<pascal>())?;
        let over = range::within("override_pa", allowed.get::<pascal>(), 1e3, 1e7, "Pa")?;
        let q = range::RELIEF_FLOW.check(flow.get::<cubic_meter_per_second>())?;
        let p = range::OIL_PRESSURE.check(crack + over)?;
        let load = range::SPRING_LOAD.check(crack * law.seat.area - law.friction)?;
        let none = PhysicsError::NoSolution {
            what: range::SPRING_RATE.field,
        };
        let short = |x: f64| law.flow(p, law.seat.opening(x)) - q;
        let lift =
            root::between(range::LIFT.field, 0.0, law.stop, short).map_err(|_| none.clone())?;
        let rate = (law.push(p, lift) - load - law.friction) / lift;
        if !(rate.is_finite() && rate > 0.0) {
            return Err(none);
        }
        Ok(Spring {
            load_at_rest: Force::new::<newton>(load),
            rate: SpringRate::new::<newton_per_meter>(range::SPRING_RATE.check(rate)?),
        })
    }

    fn assumptions(&self, oil: &OilState) -> Vec<Assumption> {
        let mut list = vec![Assumption::ReliefSeatArea, Assumption::PressuresOverSump];
        list.push(if self.jet_force {
            Assumption::ReliefFlowForce
        } else {
            Assumption::ReliefWithoutFlowForce
        });
        if oil.extrapolated {
            list.push(Assumption::ViscosityExtrapolated);
        }
        list
    }

    fn law(&self, oil: Option<&OilState>) -> Result<Law, PhysicsError> {
        let (mu, rho) = oil.map_or(Ok((0.0, 0.0)), OilState::si)?;
        let load = self.spring.load_at_rest.get::<newton>();
        let rate = self.spring.rate.get::<newton_per_meter>();
        Ok(Law {
            seat: self.seat.law()?,
            load: range::SPRING_LOAD.check_as("relief_spring_load_n", load)?,
            rate: range::SPRING_RATE.check_as("relief_spring_rate_n_per_m", rate)?,
            stop: range::LIFT.check_as("lift_stop_m", self.lift_stop.get::<meter>())?,
            cd: range::DISCHARGE_COEFFICIENT.check(self.discharge_coefficient.get::<ratio>())?,
            friction: range::RELIEF_FRICTION.check(self.friction.get::<newton>())?,
            jet_force: self.jet_force,
            mu,
            rho,
        })
    }
}

impl Law {
    fn cracking(&self) -> f64 {
        (self.load + self.friction) / self.seat.area
    }

    fn reseat(&self) -> f64 {
        ((self.load - self.friction) / self.seat.area).max(0.0)
    }

    /// Pressure's force at the lift x, less the jet's.
    fn push(&self, p: f64, x: f64) -> f64 {
        let jet = if self.jet_force {
            2.0 * self.cd * VELOCITY_COEFFICIENT * self.seat.opening(x) * self.seat.jet_cosine(x)
        } else {
            0.0
        };
        p * (self.seat.area - jet)
    }

    fn lift(&self, p: f64) -> f64 {
        let net = |x: f64| self.push(p, x) - self.load - self.friction - self.rate * x;
        let shut = net(0.0);
        if shut <= 0.0 {
            return 0.0;
        }
        let open = net(self.stop);
        if open >= 0.0 {
            return self.stop;
        }
        root::bracketed(net, 0.0, shut, self.stop, open, 0.0)
    }

    fn flow(&self, p: f64, area: f64) -> f64 {
        let r2 = 1.0 / (area * area);
        if !r2.is_finite() {
            return 0.0;
        }
        SeriesLoss {
            linear: 32.0 * self.mu * self.seat.diameter * r2,
            quadratic: self.rho / (2.0 * self.cd * self.cd) * r2,
        }
        .flow(p)
    }

    fn point(&self, p: f64) -> ReliefPoint {
        let x = self.lift(p);
        let area = self.seat.opening(x);
        ReliefPoint {
            pressure: Pressure::new::<pascal>(p),
            lift: Length::new::<meter>(x),
            area: Area::new::<square_meter>(area),
            flow: VolumeRate::new::<cubic_meter_per_second>(self.flow(p, area)),
            wide_open: x >= self.stop || area >= self.seat.bore,
        }
    }

    /// Pressure at which `q` passes.
    fn pressure(&self, q: f64) -> Result<f64, PhysicsError> {
        let crack = self.cracking();
        if q <= 0.0 {
            return range::OIL_PRESSURE.check(crack);
        }
        let field = range::RELIEF_FLOW.field;
        let short = |p: f64| self.flow(p, self.seat.opening(self.lift(p))) - q;
        root::between(field, crack, range::OIL_PRESSURE.high, short)
    }
}
