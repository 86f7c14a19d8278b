//! Stiff differential equations: the Rosenbrock method Rodas4.
//!
//! Six stages, order 4 with an embedded order 3, L-stable and stiffly accurate, with a continuous
//! extension of order 3. No iteration: a step costs one Jacobian, one factorisation and six
//! rates, which for the four or five states of a valve beats multistep methods with their
//! iterations and their memory of the past, worthless after each event.
//!
//! Source: Hairer & Wanner, *Solving Ordinary Differential Equations II*, 2nd ed., sect. IV.7 and
//! VI.4; coefficients as in their program RODAS (METH = 1). The order is checked in the tests.

pub(crate) mod dual;
mod linear;
#[cfg(test)]
mod tests;

use linear::Factors;

/// Rates of change of `N` states.
pub(crate) trait Stiff<const N: usize> {
    /// Rates at time `t`.
    fn rates(&self, t: f64, y: &[f64; N]) -> [f64; N];
    /// Rates and their derivatives.
    fn linearised(&self, t: f64, y: &[f64; N]) -> Linearised<N>;
}

/// Rates at one moment with their derivatives.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Linearised<const N: usize> {
    pub rates: [f64; N],
    /// `jacobian[i][j]`: how rate i grows with state j.
    pub jacobian: [[f64; N]; N],
    /// How the rates grow with time alone.
    pub with_time: [f64; N],
}

const GAMMA: f64 = 0.25;
const C: [f64; 3] = [0.386, 0.21, 0.63];
const D: [f64; 4] = [0.25, -0.1043, 0.1035, -0.036_200_000_000_000_23];
const A2: [f64; 1] = [1.544];
const A3: [f64; 2] = [0.946_678_528_081_582_6, 0.255_701_169_898_328_4];
const A4: [f64; 3] = [
    3.314_825_187_068_521,
    2.896_124_015_972_201,
    0.998_641_913_997_781_7,
];
const A5: [f64; 4] = [
    1.221_224_509_226_641,
    6.019_134_481_288_629,
    12.537_083_329_320_87,
    -0.687_886_036_105_895,
];
const C2: [f64; 1] = [-5.6688];
const C3: [f64; 2] = [-2.430_093_356_833_875, -0.206_359_915_709_191_5];
const C4: [f64; 3] = [
    -0.107_352_905_815_137_5,
    -9.594_562_251_023_355,
    -20.470_286_148_096_16,
];
const C5: [f64; 4] = [
    7.496_443_313_967_647,
    -10.246_804_314_643_52,
    -33.999_903_528_199_05,
    11.708_908_932_061_6,
];
const C6: [f64; 5] = [
    8.083_246_795_921_522,
    -7.981_132_988_064_893,
    -31.521_594_328_743_71,
    16.319_305_431_231_36,
    -6.058_818_238_834_054,
];
const DENSE3: [f64; 5] = [
    10.126_235_083_445_86,
    -7.487_995_877_610_167,
    -34.800_918_615_557_47,
    -7.992_771_707_568_823,
    1.025_137_723_295_662,
];
const DENSE4: [f64; 5] = [
    -0.676_280_339_280_125_3,
    6.087_714_651_680_015,
    16.430_843_208_924_78,
    24.767_225_114_183_86,
    -6.594_389_125_716_872,
];

/// One step, and everything between its ends.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Step<const N: usize> {
    pub t: f64,
    pub h: f64,
    pub from: [f64; N],
    pub to: [f64; N],
    /// Difference of the solutions of order 4 and 3 at the end.
    pub error: [f64; N],
    bend: [f64; N],
    twist: [f64; N],
}

impl<const N: usize> Step<N> {
    /// State `i` at the part `s` (0 to 1) of the step.
    #[inline]
    pub fn component(&self, i: usize, s: f64) -> f64 {
        let r = 1.0 - s;
        // What stands still stays as it is to the last bit.
        let rise = self.to[i] - self.from[i];
        self.from[i] + s * (rise + r * (self.bend[i] + s * self.twist[i]))
    }

    /// All states at the part `s` of the step.
    #[inline]
    pub fn at(&self, s: f64) -> [f64; N] {
        std::array::from_fn(|i| self.component(i, s))
    }

    /// Root mean square of the error over `relative` times the state (its floor `scale`).
    #[inline]
    pub fn error_norm(&self, relative: f64, scale: &[f64; N]) -> f64 {
        let mut sum = 0.0;
        let mut count = 0.0;
        for (i, &scale) in scale.iter().enumerate() {
            let size = self.from[i].abs().max(self.to[i].abs()) + scale;
            let e = self.error[i] / (relative * size);
            sum += e * e;
            count += 1.0;
        }
        f64::sqrt(sum / count)
    }
}

#[inline]
fn combined<const N: usize, const K: usize>(
    base: &[f64; N],
    weights: &[f64; K],
    stages: &[[f64; N]; K],
    factor: f64,
) -> [f64; N] {
    std::array::from_fn(|i| {
        let mut sum = 0.0;
        for (w, k) in weights.iter().zip(stages) {
            sum += w * k[i];
        }
        base[i] + factor * sum
    })
}

/// A step of `h` from `y` at `t`, where the system is as in `at_start`; none if its matrix can't
/// be factorised (a number in it isn't finite).
#[inline]
pub(crate) fn step<const N: usize>(
    system: &impl Stiff<N>,
    t: f64,
    y: &[f64; N],
    h: f64,
    at_start: &Linearised<N>,
) -> Option<Step<N>> {
    let matrix = Factors::new(&at_start.jacobian, 1.0 / (h * GAMMA))?;
    let r = 1.0 / h;
    let timed = |f: [f64; N], d: f64| -> [f64; N] {
        std::array::from_fn(|i| f[i] + h * d * at_start.with_time[i])
    };
    let k1 = matrix.solve(timed(at_start.rates, D[0]));

    let u = combined(y, &A2, &[k1], 1.0);
    let f = timed(system.rates(t + C[0] * h, &u), D[1]);
    let k2 = matrix.solve(combined(&f, &C2, &[k1], r));

    let u = combined(y, &A3, &[k1, k2], 1.0);
    let f = timed(system.rates(t + C[1] * h, &u), D[2]);
    let k3 = matrix.solve(combined(&f, &C3, &[k1, k2], r));

    let u = combined(y, &A4, &[k1, k2, k3], 1.0);
    let f = timed(system.rates(t + C[2] * h, &u), D[3]);
    let k4 = matrix.solve(combined(&f, &C4, &[k1, k2, k3], r));

    let u = combined(y, &A5, &[k1, k2, k3, k4], 1.0);
    let f = system.rates(t + h, &u);
    let k5 = matrix.solve(combined(&f, &C5, &[k1, k2, k3, k4], r));

    let u: [f64; N] = std::array::from_fn(|i| u[i] + k5[i]);
    let f = system.rates(t + h, &u);
    let error = matrix.solve(combined(&f, &C6, &[k1, k2, k3, k4, k5], r));

    let zero = [0.0; N];
    Some(Step {
        t,
        h,
        from: *y,
        to: std::array::from_fn(|i| u[i] + error[i]),
        error,
        bend: combined(&zero, &DENSE3, &[k1, k2, k3, k4, k5], 1.0),
        twist: combined(&zero, &DENSE4, &[k1, k2, k3, k4, k5], 1.0),
    })
}
