//! The film past a land that covers a window.
//!
//! **Film.** A window that the land covers by l leaks through a plane film to the land's edge, as
//! heat is conducted between a buried body and a surface: flow = S c^3 dp / (12 mu). For a round
//! hole the shape factor is exact, `S = 2 pi / acosh(1 + l/r)` (cylinder under a plane, Incropera,
//! *Heat and Mass Transfer*, table 4.1). The others are asymptotes of conformal maps (ours), L the
//! window's length:
//!
//! - slot: `w/l + (4/pi) (ln(1 + L/l) + ln(pi/2) + 1 + ln(1 + w / (2 (l + L))))`: front, sides,
//!   corners, back;
//! - V: `2 ln(1 + 0.9 L/l) / (pi/2 - a) + (4/pi) (ln 4 + ln(1 + L tan a / (l + L)))`: sides, tip,
//!   back (the 0.9 stands for a beta function that lies between 0.85 and 1);
//! - U: the hole's, and `(4/pi) ln(1 + (L - r) / (r + l))` out of both sides.
//!
//! A finite-difference solution of Laplace's equation (tests/reference/covered_windows.py) agrees
//! within a tenth while a window is covered by no more than its own length.

use std::f64::consts::{FRAC_2_PI, FRAC_PI_2, LN_2, PI};

use super::window::Shape;

impl Shape {
    /// Shape factor of the film from a window covered by `l > 0` to the land's edge.
    pub fn film(&self, l: f64) -> f64 {
        match *self {
            Self::Slot { width } => width / l,
            Self::Holes { n, r } => n * round_film(r, l),
            Self::RoundEnds { n, r, l: length } => {
                n * (round_film(r, l) + FOUR_OVER_PI * ((length - r) / (r + l)).ln_1p())
            }
            Self::Rectangles { n, w, l: length } => {
                let sides = (length / l).ln_1p() + (0.5 * w / (l + length)).ln_1p();
                n * (w / l + FOUR_OVER_PI * (sides + FRAC_PI_2.ln() + 1.0))
            }
            Self::Vs {
                n,
                tan,
                angle,
                l: length,
            } => {
                let sides = 2.0 / (FRAC_PI_2 - angle) * (0.9 * length / l).ln_1p();
                let ends = 2.0 * LN_2 + (length * tan / (l + length)).ln_1p();
                n * (sides + FOUR_OVER_PI * ends)
            }
        }
    }

    /// How [`Shape::film`] grows with `l`: never positive.
    pub fn film_slope(&self, l: f64) -> f64 {
        // d ln(1 + a/u) / du.
        let log_slope = |a: f64, u: f64| -a / (u * (u + a));
        match *self {
            Self::Slot { width } => -width / (l * l),
            Self::Holes { n, r } => n * round_film_slope(r, l),
            Self::RoundEnds { n, r, l: length } => {
                n * (round_film_slope(r, l) + FOUR_OVER_PI * log_slope(length - r, r + l))
            }
            Self::Rectangles { n, w, l: length } => {
                let sides = log_slope(length, l) + log_slope(0.5 * w, l + length);
                n * (-w / (l * l) + FOUR_OVER_PI * sides)
            }
            Self::Vs {
                n,
                tan,
                angle,
                l: length,
            } => {
                let sides = 2.0 / (FRAC_PI_2 - angle) * log_slope(0.9 * length, l);
                n * (sides + FOUR_OVER_PI * log_slope(length * tan, l + length))
            }
        }
    }
}

const FOUR_OVER_PI: f64 = 2.0 * FRAC_2_PI;

/// 2 pi / acosh(1 + l/r), with acosh(1 + t) = ln_1p(t + sqrt(t (2 + t))).
fn round_film(r: f64, l: f64) -> f64 {
    let t = l / r;
    2.0 * PI / (t + (t * (2.0 + t)).sqrt()).ln_1p()
}

/// d/dl of [`round_film`].
fn round_film_slope(r: f64, l: f64) -> f64 {
    let t = l / r;
    let root = (t * (2.0 + t)).sqrt();
    let acosh = (t + root).ln_1p();
    -2.0 * PI / (r * root * acosh * acosh)
}
