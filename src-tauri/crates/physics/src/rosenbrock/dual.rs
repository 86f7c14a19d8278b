//! Numbers that carry their derivatives, for exact Jacobians.
//!
//! Own, and tiny, for speed: the flow laws know their slopes in closed form, so a law enters as
//! one chain-rule step ([`Scalar::through`]) instead of being differentiated root by root, and
//! the plain number skips the slopes altogether. A general library would differentiate each
//! operation and allow no such short cut.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A plain number, or one with derivatives.
pub(crate) trait Scalar:
    Copy
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + Add<f64, Output = Self>
    + Mul<f64, Output = Self>
{
    /// A number that depends on nothing.
    fn constant(value: f64) -> Self;
    /// The number alone.
    fn value(self) -> f64;
    /// `f` of this number; `slope(u, f(u))` is its derivative at u.
    fn through(self, f: impl FnOnce(f64) -> f64, slope: impl FnOnce(f64, f64) -> f64) -> Self;
    /// `f` of two numbers; `with_slopes` gives its value and both derivatives.
    fn through_both(
        self,
        other: Self,
        f: impl FnOnce(f64, f64) -> f64,
        with_slopes: impl FnOnce(f64, f64) -> (f64, f64, f64),
    ) -> Self;
}

impl Scalar for f64 {
    #[inline]
    fn constant(value: f64) -> Self {
        value
    }
    #[inline]
    fn value(self) -> f64 {
        self
    }
    #[inline]
    fn through(self, f: impl FnOnce(f64) -> f64, _: impl FnOnce(f64, f64) -> f64) -> Self {
        f(self)
    }
    #[inline]
    fn through_both(
        self,
        other: Self,
        f: impl FnOnce(f64, f64) -> f64,
        _: impl FnOnce(f64, f64) -> (f64, f64, f64),
    ) -> Self {
        f(self, other)
    }
}

/// A number with its derivatives by `M` variables.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Dual<const M: usize> {
    pub value: f64,
    pub slopes: [f64; M],
}

impl<const M: usize> Dual<M> {
    /// Variable number `index`.
    pub fn variable(value: f64, index: usize) -> Self {
        Self::with_slope(value, index, 1.0)
    }

    /// A number that grows by `slope` with variable number `index`.
    pub fn with_slope(value: f64, index: usize, slope: f64) -> Self {
        let mut slopes = [0.0; M];
        slopes[index] = slope;
        Self { value, slopes }
    }

    #[inline]
    fn mapped(self, value: f64, factor: f64) -> Self {
        Self {
            value,
            slopes: self.slopes.map(|s| s * factor),
        }
    }

    #[inline]
    fn mixed(self, other: Self, value: f64, a: f64, b: f64) -> Self {
        Self {
            value,
            slopes: std::array::from_fn(|i| a * self.slopes[i] + b * other.slopes[i]),
        }
    }
}

impl<const M: usize> Scalar for Dual<M> {
    #[inline]
    fn constant(value: f64) -> Self {
        Self {
            value,
            slopes: [0.0; M],
        }
    }
    #[inline]
    fn value(self) -> f64 {
        self.value
    }
    #[inline]
    fn through(self, f: impl FnOnce(f64) -> f64, slope: impl FnOnce(f64, f64) -> f64) -> Self {
        let value = f(self.value);
        self.mapped(value, slope(self.value, value))
    }
    #[inline]
    fn through_both(
        self,
        other: Self,
        _: impl FnOnce(f64, f64) -> f64,
        with_slopes: impl FnOnce(f64, f64) -> (f64, f64, f64),
    ) -> Self {
        let (value, a, b) = with_slopes(self.value, other.value);
        self.mixed(other, value, a, b)
    }
}

impl<const M: usize> Add for Dual<M> {
    type Output = Self;
    #[inline]
    fn add(self, o: Self) -> Self {
        self.mixed(o, self.value + o.value, 1.0, 1.0)
    }
}
impl<const M: usize> Sub for Dual<M> {
    type Output = Self;
    #[inline]
    fn sub(self, o: Self) -> Self {
        self.mixed(o, self.value - o.value, 1.0, -1.0)
    }
}
impl<const M: usize> Mul for Dual<M> {
    type Output = Self;
    #[inline]
    fn mul(self, o: Self) -> Self {
        self.mixed(o, self.value * o.value, o.value, self.value)
    }
}
impl<const M: usize> Div for Dual<M> {
    type Output = Self;
    #[inline]
    fn div(self, o: Self) -> Self {
        let r = 1.0 / o.value;
        let value = self.value * r;
        self.mixed(o, value, r, -value * r)
    }
}
impl<const M: usize> Neg for Dual<M> {
    type Output = Self;
    #[inline]
    fn neg(self) -> Self {
        self.mapped(-self.value, -1.0)
    }
}
impl<const M: usize> Add<f64> for Dual<M> {
    type Output = Self;
    #[inline]
    fn add(self, o: f64) -> Self {
        self.mapped(self.value + o, 1.0)
    }
}
impl<const M: usize> Mul<f64> for Dual<M> {
    type Output = Self;
    #[inline]
    fn mul(self, o: f64) -> Self {
        self.mapped(self.value * o, o)
    }
}
