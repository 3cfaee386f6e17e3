//! Whether a circuit carries direct or alternating current, and at which side it meets a converter.

use crate::circuitry::{Side, Terminal};
use crate::known::PartId;
use crate::part::Build;
use spec::Value;
use vocabulary::{PartKind, fact, kind};

/// How a run meets a thing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Joined {
    /// Whether the run is written as coming from the thing.
    pub from: bool,
    /// Whether the run carries alternating current.
    pub alternating: bool,
}

/// What has to do with alternating current alone.
const ALTERNATING: [PartKind; 5] =
    [kind::AC_BOARD, kind::SHORE, kind::TRANSFER_SWITCH, kind::GENERATOR, kind::ISOLATING_TRANSFORMER];

/// What has to do with direct current alone.
const DIRECT: [PartKind; 8] = [
    kind::BATTERY,
    kind::BUSBAR,
    kind::PANEL,
    kind::ALTERNATOR,
    kind::CONVERTER,
    kind::SOLAR,
    kind::SOLAR_CONTROLLER,
    kind::TRAILER_PLUG,
];

/// Whether a circuit between these things carries alternating current: what one of them must have decides, else an inverter
/// at its start.
pub fn alternating(build: &Build, from: Option<PartId>, to: &[PartId]) -> bool {
    let kind = |thing: &PartId| build.part(*thing).kind;
    let either = |kinds: &[PartKind]| from.iter().chain(to).any(|thing| kinds.contains(&kind(thing)));
    if either(&ALTERNATING) {
        return true;
    }
    !either(&DIRECT) && from.is_some_and(|from| matches!(kind(&from), kind::INVERTER | kind::INVERTER_CHARGER))
}

/// The terminal at which a run meets a thing; `supply` is the number of runs that feed it already.
pub fn terminal(build: &Build, thing: PartId, joined: Joined, supply: u8) -> Terminal {
    let output = |yes: bool| if yes { Side::Output } else { Side::Input };
    let side = match build.part(thing).kind {
        kind::CHARGER if fed_by_mains(build, thing) => output(!joined.alternating),
        kind::CHARGER | kind::CONVERTER | kind::SOLAR_CONTROLLER | kind::ISOLATING_TRANSFORMER => output(joined.from),
        kind::INVERTER => output(joined.alternating),
        kind::INVERTER_CHARGER if !joined.alternating => Side::Input,
        kind::INVERTER_CHARGER if joined.from => Side::Output,
        kind::INVERTER_CHARGER => Side::Supply(0),
        kind::TRANSFER_SWITCH if joined.from => Side::Output,
        kind::TRANSFER_SWITCH => Side::Supply(supply),
        _ => Side::Input,
    };
    Terminal { thing, side }
}

/// Whether a charger says that the mains feed it.
fn fed_by_mains(build: &Build, charger: PartId) -> bool {
    let choices = vocabulary::fact_spec(fact::charger::KIND).choices();
    match build.part(charger).given(fact::charger::KIND).map(|given| &given.value) {
        Some(Value::Choice(number)) => choices.get(usize::from(*number)) == Some(&"mains"),
        _ => false,
    }
}
