//! What is left to load, by the rules of regions.
//!
//! The European values are those of Regulation (EU) 1230/2012, in force as retained law in Great Britain; in the Union Implementing Regulation
//! (EU) 2021/535 Annex XIII has taken its place with the same formula.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_not_negative, need_positive, outcome};
use crate::interval::Interval;
use crate::mass::value::Bounded;

/// What is left under a gross mass kg, kg; below zero where it is overloaded. Bounds turn round: the heaviest vehicle leaves the least.
///
/// # Errors
/// A gross mass that is not above zero.
pub fn payload_left(gross: f64, laden: Bounded) -> Result<Bounded, InputError> {
    let gross = need_positive("gross mass", gross)?;
    let bounds = Interval::exact(gross)?.minus(laden.bounds)?;
    Ok(Bounded { value: outcome("payload", gross - laden.value)?, bounds })
}

/// Mass of a passenger in the European rules, kg (1230/2012 Annex I part A 2.6.2.1, read). The driver has the same (second-hand).
pub const EU_PASSENGER: f64 = 75.0;

/// Source of [`eu_minimum_payload`] and of the tolerance.
pub static EU_PAYLOAD: Citation = Citation {
    document: "Implementing Regulation (EU) 2021/535, Annex XIII",
    place: "minimum pay-mass of motor caravans; tolerance of the mass in running order",
    edition: "quoted on a page; as 1230/2012 Annex I part A 2.6.4.1.2",
    mark: Mark::SecondHand,
    address: "",
};

/// Tolerance of the mass in running order, as a share ([`EU_PAYLOAD`]).
pub const FLEET_TOLERANCE: f64 = 0.05;

/// Bounds of the real mass of a vehicle whose mass in running order is stated, kg.
///
/// # Errors
/// A mass that is not above zero.
pub fn running_order_bounds(stated: f64) -> Result<Interval, InputError> {
    Interval::with_tolerance(need_positive("mass in running order", stated)?, FLEET_TOLERANCE)
}

/// Least payload of a motor caravan, kg: 10·(n + L), n persons with the driver, L the overall length m ([`EU_PAYLOAD`]).
///
/// # Errors
/// A length that is not above zero.
pub fn eu_minimum_payload(persons: u32, length: f64) -> Result<f64, InputError> {
    const KILOGRAMS: f64 = 10.0;
    outcome("minimum payload", KILOGRAMS * (f64::from(persons) + need_positive("overall length", length)?))
}

/// Payload left beside options and passengers, kg: M − mass in running order − options − 75 kg for each passenger beside the driver.
///
/// # Errors
/// Masses below zero.
pub fn eu_payload_left(gross: f64, running_order: f64, options: f64, persons: u32) -> Result<f64, InputError> {
    let gross = need_positive("gross mass", gross)?;
    let own = need_not_negative("mass in running order", running_order)? + need_not_negative("options", options)?;
    let passengers = f64::from(persons.saturating_sub(1)) * EU_PASSENGER;
    outcome("payload", gross - own - passengers)
}

static STEERING: Citation = Citation {
    document: "Regulation (EU) 1230/2012, Annex I part A",
    place: "share of the bearing or steering axles",
    edition: "second hand; that both stand in part A is from memory",
    mark: Mark::SecondHand,
    address: "",
};

/// Least share of the gross mass on the steering axle, solo with vehicle and rear axle at their maximum.
pub static STEERING_SHARE: (f64, &Citation) = (0.30, &STEERING);

/// Least share of the gross mass on the steering axle when towing, coupling load counted.
pub static STEERING_SHARE_TOWING: (f64, &Citation) = (0.20, &STEERING);

/// Least load on the ball of a trailer to 3.5 t, kg, Germany (StVZO section 44(3), read): 4 % of the actual mass, need not be above 25 kg.
///
/// # Errors
/// A mass below zero.
pub fn least_coupling_load_germany(trailer: f64) -> Result<f64, InputError> {
    const SHARE: f64 = 0.04;
    const ENOUGH: f64 = 25.0;
    Ok((SHARE * need_not_negative("mass of the trailer", trailer)?).min(ENOUGH))
}

/// Mass of an occupant in the rules of the United States, kg (150 lb; printed 68 kg).
pub const US_OCCUPANT: f64 = 68.0;

/// Source of [`us_least_gross_rating`].
pub static US_RATING: Citation = Citation {
    document: "49 CFR 567.4(g)(3)",
    place: "gross rating not below unloaded mass, rated cargo and 150 lb for each seat",
    edition: "agency letters",
    mark: Mark::Read,
    address: "https://www.nhtsa.gov/interpretations/aiam2229",
};

/// Least gross rating, kg, from unloaded mass and rated cargo kg and the seats ([`US_RATING`]).
///
/// # Errors
/// Masses below zero.
pub fn us_least_gross_rating(unloaded: f64, cargo: f64, seats: u32) -> Result<f64, InputError> {
    let own = need_not_negative("unloaded mass", unloaded)? + need_not_negative("rated cargo", cargo)?;
    outcome("gross rating", own + f64::from(seats) * US_OCCUPANT)
}

/// Source of [`us_occupant_and_cargo_capacity`].
pub static US_CAPACITY: Citation = Citation {
    document: "49 CFR 571.120",
    place: "occupant and cargo capacity: gross rating less unloaded mass and full propane; fresh water is cargo",
    edition: "owners' page",
    mark: Mark::SecondHand,
    address: "",
};

/// Source of [`us_relabel_limit`].
pub static US_LABEL: Citation = Citation {
    document: "49 CFR 571.110 and 571.120",
    place: "mass added before the first sale: the lesser of 1.5 % of the gross rating and 100 lb",
    edition: "72 FR 68442, 2007",
    mark: Mark::Read,
    address: "https://www.govinfo.gov/content/pkg/FR-2007-12-04/html/E7-22962.htm",
};

/// Occupant and cargo capacity of a motor home, kg: gross rating less unloaded mass and full propane; fresh water is cargo
/// ([`US_CAPACITY`]).
///
/// # Errors
/// Masses below zero.
pub fn us_occupant_and_cargo_capacity(gross: f64, unloaded: f64, propane: f64) -> Result<f64, InputError> {
    let own = need_not_negative("unloaded mass", unloaded)? + need_not_negative("propane", propane)?;
    outcome("capacity", need_positive("gross rating", gross)? - own)
}

/// Mass that may be added before the first sale without a new label, kg: the lesser of 1.5 % of the gross rating and 45.4 kg (100 lb).
///
/// # Errors
/// A rating that is not above zero.
pub fn us_relabel_limit(gross: f64) -> Result<f64, InputError> {
    const SHARE: f64 = 0.015;
    const HUNDRED_POUNDS: f64 = 45.4;
    Ok((SHARE * need_positive("gross rating", gross)?).min(HUNDRED_POUNDS))
}
