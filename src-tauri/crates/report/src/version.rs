//! For whom a report is, and how much of it one page has room for.

/// For whom.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Version {
    /// For those who work on it or check it: everything on record.
    Technical,
    /// For the customer: one page in plain words.
    Customer,
}

/// How much the customer's version tells. What doesn't fit is left out and said to be; nothing is
/// set smaller.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Room {
    /// Most bores.
    pub bores: usize,
    /// Most points that stay open.
    pub open: usize,
    /// Most letters of any text that a person typed.
    pub letters: usize,
}

impl Room {
    /// As much as is told at all.
    pub const WIDEST: Self = Self::new(6, 6, 400);

    /// From the widest to the narrowest: long texts are cut before bores are left out. The last fits
    /// on a page whatever was typed.
    pub const ALL: [Self; 8] = [
        Self::WIDEST,
        Self::new(6, 6, 160),
        Self::new(5, 6, 90),
        Self::new(4, 5, 90),
        Self::new(3, 4, 90),
        Self::new(2, 4, 60),
        Self::new(1, 3, 60),
        Self::new(1, 2, 30),
    ];

    const fn new(bores: usize, open: usize, letters: usize) -> Self {
        Self {
            bores,
            open,
            letters,
        }
    }
}
