//! metrology
