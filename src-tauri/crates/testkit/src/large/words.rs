//! Invented words for vehicles, complaints and customers.

use rand::seq::IndexedRandom;
use rand::{Rng, RngExt};

const MAKES: [&str; 8] = [
    "Wendover", "Talvik", "Morrend", "Quellin", "Vostrel", "Ilmere", "Harrowby", "Castrane",
];
const BODIES: [&str; 5] = ["saloon", "estate", "van", "pickup", "coupe"];
const WHEN: [&str; 6] = [
    "from 60 °C up",
    "cold, first five minutes",
    "hot, after a motorway run",
    "towing uphill",
    "at light throttle",
    "after standing overnight",
];
const WHAT: [&str; 9] = [
    "Bangs 2-3",
    "Flares 3-4",
    "Shudders in lock-up",
    "Late into reverse",
    "Slips in 4th",
    "Harsh into drive",
    "Falls into limp mode",
    "Hunts between 5 and 6",
    "Drags on the downshift",
];
const BEFORE: [&str; 6] = [
    "Clutches done elsewhere last year.",
    "Oil changed, no better.",
    "Codes cleared twice.",
    "Never opened before.",
    "Solenoids replaced already.",
    "Came on over a month.",
];
const FOUND: [&str; 7] = [
    "Feed low hot at idle, line normal. Body out.",
    "Feed steady cold, sags hot.",
    "Oil dark, no debris in the pan.",
    "Pressure wanders with line. Bench test asked for.",
    "Customer wants a quotation before any machining.",
    "Filter clear. Two check balls worn flat.",
    "Road test agrees with the complaint.",
];
const GIVEN: [&str; 8] = ["A.", "B.", "D.", "E.", "J.", "M.", "R.", "S."];
const FAMILY_START: [&str; 10] = [
    "Mirk", "Alder", "Thorn", "Hollow", "Fen", "Oster", "Brack", "Winter", "Larch", "Stone",
];
const FAMILY_END: [&str; 8] = [
    "water", "holme", "wick", "garth", "combe", "shaw", "dale", "mere",
];
pub(super) const SEEN: [&str; 5] = [
    "Step in the bore, nail catches.",
    "Polished band on the reaction land.",
    "Clean, no marks.",
    "Scored lengthwise, light passes.",
    "Varnish only; came off with a wipe.",
];

/// One of a list.
pub(super) fn one<'a>(rng: &mut impl Rng, list: &[&'a str]) -> &'a str {
    list.choose(rng).copied().unwrap_or_default()
}

pub(super) fn vehicle(rng: &mut impl Rng) -> String {
    format!(
        "{} {} {}, {}.{}",
        rng.random_range(1998..2025),
        one(rng, &MAKES),
        one(rng, &BODIES),
        rng.random_range(1..4),
        rng.random_range(0..10),
    )
}

pub(super) fn complaint(rng: &mut impl Rng) -> String {
    format!(
        "{} {}. {}",
        one(rng, &WHAT),
        one(rng, &WHEN),
        one(rng, &BEFORE)
    )
}

pub(super) fn notes(rng: &mut impl Rng) -> String {
    format!(
        "{} {} psi cold, {} psi hot.",
        one(rng, &FOUND),
        rng.random_range(60..90),
        rng.random_range(30..80)
    )
}

pub(super) fn customer(rng: &mut impl Rng) -> model::job::Customer {
    let letter = |rng: &mut _| char::from(b'A' + RngExt::random_range::<u8, _>(rng, 0..26));
    model::job::Customer {
        name: format!(
            "{} {}{}",
            one(rng, &GIVEN),
            one(rng, &FAMILY_START),
            one(rng, &FAMILY_END)
        ),
        phone: format!("555 {:04}", rng.random_range(0..10_000)),
        plate: format!(
            "{}{}{} {:04}",
            letter(rng),
            letter(rng),
            letter(rng),
            rng.random_range(0..10_000)
        ),
    }
}
