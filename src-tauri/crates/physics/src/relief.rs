//! Ball-on-seat relief valve: cracking, lift, and what it passes.
//!
//! The ball sits on the sharp edge of a drilled seat. Pressure acts on the seat's area; past the
//! cracking pressure the ball lifts until the spring balances it. The area is that of the
//! frustum from the seat's edge to the nearest point of the ball,
//! `A = pi r rho (1 - (R / rho)^2)`, `rho^2 = r^2 + (sqrt(R^2 - r^2) + x)^2`, never more than the
//! seat's bore. Cracking pressure as in Esposito, *Fluid Power with Applications*, ex. 8-1.
//!
//! Left out: flow force (which makes a real ball lift less at high flow), friction (which makes a
//! real one reseat below the pressure where it cracked) and leakage of a worn seat.

pub mod seat;
pub mod seated;

use std::f64::consts::{FRAC_PI_4, PI};

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Pressure, Ratio, VolumeRate};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::loss::SeriesLoss;
use crate::range;
use crate::spring::Spring;

/// A ball relief that lets oil out to sump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallRelief {
    /// Ball, 0.6 to 50 mm, wider than the seat.
    pub ball_diameter: Length,
    /// Seat, 0.5 to 30 mm.
    pub seat_diameter: Length,
    /// Spring; its load at rest is that with the ball on the seat.
    pub spring: Spring,
    /// How far the ball can lift before it meets its stop, 0 to 20 mm.
    pub lift_stop: Length,
    /// Discharge coefficient of the opening, 0.1 to 1; 0.6 to 0.7 as a rule (from memory).
    pub discharge_coefficient: Ratio,
}

impl BallRelief {
    /// The pressure over sump at which the ball just carries no load on its seat.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`], [`PhysicsError::Contradiction`] for a ball no wider than its
    /// seat.
    pub fn cracking_pressure(&self) -> Result<Pressure, PhysicsError> {
        let law = self.law(0.0, 0.0)?;
        Ok(Pressure::new::<pascal>(law.load / law.seat_area))
    }

    /// Lift at `pressure` (0 to 10 MPa over sump).
    ///
    /// # Errors
    /// As [`BallRelief::cracking_pressure`].
    pub fn lift(&self, pressure: Pressure) -> Result<Length, PhysicsError> {
        let law = self.law(0.0, 0.0)?;
        let p = range::OIL_PRESSURE.check(pressure.get::<pascal>())?;
        Ok(Length::new::<meter>(law.lift(p)))
    }

    /// Area that oil passes at `lift` (0 to 20 mm), never more than the seat's bore.
    ///
    /// # Errors
    /// As [`BallRelief::cracking_pressure`].
    pub fn area_at(&self, lift: Length) -> Result<Area, PhysicsError> {
        let law = self.law(0.0, 0.0)?;
        let x = range::LIFT.check(lift.get::<meter>())?;
        Ok(Area::new::<square_meter>(law.area(x)))
    }

    /// Flow at `pressure` (0 to 10 MPa over sump): `Cd A sqrt(2 p / rho)`, with the creeping
    /// resistance of a slit of that area around the seat's edge in series (Roscoe 1949), so that
    /// cold oil passes less.
    ///
    /// # Errors
    /// As [`BallRelief::cracking_pressure`].
    pub fn flow(&self, pressure: Pressure, oil: &OilState) -> Result<VolumeRate, PhysicsError> {
        let (mu, rho) = oil.si()?;
        let law = self.law(mu, rho)?;
        let p = range::OIL_PRESSURE.check(pressure.get::<pascal>())?;
        Ok(VolumeRate::new::<cubic_meter_per_second>(law.flow(p)))
    }

    pub(crate) fn law(&self, mu: f64, rho: f64) -> Result<ReliefLaw, PhysicsError> {
        let ball = range::BALL_DIAMETER.check(self.ball_diameter.get::<meter>())?;
        let seat = range::SEAT_DIAMETER.check(self.seat_diameter.get::<meter>())?;
        if ball <= seat {
            return Err(PhysicsError::Contradiction {
                field: range::BALL_DIAMETER.field,
                other: range::SEAT_DIAMETER.field,
            });
        }
        let load = range::SPRING_LOAD.check_as(
            "relief_spring_load_n",
            self.spring.load_at_rest.get::<newton>(),
        )?;
        let rate = range::SPRING_RATE.check_as(
            "relief_spring_rate_n_per_m",
            self.spring.rate.get::<newton_per_meter>(),
        )?;
        let cd = range::DISCHARGE_COEFFICIENT.check(self.discharge_coefficient.get::<ratio>())?;
        let (r_ball, r_seat) = (0.5 * ball, 0.5 * seat);
        Ok(ReliefLaw {
            seat_area: FRAC_PI_4 * seat * seat,
            load,
            rate,
            stop: range::LIFT.check_as("lift_stop_m", self.lift_stop.get::<meter>())?,
            r_seat,
            height: (r_ball * r_ball - r_seat * r_seat).sqrt(),
            slit: 32.0 * mu * seat,
            jet: rho / (2.0 * cd * cd),
        })
    }
}

/// A ball relief in plain SI, for one oil.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ReliefLaw {
    seat_area: f64,
    load: f64,
    rate: f64,
    stop: f64,
    r_seat: f64,
    height: f64,
    slit: f64,
    jet: f64,
}

impl ReliefLaw {
    #[inline]
    fn lift(&self, p: f64) -> f64 {
        ((p * self.seat_area - self.load) / self.rate).clamp(0.0, self.stop)
    }

    #[inline]
    fn area(&self, lift: f64) -> f64 {
        let z = self.height + lift;
        let rho2 = self.r_seat * self.r_seat + z * z;
        // rho^2 - R^2 without cancellation, R^2 being r^2 + height^2.
        let excess = lift * (2.0 * self.height + lift);
        (PI * self.r_seat * excess / rho2.sqrt()).min(self.seat_area)
    }

    #[inline]
    pub fn flow(&self, p: f64) -> f64 {
        if p * self.seat_area <= self.load {
            return 0.0;
        }
        let area = self.area(self.lift(p));
        if area <= 0.0 {
            return 0.0;
        }
        // Slit of width A / (pi d): 32 mu / (pi h^2 b) = 32 mu d / A^2.
        let r2 = 1.0 / (area * area);
        SeriesLoss {
            linear: self.slit * r2,
            quadratic: self.jet * r2,
        }
        .flow(p)
    }
}
