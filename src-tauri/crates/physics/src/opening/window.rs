//! The shape that a land uncovers: slot, holes or notches, with area and edge against opening.
//!
//! Plane geometry on the unrolled wall of the bore. With v the sharp opening (the distance that
//! the edge stands past the window's near end, never negative) each shape gives its area A(v) and
//! the width b(v) = dA/dv of the window at the edge:
//!
//! - annular slot of open circumference B: `A = B v`;
//! - n round holes of diameter d, a circle's segment: `A = n (r^2 acos(1 - v/r) - (r - v) b / 2)`,
//!   `b = 2 sqrt(v (d - v))` each, full at v = d (Merritt, *Hydraulic Control Systems*, ch. 5,
//!   names the shapes; the segment is plane geometry);
//! - n slots of width w and length l: `A = n w v`, full at v = l;
//! - n slots with a round end of radius w/2 (U): a segment up to w/2, then as a slot;
//! - n V notches of half angle a, opened from the tip: `A = n v^2 tan a`, full at v = l.
//!
//! What a covered window leaks is told by the film of `opening::film`.

use std::f64::consts::{FRAC_PI_2, PI};

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length, Ratio};
use uom::si::length::meter;
use uom::si::ratio::ratio;

use crate::error::PhysicsError;
use crate::range;

/// What a land uncovers as it moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Window {
    /// A groove around the bore, or a part of its circumference.
    AnnularSlot {
        /// Diameter of the land, 2 to 100 mm.
        land_diameter: Length,
        /// Part of the circumference that opens, 0.005 to 1.
        circumference_fraction: Ratio,
    },
    /// Round holes, drilled through the wall.
    RoundHoles {
        /// How many, 1 to 64.
        count: u32,
        /// Diameter of each, 0.05 to 10 mm.
        diameter: Length,
    },
    /// Rectangular windows or notches.
    Slots {
        /// How many, 1 to 64.
        count: u32,
        /// Width around the bore, 0.1 to 50 mm.
        width: Length,
        /// Length along the bore, 0.1 to 50 mm.
        length: Length,
    },
    /// Slots that begin with a half circle, as an end mill leaves them.
    RoundEndedSlots {
        /// How many, 1 to 64.
        count: u32,
        /// Width around the bore, twice the end's radius.
        width: Length,
        /// Length along the bore with the round end, at least half the width.
        length: Length,
    },
    /// Triangular notches that open from their tip.
    VNotches {
        /// How many, 1 to 64.
        count: u32,
        /// Half the angle at the tip, 0.05 to 1.5 rad.
        half_angle: Angle,
        /// Length along the bore from the tip, 0.1 to 50 mm.
        length: Length,
    },
}

/// A window in plain SI.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Shape {
    /// Width; no end.
    Slot { width: f64 },
    /// Count, radius.
    Holes { n: f64, r: f64 },
    /// Count, width, length.
    Rectangles { n: f64, w: f64, l: f64 },
    /// Count, radius of the end, length.
    RoundEnds { n: f64, r: f64, l: f64 },
    /// Count, tangent and half angle, length.
    Vs {
        n: f64,
        tan: f64,
        angle: f64,
        l: f64,
    },
}

fn count(n: u32) -> Result<f64, PhysicsError> {
    range::WINDOW_COUNT.check(f64::from(n))
}

impl Window {
    pub(crate) fn shape(&self) -> Result<Shape, PhysicsError> {
        Ok(match *self {
            Self::AnnularSlot {
                land_diameter,
                circumference_fraction,
            } => {
                let d = range::BORE_DIAMETER
                    .check_as("land_diameter_m", land_diameter.get::<meter>())?;
                let part =
                    range::CIRCUMFERENCE_FRACTION.check(circumference_fraction.get::<ratio>())?;
                Shape::Slot {
                    width: PI * d * part,
                }
            }
            Self::RoundHoles { count: n, diameter } => Shape::Holes {
                n: count(n)?,
                r: 0.5 * range::ORIFICE_DIAMETER.check(diameter.get::<meter>())?,
            },
            Self::Slots {
                count: n,
                width,
                length,
            } => Shape::Rectangles {
                n: count(n)?,
                w: range::WINDOW_WIDTH.check(width.get::<meter>())?,
                l: range::WINDOW_LENGTH.check(length.get::<meter>())?,
            },
            Self::RoundEndedSlots {
                count: n,
                width,
                length,
            } => {
                let r = 0.5 * range::WINDOW_WIDTH.check(width.get::<meter>())?;
                let l = range::WINDOW_LENGTH.check(length.get::<meter>())?;
                if l < r {
                    return Err(PhysicsError::Contradiction {
                        field: range::WINDOW_LENGTH.field,
                        other: range::WINDOW_WIDTH.field,
                    });
                }
                Shape::RoundEnds { n: count(n)?, r, l }
            }
            Self::VNotches {
                count: n,
                half_angle,
                length,
            } => {
                let angle = range::NOTCH_HALF_ANGLE.check(half_angle.get::<radian>())?;
                Shape::Vs {
                    n: count(n)?,
                    tan: angle.tan(),
                    angle,
                    l: range::WINDOW_LENGTH.check(length.get::<meter>())?,
                }
            }
        })
    }
}

/// Segment of a circle of radius r cut off at depth v <= 2 r, and its chord.
fn segment(r: f64, v: f64) -> (f64, f64) {
    let chord = 2.0 * (v * (2.0 * r - v)).max(0.0).sqrt();
    let t = (v / r).min(2.0);
    let area = if t < 0.02 {
        // The closed form loses its digits: its series, the integral of the chord.
        let series =
            1.0 - t * (0.15 + t * (3.0 / 224.0 + t * (1.0 / 384.0 + t * (15.0 / 22_528.0))));
        r * r * t * t.sqrt() * (8f64.sqrt() * (2.0 / 3.0)) * series
    } else {
        r * r * (1.0 - t).acos() - 0.5 * (r - v) * chord
    };
    (area, chord)
}

impl Shape {
    /// Area at the sharp opening `v >= 0`, and the width at the edge, dA/dv.
    pub fn area_and_width(&self, v: f64) -> (f64, f64) {
        if v >= self.length() {
            return (self.full().unwrap_or(0.0), 0.0);
        }
        match *self {
            Self::Slot { width } => (width * v, width),
            Self::Holes { n, r } => {
                let (a, b) = segment(r, v);
                (n * a, n * b)
            }
            Self::Rectangles { n, w, .. } => (n * w * v, n * w),
            Self::RoundEnds { n, r, .. } => {
                if v <= r {
                    let (a, b) = segment(r, v);
                    (n * a, n * b)
                } else {
                    (n * (FRAC_PI_2 * r * r + 2.0 * r * (v - r)), n * 2.0 * r)
                }
            }
            Self::Vs { n, tan, .. } => (n * tan * v * v, 2.0 * n * tan * v),
        }
    }

    /// Widest that the window has been up to `v`.
    pub fn widest(&self, v: f64) -> f64 {
        match *self {
            Self::Slot { width } => width,
            Self::Rectangles { n, w, .. } => n * w,
            Self::Holes { n, r } | Self::RoundEnds { n, r, .. } => n * segment(r, v.min(r)).1,
            Self::Vs { n, tan, l, .. } => 2.0 * n * tan * v.min(l),
        }
    }

    /// Half the slope of the square of [`Shape::widest`]: finite where the width's own is not.
    pub fn half_square_slope(&self, v: f64) -> f64 {
        match *self {
            Self::Slot { .. } | Self::Rectangles { .. } => 0.0,
            Self::Holes { n, r } | Self::RoundEnds { n, r, .. } => 4.0 * n * n * (r - v.min(r)),
            Self::Vs { n, tan, l, .. } if v < l => 4.0 * n * n * tan * tan * v,
            Self::Vs { .. } => 0.0,
        }
    }

    /// Opening at which the window is full; infinite for a slot.
    pub fn length(&self) -> f64 {
        match *self {
            Self::Slot { .. } => f64::INFINITY,
            Self::Holes { r, .. } => 2.0 * r,
            Self::Rectangles { l, .. } | Self::RoundEnds { l, .. } | Self::Vs { l, .. } => l,
        }
    }

    /// Area of the whole window.
    pub fn full(&self) -> Option<f64> {
        match *self {
            Self::Slot { .. } => None,
            Self::Holes { n, r } => Some(n * PI * r * r),
            Self::Rectangles { n, w, l } => Some(n * w * l),
            Self::RoundEnds { n, r, l } => Some(n * (FRAC_PI_2 * r * r + 2.0 * r * (l - r))),
            Self::Vs { n, tan, l, .. } => Some(n * tan * l * l),
        }
    }

    /// Greatest width of all windows together.
    pub fn across(&self) -> f64 {
        self.widest(self.length())
    }
}
