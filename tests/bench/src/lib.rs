//! Nothing but benchmarks lives here: see `benches/`.
