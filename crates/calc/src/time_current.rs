//! When a protective device opens: least and most time at a current, and whether two devices in series open in the right order.
//!
//! The bands are data (`tables/time_current.rs`), each point with its source and evidence mark. Between two points the time runs straight in
//! logarithms of current and time; the standards promise the points only, so what is between is [`Mark::Computed`] at best. Outside the
//! points nothing is said, but that below the first one its least time stands: a smaller current never opens a device sooner.

use crate::adiabatic::smallest_area;
use crate::citation::{Citation, Mark};
use crate::number::positive;
use crate::protection::DeviceClass;
use crate::smallest_fault::BreakerCurve;
use crate::tables::time_current::{self as table, Band, Point};

/// A protective device.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Device {
    /// Its class.
    pub class: DeviceClass,
    /// Its curve, where it is a breaker that has one.
    pub curve: Option<BreakerCurve>,
    /// Its rated current, A.
    pub rating: f64,
}

/// A time, how well it is known and the source of the less well known point that it hangs on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Time {
    /// Seconds.
    pub seconds: f64,
    /// The mark: that of the point, or the weaker of two points' and [`Mark::Computed`] between them.
    pub mark: Mark,
    /// Where the point comes from.
    pub citation: &'static Citation,
}

/// When a device opens. `None` is unknown: not at once, and not never.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OpeningTime {
    /// It does not open before this.
    pub least: Option<Time>,
    /// It has opened after this.
    pub most: Option<Time>,
}

/// What is known of two devices in series over a range of currents.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Selectivity {
    /// The downstream device has opened before the upstream one begins to, at every current of the range.
    Selective,
    /// At this current, A, the upstream device may open first.
    NotSelective {
        /// The lowest such current of those that were looked at, A.
        amperes: f64,
    },
    /// Nowhere in the range was the contrary found, but from this current on a band is not known.
    Unknown {
        /// The lowest such current of those that were looked at, A.
        amperes: f64,
    },
}

impl Device {
    fn band(&self) -> Option<&'static Band> {
        let bands: &'static [Band] = match (self.class, self.curve) {
            (DeviceClass::Blade, _) => &table::BLADE,
            (DeviceClass::BladeSmall, _) => &table::BLADE_SMALL,
            (DeviceClass::BladeLarge, _) => &table::BLADE_LARGE,
            (DeviceClass::Strip, _) => &table::STRIP,
            (DeviceClass::SingleBolt, _) => &table::SINGLE_BOLT,
            (DeviceClass::ClassT, _) => &table::CLASS_T,
            (DeviceClass::ClassC, _) => &table::CLASS_C,
            (DeviceClass::BreakerDcThermal, _) => &table::THERMAL,
            (DeviceClass::Breaker60898, Some(BreakerCurve::B)) => &table::BREAKER_B,
            (DeviceClass::Breaker60898, Some(BreakerCurve::C)) => &table::BREAKER_C,
            (DeviceClass::Breaker60898, Some(BreakerCurve::D)) => &table::BREAKER_D,
            (DeviceClass::Breaker60898Direct, Some(BreakerCurve::B)) => &table::BREAKER_B_DIRECT,
            (DeviceClass::Breaker60898Direct, Some(BreakerCurve::C)) => &table::BREAKER_C_DIRECT,
            (
                DeviceClass::Cartridge
                | DeviceClass::FlatPlate
                | DeviceClass::HighVoltageBoltDown
                | DeviceClass::Nh
                | DeviceClass::Cylindrical
                | DeviceClass::GlassTube
                | DeviceClass::Breaker60898
                | DeviceClass::Breaker60898Direct
                | DeviceClass::BreakerMouldedCase
                | DeviceClass::BreakerDcHydraulicMagnetic,
                _,
            ) => return None,
        };
        if !positive(self.rating) {
            return None;
        }
        bands.iter().find(|band| self.rating <= band.up_to)
    }
}

/// When `device` opens at a steady current of `amperes`, from cold at the reference ambient of its standard.
///
/// Each bound is unknown by itself: outside the points of its class (but see the head of this module), for a class without any, and for a number that is not usable.
#[must_use]
pub fn opening_time(device: Device, amperes: f64) -> OpeningTime {
    let unknown = OpeningTime { least: None, most: None };
    let Some(band) = device.band() else { return unknown };
    let multiple = amperes / device.rating;
    if !positive(multiple) {
        return unknown;
    }
    let beyond = band.not_after.last().filter(|last| band.ends_open && multiple > last.multiple);
    // A smaller current never opens a device sooner, so below the first point its least time stands.
    let below = band.not_before.first().filter(|first| multiple < first.multiple);
    OpeningTime {
        least: below.map(of_point).or_else(|| between(band.not_before, multiple, f64::min)),
        most: beyond.map(of_point).or_else(|| between(band.not_after, multiple, f64::max)),
    }
}

/// The longest time in which `device` opens at `amperes`, and at every larger current: as [`opening_time`], and beyond the last point of its band
/// the time of that point, since a larger current opens a device no later.
#[must_use]
pub fn opens_within(device: Device, amperes: f64) -> Option<Time> {
    let last = device.band().and_then(|band| band.not_after.last())?;
    if positive(amperes) && amperes / device.rating > last.multiple {
        return Some(of_point(last));
    }
    opening_time(device, amperes).most
}

/// A current of a device's band, how well it is known and the source of the point that it hangs on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BandCurrent {
    /// Amperes.
    pub amperes: f64,
    /// The mark, as of a [`Time`].
    pub mark: Mark,
    /// Where the point comes from.
    pub citation: &'static Citation,
}

/// The least current from which on `device` has surely opened within `seconds`, as far as its band reaches; a larger current opens it no later.
///
/// `None` where its class promises no such time and for numbers that are not usable.
#[must_use]
pub fn current_that_opens(device: Device, seconds: f64) -> Option<BandCurrent> {
    let band = device.band().filter(|_| positive(seconds))?;
    let slow = band.not_after.iter().rposition(|point| point.seconds > seconds);
    let at = slow.map_or(0, |slow| slow + 1);
    let quick = band.not_after.get(at)?;
    Some(crossing(device, slow.and_then(|slow| band.not_after.get(slow)), quick, seconds))
}

/// The largest current up to which `device` surely carries for at least `seconds`.
///
/// `None` where its class promises no such time and for numbers that are not usable.
#[must_use]
pub fn current_that_is_carried(device: Device, seconds: f64) -> Option<BandCurrent> {
    let band = device.band().filter(|_| positive(seconds))?;
    let short = band.not_before.iter().position(|point| point.seconds < seconds);
    let last = short.unwrap_or(band.not_before.len()).checked_sub(1)?;
    let long = band.not_before.get(last)?;
    match short.and_then(|short| band.not_before.get(short)) {
        Some(short) => Some(crossing(device, Some(long), short, seconds)),
        None => Some(crossing(device, None, long, seconds)),
    }
}

/// Where the line from the point before to this one meets `seconds`; the point itself without one before.
fn crossing(device: Device, before: Option<&'static Point>, point: &'static Point, seconds: f64) -> BandCurrent {
    let exact =
        BandCurrent { amperes: point.multiple * device.rating, mark: point.citation.mark, citation: point.citation };
    let Some(before) = before.filter(|_| point.seconds != seconds) else { return exact };
    let share = (seconds / before.seconds).ln() / (point.seconds / before.seconds).ln();
    let multiple = (before.multiple.ln() + share * (point.multiple / before.multiple).ln()).exp();
    let weaker = if weakness(point.citation.mark) > weakness(before.citation.mark) { point } else { before };
    let computed = weakness(weaker.citation.mark) < weakness(Mark::Computed);
    let mark = if computed { Mark::Computed } else { weaker.citation.mark };
    BandCurrent { amperes: multiple * device.rating, mark, citation: weaker.citation }
}

/// The most that a fuse lets through between two currents, as the copper area that stands it, m², with k in A·√s/m².
///
/// The band's points within the range and its ends are looked at, and of what lies beyond its last point that the energy I²t does not rise: past
/// there a fuse melts before its heat can leave it (computed). `None` for breakers, whose time does not fall with the current, where the band
/// says nothing of the smallest current, and where it takes longer than the adiabatic equation holds.
#[must_use]
pub fn area_between(device: Device, from: f64, to: f64, k: f64) -> Option<f64> {
    let band = device.band().filter(|band| !band.ends_open)?;
    let last = band.not_after.last()?;
    let end = last.multiple * device.rating;
    if !(positive(from) && positive(to) && from <= to && last.seconds <= crate::adiabatic::LONGEST_SECONDS) {
        return None;
    }
    let mut looked_at = vec![from.min(end), to.min(end)];
    looked_at.extend(band.not_after.iter().map(|point| point.multiple * device.rating));
    looked_at.retain(|amperes| (from.min(end)..=to.min(end)).contains(amperes));
    looked_at
        .into_iter()
        .map(|amperes| area_that_stands(device, amperes, k))
        .try_fold(0.0, |most, area| area.map(|area| f64::max(most, area)))
}

/// A multiple this near to a point is the point: 1.35 × 40 A / 40 A need not be exactly 1.35 in binary. Chosen.
const SAME_MULTIPLE: f64 = 1e-9;

fn of_point(point: &Point) -> Time {
    Time { seconds: point.seconds, mark: point.citation.mark, citation: point.citation }
}

/// The time on the line through the points; where two points stand at one multiple, the `safer` of them.
fn between(points: &'static [Point], multiple: f64, safer: fn(f64, f64) -> f64) -> Option<Time> {
    let near = |point: &&Point| (point.multiple / multiple - 1.0).abs() <= SAME_MULTIPLE;
    let at_point = points
        .iter()
        .filter(near)
        .reduce(|one, other| if safer(one.seconds, other.seconds) == one.seconds { one } else { other });
    if let Some(point) = at_point {
        return Some(of_point(point));
    }
    points.windows(2).find_map(|pair| {
        let [low, high] = pair else { return None };
        if !(low.multiple < multiple && multiple < high.multiple) {
            return None;
        }
        let share = (multiple / low.multiple).ln() / (high.multiple / low.multiple).ln();
        let seconds = (low.seconds.ln() + share * (high.seconds / low.seconds).ln()).exp();
        let weaker = if weakness(high.citation.mark) > weakness(low.citation.mark) { high } else { low };
        let computed = weakness(weaker.citation.mark) < weakness(Mark::Computed);
        let mark = if computed { Mark::Computed } else { weaker.citation.mark };
        Some(Time { seconds, mark, citation: weaker.citation })
    })
}

/// The order of the marks, the best known first.
fn weakness(mark: Mark) -> u8 {
    match mark {
        Mark::Read => 0,
        Mark::Computed => 1,
        Mark::SecondHand => 2,
        Mark::CommonPractice => 3,
        Mark::Chosen => 4,
        Mark::Memory => 5,
    }
}

/// Whether `downstream` has surely opened before `upstream` may begin to, at every current from `from` to `to`, A.
///
/// Both bounds are straight lines in logarithms, so their order is settled at their points and at the ends of the range. Currents that
/// both surely carry need no order and are not looked at: start the range where the downstream device has a longest time. `None` for a range
/// that is empty or not usable.
#[must_use]
pub fn selectivity(upstream: Device, downstream: Device, from: f64, to: f64) -> Option<Selectivity> {
    if !(positive(from) && positive(to) && from <= to) {
        return None;
    }
    let mut looked_at = vec![from, to];
    for device in [upstream, downstream] {
        let band = device.band();
        let points =
            band.map_or(&[][..], |band| band.not_before).iter().chain(band.map_or(&[][..], |band| band.not_after));
        // Just beside a point as well: there a bound may step or end.
        let beside = [1.0 - BESIDE, 1.0, 1.0 + BESIDE];
        looked_at.extend(points.flat_map(|point| beside.map(|share| share * point.multiple * device.rating)));
    }
    looked_at.retain(|amperes| (from..=to).contains(amperes));
    looked_at.sort_by(f64::total_cmp);
    let mut unknown = None;
    for amperes in looked_at {
        match (opening_time(downstream, amperes).most, opening_time(upstream, amperes).least) {
            (Some(most), Some(least)) if most.seconds < least.seconds => {}
            (Some(_), Some(_)) => return Some(Selectivity::NotSelective { amperes }),
            _ => unknown = unknown.or(Some(amperes)),
        }
    }
    Some(unknown.map_or(Selectivity::Selective, |amperes| Selectivity::Unknown { amperes }))
}

/// How far beside a point is looked, as a share. Chosen: above [`SAME_MULTIPLE`].
const BESIDE: f64 = 1e-6;

/// Least copper area, m², that stands `amperes` until `device` has surely opened, with k in A·√s/m² ([`crate::adiabatic_k`]).
///
/// `None` where the longest time is unknown, or longer than the five seconds for which the adiabatic equation holds.
#[must_use]
pub fn area_that_stands(device: Device, amperes: f64, k: f64) -> Option<f64> {
    smallest_area(amperes, opening_time(device, amperes).most?.seconds, k)
}
