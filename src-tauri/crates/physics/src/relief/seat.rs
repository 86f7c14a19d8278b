//! The seat of a relief: where it seals, and what it opens at a lift.
//!
//! Each area is the lateral surface of a frustum from the sealing circle to the nearest point of
//! the other part, never more than the bore below the seat:
//!
//! - ball of radius R on a sharp edge of radius r: `A = pi r q (1 - (R/q)^2)`,
//!   `q^2 = r^2 + (sqrt(R^2 - r^2) + x)^2`;
//! - ball of diameter D in a conical seat of half angle a from the axis: it touches at diameter
//!   `D cos a`, and `A = pi x sin a (D cos a + x sin a cos a)`;
//! - cone of half angle a on a sharp edge of diameter d: `A = pi x sin a (d - x sin a cos a)`.
//!
//! Geometry (nearest points); the last is also Merritt, *Hydraulic Control Systems*, ch. 7, poppet
//! (from memory).

use std::f64::consts::{FRAC_PI_4, PI};

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::meter;

use crate::error::PhysicsError;
use crate::range;

/// A ball or cone and what it sits on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Seat {
    /// A ball on the sharp edge of a drilled hole.
    BallOnEdge {
        /// Ball, 0.6 to 50 mm, wider than the hole.
        ball: Length,
        /// Hole, 0.5 to 30 mm.
        bore: Length,
    },
    /// A ball in a conical seat.
    BallOnCone {
        /// Ball, 0.6 to 50 mm.
        ball: Length,
        /// Half the cone's angle, from the axis, 0.15 to 1.5 rad.
        half_angle: Angle,
        /// Hole below the cone, at most as wide as the circle where the ball touches.
        bore: Length,
    },
    /// A conical poppet on the sharp edge of a drilled hole.
    ConeOnEdge {
        /// Half the poppet's angle, from the axis, 0.15 to 1.5 rad.
        half_angle: Angle,
        /// Hole, 0.5 to 30 mm.
        bore: Length,
    },
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    BallOnEdge { r: f64, height: f64 },
    BallOnCone { d: f64, sin: f64, cos: f64 },
    ConeOnEdge { d: f64, sin: f64, cos: f64 },
}

/// A seat in plain SI.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SeatLaw {
    kind: Kind,
    /// Area on which the pressure acts with the seat shut.
    pub area: f64,
    /// Area of the bore below, the most that the opening can be.
    pub bore: f64,
    /// Diameter at which it seals.
    pub diameter: f64,
}

impl Seat {
    pub(crate) fn law(&self) -> Result<SeatLaw, PhysicsError> {
        let bore_of = |l: Length| range::SEAT_DIAMETER.check(l.get::<meter>());
        let ball_of = |l: Length| range::BALL_DIAMETER.check(l.get::<meter>());
        let angle_of = |a: Angle| range::SEAT_HALF_ANGLE.check(a.get::<radian>());
        let contradiction = Err(PhysicsError::Contradiction {
            field: range::BALL_DIAMETER.field,
            other: range::SEAT_DIAMETER.field,
        });
        let (kind, sealing, bore) = match *self {
            Self::BallOnEdge { ball, bore } => {
                let (big, r) = (0.5 * ball_of(ball)?, 0.5 * bore_of(bore)?);
                if big <= r {
                    return contradiction;
                }
                let height = (big * big - r * r).sqrt();
                (Kind::BallOnEdge { r, height }, 2.0 * r, 2.0 * r)
            }
            Self::BallOnCone {
                ball,
                half_angle,
                bore,
            } => {
                let (d, a, bore) = (ball_of(ball)?, angle_of(half_angle)?, bore_of(bore)?);
                let (sin, cos) = a.sin_cos();
                if bore > d * cos {
                    return contradiction;
                }
                (Kind::BallOnCone { d, sin, cos }, d * cos, bore)
            }
            Self::ConeOnEdge { half_angle, bore } => {
                let (a, d) = (angle_of(half_angle)?, bore_of(bore)?);
                let (sin, cos) = a.sin_cos();
                (Kind::ConeOnEdge { d, sin, cos }, d, d)
            }
        };
        Ok(SeatLaw {
            kind,
            area: FRAC_PI_4 * sealing * sealing,
            bore: FRAC_PI_4 * bore * bore,
            diameter: sealing,
        })
    }
}

impl SeatLaw {
    /// Area at the lift `x >= 0`, rising to the bore's and staying there.
    pub fn opening(&self, x: f64) -> f64 {
        let area = match self.kind {
            Kind::BallOnEdge { r, height } => {
                let z = height + x;
                PI * r * x * (2.0 * height + x) / (r * r + z * z).sqrt()
            }
            Kind::BallOnCone { d, sin, cos } => PI * x * sin * (d * cos + x * sin * cos),
            Kind::ConeOnEdge { d, sin, cos } => {
                // The frustum is widest at x sin a cos a = d / 2, where it exceeds the bore by
                // 1 / cos a; past that nothing is in the way.
                let x = x.min(0.5 * d / (sin * cos));
                PI * x * sin * (d - x * sin * cos)
            }
        };
        area.min(self.bore)
    }

    /// Cosine of the angle, from the axis, at which the jet leaves at the lift `x`: along the cone,
    /// or along the ball's surface where it is nearest to the edge.
    pub fn jet_cosine(&self, x: f64) -> f64 {
        match self.kind {
            // The normal from edge to ball stands at r/q to the axis' plane; the jet is across it.
            Kind::BallOnEdge { r, height } => {
                let z = height + x;
                r / (r * r + z * z).sqrt()
            }
            Kind::BallOnCone { cos, .. } | Kind::ConeOnEdge { cos, .. } => cos,
        }
    }
}
