//! Carbon monoxide of a flame that burns badly, in a space with this much fresh air.
//!
//! One well-mixed space: C(t) = G/Q·(1 − e^(−Qt/V)); without fresh air C = G·t/V. Mark: computed. A flame that burns badly is assumed to give
//! carbon monoxide of 1 % of its carbon dioxide (chosen; a burner in order gives a hundredth of that).
//!
//! Exposure limits: NIOSH <https://www.cdc.gov/niosh/idlh/630080.html> (read), WHO Europe 2000 by an open-access paper (read). Alarm points: UL 2034 and
//! EN 50291 as makers and a charity print them (second-hand). An alarm is no measure against carbon monoxide: it never excuses missing air.

use super::combustion::carbon_dioxide_of_flame;
use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive, share};

/// Carbon monoxide as a share of the carbon dioxide of a flame that burns badly.
pub static FAULT_RATIO: Citation = Citation {
    document: "no text",
    place: "carbon monoxide 1 % of the carbon dioxide, a flame that burns badly",
    edition: "",
    mark: Mark::Chosen,
    address: "",
};

/// [`FAULT_RATIO`] as a number.
pub const FAULT_SHARE: f64 = 0.01;

/// Carbon monoxide of a flame, m³/s, from its power W and the share of carbon monoxide to carbon dioxide.
#[must_use]
pub fn carbon_monoxide_of_flame(watts: f64, ratio: f64) -> Option<f64> {
    if share(ratio) { finite(carbon_dioxide_of_flame(watts)? * ratio) } else { None }
}

/// Share of carbon monoxide in a space after a time: `production` and `fresh_air` m³/s, `room` m³, `seconds` s.
#[must_use]
pub fn carbon_monoxide_after(production: f64, fresh_air: f64, room: f64, seconds: f64) -> Option<f64> {
    if !(not_negative(production) && not_negative(fresh_air) && positive(room) && not_negative(seconds)) {
        return None;
    }
    let changes = fresh_air * seconds / room;
    // Without fresh air the formula is 0/0; its limit is that all stays.
    let part_that_stays = if changes > 0.0 { -(-changes).exp_m1() / changes } else { 1.0 };
    finite(production * seconds / room * part_that_stays)
}

/// Share of carbon monoxide in the end; `None` without fresh air, where it never stops rising.
#[must_use]
pub fn carbon_monoxide_steady(production: f64, fresh_air: f64) -> Option<f64> {
    if not_negative(production) && positive(fresh_air) { finite(production / fresh_air) } else { None }
}

/// Time until a share is reached, s; `None` where it never is.
#[must_use]
pub fn time_to_carbon_monoxide(production: f64, fresh_air: f64, room: f64, limit: f64) -> Option<f64> {
    if !(positive(production) && not_negative(fresh_air) && positive(room) && positive(limit)) {
        return None;
    }
    if fresh_air == 0.0 {
        return finite(limit * room / production);
    }
    let left = 1.0 - limit * fresh_air / production;
    if left > 0.0 { finite(-room / fresh_air * left.ln()) } else { None }
}

/// A limit of exposure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposure {
    /// Who sets it.
    pub body: &'static str,
    /// Time over which it is taken, s; 0 for a value never to be exceeded.
    pub seconds: f64,
    /// Share by volume.
    pub share: f64,
    /// How well it is known.
    pub mark: Mark,
}

const MINUTE: f64 = 60.0;
const HOUR: f64 = 3_600.0;

const fn limit(body: &'static str, seconds: f64, parts_per_million: f64, mark: Mark) -> Exposure {
    Exposure { body, seconds, share: parts_per_million * 1e-6, mark }
}

/// Limits of exposure to carbon monoxide.
pub static CARBON_MONOXIDE_EXPOSURE: [Exposure; 12] = [
    limit("NIOSH, time-weighted", 10.0 * HOUR, 35.0, Mark::Read),
    limit("NIOSH, ceiling", 0.0, 200.0, Mark::Read),
    limit("NIOSH, immediately dangerous", 30.0 * MINUTE, 1_200.0, Mark::SecondHand),
    limit("OSHA", 8.0 * HOUR, 50.0, Mark::Read),
    limit("NRC emergency", 10.0 * MINUTE, 1_500.0, Mark::Read),
    limit("NRC emergency", 30.0 * MINUTE, 800.0, Mark::Read),
    limit("NRC emergency", HOUR, 400.0, Mark::Read),
    limit("NRC emergency", 24.0 * HOUR, 50.0, Mark::Read),
    limit("WHO Europe 2000", 15.0 * MINUTE, 90.0, Mark::Read),
    limit("WHO Europe 2000", 30.0 * MINUTE, 50.0, Mark::Read),
    limit("WHO Europe 2000", HOUR, 25.0, Mark::Read),
    limit("WHO Europe 2000", 8.0 * HOUR, 10.0, Mark::Read),
];

/// A standard of alarms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AlarmStandard {
    /// UL 2034.
    Ul2034,
    /// EN 50291.
    En50291,
}

/// When an alarm of a standard must not yet and must have sounded at a share of carbon monoxide: seconds; `None` for a bound that the
/// standard does not set, and nothing at all for a concentration that it does not test.
#[must_use]
pub fn alarm_answers(standard: AlarmStandard, parts_per_million: u32) -> Option<(Option<f64>, Option<f64>)> {
    const DAY: f64 = 24.0 * HOUR;
    let minutes = |value: f64| Some(value * MINUTE);
    Some(match (standard, parts_per_million) {
        (AlarmStandard::Ul2034, 30) => (Some(30.0 * DAY), None),
        (AlarmStandard::Ul2034, 70) => (minutes(60.0), minutes(240.0)),
        (AlarmStandard::Ul2034, 150) => (minutes(10.0), minutes(50.0)),
        (AlarmStandard::Ul2034, 400) => (minutes(4.0), minutes(15.0)),
        (AlarmStandard::En50291, 30) => (minutes(120.0), None),
        (AlarmStandard::En50291, 50) => (minutes(60.0), minutes(90.0)),
        (AlarmStandard::En50291, 100) => (minutes(10.0), minutes(40.0)),
        (AlarmStandard::En50291, 300) => (None, minutes(3.0)),
        _ => return None,
    })
}
