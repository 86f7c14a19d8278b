//! The tables of ISO 286-1 for the sizes that spools use, in micrometres.
//!
//! Columns: over 1 to 3, 3 to 6, 6 to 10, 10 to 18, 18 to 30 mm (each "over, up to and including").
//! Typed from ISO 286-1:2010, Table 1 (standard tolerances) and Tables 2 to 5 (fundamental
//! deviations) `from memory`; checked against the deviations that open packages publish.

/// Upper ends of the columns, mm.
pub(super) const UP_TO_MM: [f64; 5] = [3.0, 6.0, 10.0, 18.0, 30.0];

/// Table 1: IT1 to IT18.
pub(super) const IT: [[f64; 5]; 18] = [
    [0.8, 1.0, 1.0, 1.2, 1.5],
    [1.2, 1.5, 1.5, 2.0, 2.5],
    [2.0, 2.5, 2.5, 3.0, 4.0],
    [3.0, 4.0, 4.0, 5.0, 6.0],
    [4.0, 5.0, 6.0, 8.0, 9.0],
    [6.0, 8.0, 9.0, 11.0, 13.0],
    [10.0, 12.0, 15.0, 18.0, 21.0],
    [14.0, 18.0, 22.0, 27.0, 33.0],
    [25.0, 30.0, 36.0, 43.0, 52.0],
    [40.0, 48.0, 58.0, 70.0, 84.0],
    [60.0, 75.0, 90.0, 110.0, 130.0],
    [100.0, 120.0, 150.0, 180.0, 210.0],
    [140.0, 180.0, 220.0, 270.0, 330.0],
    [250.0, 300.0, 360.0, 430.0, 520.0],
    [400.0, 480.0, 580.0, 700.0, 840.0],
    [600.0, 750.0, 900.0, 1100.0, 1300.0],
    [1000.0, 1200.0, 1500.0, 1800.0, 2100.0],
    [1400.0, 1800.0, 2200.0, 2700.0, 3300.0],
];

/// Tables 2 and 4: upper deviation of shafts c to g; the lower one of holes C to G is its negative.
pub(super) const CLEAR: [(char, [f64; 5]); 5] = [
    ('c', [-60.0, -70.0, -80.0, -95.0, -110.0]),
    ('d', [-20.0, -30.0, -40.0, -50.0, -65.0]),
    ('e', [-14.0, -20.0, -25.0, -32.0, -40.0]),
    ('f', [-6.0, -10.0, -13.0, -16.0, -20.0]),
    ('g', [-2.0, -4.0, -5.0, -6.0, -7.0]),
];

/// Table 5: lower deviation of shafts m to s; Tables 2 and 3 have the same with its sign turned,
/// save the correction delta, as the upper deviation of holes M to S.
pub(super) const TIGHT: [(char, [f64; 5]); 5] = [
    ('m', [2.0, 4.0, 6.0, 7.0, 8.0]),
    ('n', [4.0, 8.0, 10.0, 12.0, 15.0]),
    ('p', [6.0, 12.0, 15.0, 18.0, 22.0]),
    ('r', [10.0, 15.0, 19.0, 23.0, 28.0]),
    ('s', [14.0, 19.0, 23.0, 28.0, 35.0]),
];

/// Table 5: lower deviation of shafts k4 to k7; zero for other grades.
pub(super) const K_SHAFT: [f64; 5] = [0.0, 1.0, 1.0, 1.0, 2.0];

/// Table 2: upper deviation of holes K up to IT8, before delta.
pub(super) const K_HOLE: [f64; 5] = [0.0, -1.0, -1.0, -1.0, -2.0];

/// Table 4: lower deviation of shafts j5 and j6, then j7.
pub(super) const J_SHAFT: [[f64; 5]; 2] = [
    [-2.0, -2.0, -2.0, -3.0, -4.0],
    [-4.0, -4.0, -5.0, -6.0, -8.0],
];

/// Table 2: upper deviation of holes J6, J7, J8.
pub(super) const J_HOLE: [[f64; 5]; 3] = [
    [2.0, 5.0, 5.0, 6.0, 8.0],
    [4.0, 6.0, 8.0, 10.0, 12.0],
    [6.0, 10.0, 12.0, 15.0, 20.0],
];
