//! The vehicle's metal as a way back: which loads hang on it, and what lies between it and the source.

use super::groups::Groups;
use super::piece::Bound;
use crate::circuitry::{Piece, Run};
use crate::fact::Outcome;
use crate::known::{CaseId, PartId};
use crate::methods::{conductor, is_said, network};
use crate::part::Build;
use crate::reader::Reader;
use calc::{ConductorSize, Stranding};
use vocabulary::{fact as f, kind};

/// The length of a bond, m, where none can be said. Chosen: from the bar to the nearest bare metal.
const BOND_METRES: f64 = 0.5;

/// Whether the last conductor of a run toward a node leaves the way back to the vehicle's metal.
///
/// # Errors
/// What is not known of it.
pub fn comes_back_by_metal(reader: &mut Reader<'_>, run: &Run, node: usize, case: CaseId) -> Outcome<bool> {
    let conductor = |piece: &Piece| match piece {
        Piece::Conductor(conductor) => Some(*conductor),
        _ => None,
    };
    let last = if run.nodes[1] == Some(node) {
        run.pieces.iter().rev().find_map(conductor)
    } else {
        run.pieces.iter().find_map(conductor)
    };
    last.map_or(Ok(false), |last| network::chassis_return(reader, written(reader.build(), last), case))
}

fn written(build: &Build, part: PartId) -> PartId {
    build.circuitry().written(part)
}

/// The resistance between the metal and the way back to the sources of a group, Ω: the base vehicle's own strap, else all bonds of busbars in
/// parallel; nothing is reckoned where none is said (a rule of its own asks for it).
///
/// # Errors
/// What is not known of the role of a battery.
pub fn resistance(reader: &mut Reader<'_>, groups: &Groups, group: usize, bound: Bound, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let pick = |assumed: calc::AssumedResistance| match bound {
        Bound::Usual => assumed.usual,
        Bound::Most => assumed.most,
    };
    for terminal in build.circuitry().terminals(groups.nodes(group)) {
        let base = match build.part(terminal.thing).kind {
            kind::ALTERNATOR | kind::TRAILER_PLUG => true,
            kind::BATTERY if !reader.silent(terminal.thing, f::battery::ROLE) => {
                reader.need_word(terminal.thing, f::battery::ROLE, case)? == "starter"
            }
            _ => false,
        };
        if base {
            return Ok(pick(calc::metal_strap_resistance()));
        }
    }
    let mut siemens = 0.0;
    for &busbar in build.of_kind(kind::BUSBAR).members.iter() {
        let sized = is_said(reader, busbar, f::busbar::BOND)?;
        let size = match reader.written(busbar, f::busbar::BOND).filter(|_| sized) {
            Some(spec::Value::WireSize(size)) => conductor::conductor_size(*size),
            _ if is_said(reader, busbar, f::busbar::TO)? => ConductorSize::Area(UNSAID_BOND),
            _ => continue,
        };
        let copper = calc::resistance_per_metre(size, Stranding::Flexible).ohm_per_metre_20c * BOND_METRES;
        siemens += 1.0 / (copper + pick(calc::metal_joint_resistance()));
    }
    Ok(if siemens > 0.0 && f64::is_finite(siemens) { 1.0 / siemens } else { 0.0 })
}

/// The area of a bond of which only the end is said, m²: 16 mm². Chosen: the usual size aboard.
const UNSAID_BOND: f64 = 16e-6;
